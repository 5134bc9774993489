/** What to prepare and to check before the first cut, in order. */
import type { DisplayUnit } from '../../design/document.ts';
import { worded } from '../../plan/wording.ts';
import type { WorkPlan } from './workPlan.ts';

export function Preparations({ plan, unit }: { plan: WorkPlan; unit: DisplayUnit }) {
  return (
    <section className="group" aria-label="Before the first cut">
      <h2>Before the first cut</h2>
      <ol className="preparations">
        {plan.preparations.map((words) => {
          const text = worded(words, unit);
          return <li key={text}>{text}</li>;
        })}
      </ol>
    </section>
  );
}
