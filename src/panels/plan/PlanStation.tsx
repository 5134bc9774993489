/** Station 4: how the saw is set for every cut, which cuts are glued together, and the strips to prepare. */
import { Tablet } from 'lucide-react';
import type { Design } from '../../design/document.ts';
import { setSaw } from '../../design/edits.ts';
import { useBench } from '../bench.ts';
import { useReport } from '../useReport.ts';
import { Accuracy } from './Accuracy.tsx';
import { Cautions } from './Cautions.tsx';
import { limitGroups } from './limitGroups.ts';
import { Preparations } from './Preparations.tsx';
import { SawSettings } from './SawSettings.tsx';
import { Setups } from './Setups.tsx';
import { ShopSheet } from './ShopSheet.tsx';
import { StripList } from './StripList.tsx';
import { useChoices } from './useChoices.ts';
import { Wood } from './Wood.tsx';
import type { WorkPlan } from './workPlan.ts';
import './plan.css';

export function PlanStation() {
  const design = useBench((bench) => bench.design);
  const { plan, planDesign, computing } = useReport();
  const chosen = useChoices(design.unit);
  if (design.order.length === 0)
    return (
      <section className="group flush-top nothing-yet" aria-label="Nothing yet">
        <p className="lede">There is nothing to saw yet. The plan follows the rings.</p>
        <a className="button primary" href="#/rings">
          Add rings
        </a>
      </section>
    );
  if (!plan || !planDesign) return <p className="group flush-top lede">Working out the plan …</p>;
  return (
    <div data-stale={computing}>
      <section className="group flush-top plan-ways" aria-label="Work from the plan">
        <a className="button primary full at-saw-link" href="#/saw">
          <Tablet /> At the saw, step by step
        </a>
        <ShopSheet design={design} choices={chosen.choices} />
      </section>
      <Summary design={planDesign} plan={plan} />
      <Limits design={planDesign} plan={plan} />
      <Preparations plan={plan} unit={design.unit} />
      <Setups design={planDesign} plan={plan} />
      <StripList design={planDesign} plan={plan} chosen={chosen} />
      <Accuracy design={planDesign} plan={plan} chosen={chosen} />
      <Wood design={planDesign} plan={plan} chosen={chosen} />
      <SawSettings design={design} />
      <Cautions plan={plan} unit={design.unit} />
    </div>
  );
}

function Summary({ design, plan }: { design: Design; plan: WorkPlan }) {
  const { sessions, longestChain, exact, bound, changes } = plan.sessions;
  return (
    <section className="group" aria-label="In short">
      <dl className="facts">
        <dt>Cuts</dt>
        <dd>{plan.setups.length}</dd>
        <dt>Glue-ups</dt>
        <dd>{sessions.length}</dd>
        <dt>In clamps</dt>
        <dd>{hours(sessions.length * design.saw.clamp_minutes)}</dd>
        <dt>Changes of fence and stop</dt>
        <dd>{changes}</dd>
      </dl>
      <p className="lede spaced">
        {!exact
          ? `The fewest glue-ups found; no plan can have fewer than ${bound}.`
          : `No plan has fewer glue-ups${sessions.length === longestChain && longestChain > 1 ? `: ${longestChain} cuts each wait for the one before` : ''}.`}
      </p>
      <Choices design={design} plan={plan} />
    </section>
  );
}

/** What it would bring to leave more slots open at once. */
function Choices({ design, plan }: { design: Design; plan: WorkPlan }) {
  const edit = useBench((bench) => bench.edit);
  const worth = plan.choices.filter(
    (choice, i) =>
      i === 0 || choice.glueUps < plan.choices[i - 1].glueUps || choice.maxOpen === design.saw.max_open_slots,
  );
  if (worth.length < 2) return null;
  return (
    <table className="strips choices">
      <caption>Slots open at once</caption>
      <thead>
        <tr>
          <th scope="col">At most</th>
          <th scope="col">Glue-ups</th>
          <th scope="col">In clamps</th>
        </tr>
      </thead>
      <tbody>
        {worth.map((choice) => (
          <tr key={choice.maxOpen}>
            <th scope="row">
              <button
                type="button"
                className="button"
                aria-pressed={choice.maxOpen === design.saw.max_open_slots}
                onClick={() =>
                  edit('open slots', (current) => setSaw(current, { max_open_slots: choice.maxOpen }))
                }
              >
                {choice.maxOpen}
                <span className="visually-hidden"> open at most</span>
              </button>
            </th>
            <td>{choice.exact ? choice.glueUps : `${choice.glueUps} found`}</td>
            <td>{hours(choice.clampMinutes)}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function hours(minutes: number): string {
  if (minutes < 90) return `${Math.round(minutes)} min`;
  const whole = Math.floor(Math.round(minutes) / 60);
  const rest = Math.round(minutes) % 60;
  return rest === 0 ? `${whole} h` : `${whole} h ${rest} min`;
}

/** What this saw cannot cut, said once for all cuts it holds for, and what would make it possible. */
function Limits({ design, plan }: { design: Design; plan: WorkPlan }) {
  const limits = limitGroups(plan.limits, design.unit);
  if (limits.length === 0) return null;
  return (
    <section className="group limits" aria-label="Beyond your saw">
      <h2>Beyond your saw</h2>
      <ul>
        {limits.map(({ text, remedies }) => (
          <li key={text}>
            <p>{text}</p>
            <ul>
              {remedies.map((remedy) => (
                <li key={remedy}>{remedy}</li>
              ))}
            </ul>
          </li>
        ))}
      </ul>
    </section>
  );
}
