/** The controls of the current station. What the first visit does not show is loaded when it is gone to. */
import { ArrowRight } from 'lucide-react';
import { lazy, type RefObject } from 'react';
import { BlankStation } from '../panels/blank/BlankStation.tsx';
import { FormStation } from '../panels/form/FormStation.tsx';
import { MessageList } from '../panels/messages/MessageList.tsx';
import { RingsStation } from '../panels/rings/RingsStation.tsx';
import type { StageHandle } from '../stage/props.ts';
import type { Station } from '../panels/bench.ts';
import { useApp } from './AppContext.ts';
import { Later } from './Later.tsx';
import { STATION_NAMES } from './StationRail.tsx';

const PlanStation = lazy(async () => {
  const plan = await import('../panels/plan/PlanStation.tsx');
  return { default: plan.PlanStation };
});

const ShowStation = lazy(async () => {
  const show = await import('./show/ShowStation.tsx');
  return { default: show.ShowStation };
});

export function StationPanel({ stage }: { readonly stage: RefObject<StageHandle | null> }) {
  const station = useApp((state) => state.station);
  const cuts = useApp((state) => state.design.order.length);
  const document = useApp((state) => state.document.id);
  const tall = useApp((state) => state.view.sheetTall);
  const setView = useApp((state) => state.setView);
  return (
    <aside className="panel" aria-label={STATION_NAMES[station]}>
      <button
        type="button"
        className="sheet-handle"
        aria-expanded={tall}
        aria-label={tall ? 'Give the stage more room' : 'Give the controls more room'}
        onClick={() => setView({ sheetTall: !tall })}
      />
      {/* Another station and another document start at the top, with nothing left over from the one before. */}
      <div key={`${station} ${document}`} className="panel-body">
        <div className="panel-head">
          <h1>{STATION_NAMES[station]}</h1>
          {station === 'rings' && (
            <span className="panel-count">{cuts === 1 ? '1 cut' : `${cuts} cuts`}</span>
          )}
        </div>
        {station === 'show' ? (
          <Later>
            <ShowStation stage={stage} />
          </Later>
        ) : (
          <Controls station={station} />
        )}
      </div>
      {station !== 'show' && <NextStep station={station} />}
      {station !== 'show' && <MessageList />}
    </aside>
  );
}

/** While the design lacks what a later station gives it: the way there. */
function NextStep({ station }: { station: Station }) {
  const uncut = useApp((state) => state.design.order.length === 0);
  const unturned = useApp((state) => state.design.form === null);
  const next = uncut ? 'rings' : unturned ? 'form' : null;
  if (next === null || next === station || station === 'plan' || (station === 'rings' && uncut)) return null;
  return (
    <a className="next-step" href={`#/${next}`}>
      <span>{next === 'rings' ? 'Next: add rings' : 'Next: choose a form'}</span>
      <ArrowRight />
    </a>
  );
}

function Controls({ station }: { station: Exclude<Station, 'show'> }) {
  if (station === 'blank') return <BlankStation />;
  if (station === 'rings') return <RingsStation />;
  if (station === 'form') return <FormStation />;
  return (
    <Later>
      <PlanStation />
    </Later>
  );
}
