/** A measured thickness, set with big buttons: fine and coarse, no typing and no gesture needed. Values in mm. */
import { Check, RotateCcw } from 'lucide-react';
import type { DisplayUnit } from '../../design/document.ts';
import { MM_PER_INCH } from '../../design/units.ts';
import { thickness } from '../../files/sheet/numbers.ts';
import type { Verdict } from './verdicts.ts';

export interface StepperProps {
  readonly label: string;
  /** null: not measured. */
  readonly measured_mm: number | null;
  /** Where the buttons start from. */
  readonly planned_mm: number;
  readonly unit: DisplayUnit;
  readonly min_mm: number;
  /** What the measure says against the plan; null where there is none. */
  readonly verdict?: Verdict | null;
  readonly onChange: (value_mm: number | null) => void;
}

/** Thousandths and hundredths of an inch, hundredths and tenths of a millimetre. */
const STEPS_MM: Readonly<Record<DisplayUnit, readonly [fine: number, coarse: number]>> = {
  in: [MM_PER_INCH / 1000, MM_PER_INCH / 100],
  mm: [0.01, 0.1],
};
const STEP_TEXT: Readonly<Record<DisplayUnit, readonly [string, string]>> = {
  in: ['0.001', '0.010'],
  mm: ['0.01', '0.10'],
};

export function Stepper(props: StepperProps) {
  const { label, measured_mm, planned_mm, unit, min_mm, verdict = null, onChange } = props;
  const [fine, coarse] = STEPS_MM[unit];
  const [fineText, coarseText] = STEP_TEXT[unit];
  const value = measured_mm ?? planned_mm;
  const step = (by: number, text: string, sign: '−' | '+') => (
    <button
      type="button"
      className="saw-button step"
      aria-label={`${label}: ${sign === '+' ? 'more' : 'less'} by ${text}`}
      disabled={sign === '−' && value <= min_mm + 1e-9}
      onClick={() => onChange(Math.max(min_mm, stepped(value, sign === '+' ? by : -by, fine)))}
    >
      {sign}
      {text}
    </button>
  );
  return (
    <fieldset className="saw-stepper">
      <legend>
        {label}{' '}
        <small>{measured_mm === null ? 'not measured yet' : `planned ${thickness(planned_mm, unit)}`}</small>{' '}
        {verdict && (
          <small className="saw-verdict" aria-live="polite" data-off={verdict.off}>
            {verdict.words}
          </small>
        )}
      </legend>
      <div className="saw-stepper-row">
        {step(coarse, coarseText, '−')}
        {step(fine, fineText, '−')}
        <output data-measured={measured_mm !== null} data-off={verdict?.off === true} aria-label={label}>
          {thickness(value, unit)}
        </output>
        {step(fine, fineText, '+')}
        {step(coarse, coarseText, '+')}
        {measured_mm === null ? (
          <button
            type="button"
            className="saw-button"
            aria-label={`${label}: measured as planned`}
            onClick={() => onChange(planned_mm)}
          >
            <Check /> As planned
          </button>
        ) : (
          <button
            type="button"
            className="saw-button"
            aria-label={`${label}: forget the measure`}
            onClick={() => onChange(null)}
          >
            <RotateCcw /> Forget
          </button>
        )}
      </div>
    </fieldset>
  );
}

/** The next whole fine step up or down from a value, or one coarse step on, kept on fine steps. */
export function stepped(value_mm: number, by_mm: number, fine_mm: number): number {
  const at = value_mm / fine_mm;
  const steps = Math.round(Math.abs(by_mm) / fine_mm);
  const next = by_mm > 0 ? Math.floor(at + 1e-6) + steps : Math.ceil(at - 1e-6) - steps;
  return Number((next * fine_mm).toFixed(6));
}
