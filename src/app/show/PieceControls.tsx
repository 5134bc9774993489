/** How the piece is shown: finish, light, turning, and what stands beside it. */
import { Rotate3d, Ruler } from 'lucide-react';
import type { DisplayUnit } from '../../design/document.ts';
import { setFinish } from '../../design/woodEdits.ts';
import { Segmented } from '../../panels/fields/Segmented.tsx';
import type { Finish, ScaleReference, StudioLight } from '../../stage/props.ts';
import { spokenLength } from '../../plan/offerText.ts';
import { useApp } from '../AppContext.ts';
import { inClientsUnit } from './clientUnit.ts';
import { useEdits } from './useEdits.ts';

const FINISHES: readonly { value: Finish; name: string }[] = [
  { value: 'raw', name: 'Raw' },
  { value: 'oiled', name: 'Oiled' },
  { value: 'gloss', name: 'Gloss' },
];

const LIGHTS: readonly { value: StudioLight; name: string }[] = [
  { value: 'studio', name: 'Studio' },
  { value: 'window', name: 'Window' },
  { value: 'overcast', name: 'Cloudy' },
  { value: 'evening', name: 'Evening' },
];

const REFERENCES: readonly { value: ScaleReference | 'none'; name: string }[] = [
  { value: 'none', name: 'Nothing' },
  { value: 'hand', name: 'Hand' },
  { value: 'pencil', name: 'Pencil' },
  { value: 'coin', name: 'Coin' },
];

/** How large they are drawn (stage/scaleOverlay.ts). */
const REFERENCE_SIZES: Readonly<Record<ScaleReference, (unit: DisplayUnit) => string>> = {
  hand: (unit) => `The hand is ${spokenLength(190, unit)} long, from wrist to fingertip.`,
  pencil: (unit) => `The pencil is ${spokenLength(175, unit)} long.`,
  coin: (unit) => `The coin is ${spokenLength(24, unit)} across.`,
};

export function PieceControls() {
  const client = useApp((state) => state.client !== null);
  const own = useApp((state) => state.design.form?.finish ?? 'oiled');
  const squared = useApp((state) => state.design.form === null);
  const unit = useApp((state) => (client ? inClientsUnit(state.design) : state.design).unit);
  const view = useApp((state) => state.view);
  const setView = useApp((state) => state.setView);
  const { edit } = useEdits();
  const { shown } = view;
  const show = (change: Partial<typeof shown>) => setView({ shown: { ...shown, ...change } });
  // A client tries a finish on; the maker decides on one.
  const choose = (finish: Finish) => {
    if (client) show({ finish: finish === own ? null : finish });
    else edit(`finish: ${finish}`, (design) => setFinish(design, finish === 'oiled' ? null : finish));
  };
  return (
    <div className="piece-controls">
      {!squared && (
        <Segmented field label="Finish" value={shown.finish ?? own} choices={FINISHES} onChange={choose} />
      )}
      <Segmented
        field
        label="Light"
        value={shown.light}
        choices={LIGHTS}
        onChange={(light) => show({ light })}
      />
      <Segmented
        field
        label="Beside it, for size"
        value={shown.reference ?? 'none'}
        choices={REFERENCES}
        onChange={(reference) => show({ reference: reference === 'none' ? null : reference })}
      />
      {shown.reference !== null && <p className="lede">{REFERENCE_SIZES[shown.reference](unit)}</p>}
      <div className="show-toggles">
        <button
          type="button"
          className="button"
          aria-pressed={view.turntable}
          onClick={() => setView({ turntable: !view.turntable })}
        >
          <Rotate3d /> Turntable
        </button>
        <button
          type="button"
          className="button"
          aria-pressed={shown.dimensions}
          onClick={() => show({ dimensions: !shown.dimensions })}
        >
          <Ruler /> Dimensions
        </button>
      </div>
    </div>
  );
}
