/** Cautions that apply to this work, place by place, each with its source. */
import type { Caution, CautionPlace } from '../../plan/cautions.ts';
import type { DisplayUnit } from '../../design/document.ts';
import { worded } from '../../plan/wording.ts';
import type { WorkPlan } from './workPlan.ts';

const PLACES: readonly (readonly [CautionPlace, string])[] = [
  ['everywhere', 'First'],
  ['saw', 'At the saw'],
  ['glue', 'Glue'],
  ['lathe', 'At the lathe'],
  ['dust', 'Dust'],
];

export function Cautions({ plan, unit }: { plan: WorkPlan; unit: DisplayUnit }) {
  return (
    <section className="group" aria-label="Cautions">
      <h2>Cautions</h2>
      {PLACES.map(([place, name]) => (
        <Place
          key={place}
          name={name}
          unit={unit}
          cautions={plan.cautions.filter((caution) => caution.where === place)}
        />
      ))}
    </section>
  );
}

function Place({ name, cautions, unit }: { name: string; cautions: readonly Caution[]; unit: DisplayUnit }) {
  if (cautions.length === 0) return null;
  return (
    <>
      <h3 className="caution-place">{name}</h3>
      <ul className="cautions">
        {cautions.map((caution) => (
          <li key={caution.id}>
            {worded(caution.words, unit)} <small>{caution.source}</small>
          </li>
        ))}
      </ul>
    </>
  );
}
