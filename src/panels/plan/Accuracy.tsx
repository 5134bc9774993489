/** How well rings and crossings will come out with the maker's fence and stop, and which error to care for most. */
import type { Design } from '../../design/document.ts';
import { formatLength, formatThickness } from '../../design/lengthText.ts';
import {
  careText,
  chanceText,
  grazingText,
  offCentreText,
  ringGroups,
  within_mm,
} from '../../plan/accuracy.ts';
import { chanceBeyond, type CrossingErrors } from '../../plan/crossingErrors.ts';
import { slotRuns } from '../../plan/wording.ts';
import { NumberField } from '../fields/NumberField.tsx';
import { thicknessQuantity } from '../fields/quantity.ts';
import { AsBuilt } from './AsBuilt.tsx';
import { settle, type ChosenBy } from './useChoices.ts';
import type { WorkPlan } from './workPlan.ts';

export function Accuracy({ design, plan, chosen }: { design: Design; plan: WorkPlan; chosen: ChosenBy }) {
  const { accuracy } = plan;
  if (!accuracy || accuracy.rings.length === 0) return null;
  const { unit, saw } = design;
  const { crossings } = accuracy;
  return (
    <section className="group" aria-label="Accuracy">
      <h2>Accuracy</h2>
      <table className="strips">
        <caption>How far a ring can lie off its place</caption>
        <thead>
          <tr>
            <th scope="col">Rings</th>
            <th scope="col">At worst</th>
            <th scope="col">Usual</th>
          </tr>
        </thead>
        <tbody>
          {ringGroups(accuracy.rings).map(({ slots, worst_mm, rss_mm }) => (
            <tr key={slots[0]}>
              <th scope="row">{slotRuns(slots).join(', ')}</th>
              <td>{formatThickness(worst_mm, unit)}</td>
              <td>{formatThickness(rss_mm, unit)}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <p className="lede spaced">
        Along the axis, at the largest radius of the outside, with the fence true to {saw.angle_tolerance_deg}
        ° and the stop to {formatLength(saw.stop_tolerance_mm, unit)}. Usual: both errors independent, root of
        the sum of squares. {offCentreText(design.sets)}
      </p>
      {crossings && crossings.steady > 0 && (
        <Crossings
          errors={crossings}
          slots={plan.setups.map(({ slot }) => slot)}
          unit={unit}
          chosen={chosen}
        />
      )}
      <AsBuilt design={design} />
    </section>
  );
}

function Crossings({
  errors,
  slots,
  unit,
  chosen: { choices, choose },
}: {
  errors: CrossingErrors;
  slots: readonly string[];
  unit: Design['unit'];
  chosen: ChosenBy;
}) {
  const tries = errors.largest_mm.length;
  const chance = chanceBeyond(errors, choices.offBy_mm);
  return (
    <>
      <NumberField
        label="A crossing is off by more than"
        value={choices.offBy_mm}
        quantity={thicknessQuantity(unit)}
        min={0.001}
        max={100}
        onChange={(offBy_mm) => choose({ offBy_mm })}
        onSettle={settle}
      />
      <dl className="facts">
        <dt>Chance that any crossing is</dt>
        <dd>{chanceText(chance, tries)}</dd>
        <dt>Half of the pieces have all within</dt>
        <dd>{formatThickness(within_mm(errors, 0.5), unit)}</dd>
        <dt>19 pieces of 20 within</dt>
        <dd>{formatThickness(within_mm(errors, 0.95), unit)}</dd>
      </dl>
      <p className="lede spaced">
        From {tries.toLocaleString('en-US')} pieces tried by chance, {errors.steady} crossings each.
        {grazingText(errors)} {careText(errors, slots)}
      </p>
    </>
  );
}
