/** What blank and piece weigh, and how body and strips move between two humidities that the maker chooses. */
import type { Design } from '../../design/document.ts';
import { worded } from '../../plan/wording.ts';
import { movementWords, weightWords } from '../../plan/woodWords.ts';
import { NumberField } from '../fields/NumberField.tsx';
import type { Quantity } from '../fields/quantity.ts';
import { settle, type ChosenBy } from './useChoices.ts';
import type { WorkPlan } from './workPlan.ts';

const PERCENT: Quantity = {
  parse: (text) => {
    const value = Number(text.replace('%', '').trim());
    return text.trim() === '' || !Number.isFinite(value)
      ? { ok: false, reason: 'a number of per cent is needed' }
      : { ok: true, value };
  },
  format: (value) => `${Number(value.toFixed(1))} %`,
  step: 1,
};

export function Wood({ design, plan, chosen }: { design: Design; plan: WorkPlan; chosen: ChosenBy }) {
  const { choices, choose } = chosen;
  const { unit } = design;
  return (
    <section className="group" aria-label="Wood">
      <h2>Wood</h2>
      <p className="lede">{worded(weightWords(plan.weights, unit), unit)}</p>
      <NumberField
        label="Made at a humidity of"
        value={choices.dry_pct}
        quantity={PERCENT}
        min={1}
        max={99}
        onChange={(dry_pct) => choose({ dry_pct })}
        onSettle={settle}
      />
      <NumberField
        label="Kept at a humidity of"
        value={choices.damp_pct}
        quantity={PERCENT}
        min={1}
        max={99}
        onChange={(damp_pct) => choose({ damp_pct })}
        onSettle={settle}
      />
      {movementWords(design, choices.dry_pct, choices.damp_pct).map((words) => {
        const text = worded(words, unit);
        return (
          <p key={text} className="lede spaced">
            {text}
          </p>
        );
      })}
    </section>
  );
}
