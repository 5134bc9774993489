/** Wood at the ends of the blank to hold the piece by, beyond the form. Lengths mm. */
import { useState } from 'react';
import type { Design } from '../../design/document.ts';
import { type Holding, holdingOf, setHolding } from '../../design/holding.ts';
import { useBench } from '../bench.ts';
import { NumberField } from '../fields/NumberField.tsx';
import { Reason } from '../fields/Reason.tsx';
import { lengthQuantity } from '../fields/quantity.ts';

const ENDS: readonly { key: keyof Holding; label: string }[] = [
  { key: 'foot_mm', label: 'Waste at the foot' },
  { key: 'head_mm', label: 'Waste at the head' },
];

export function HoldingFields({ design }: { design: Design }) {
  const edit = useBench((bench) => bench.edit);
  const endGesture = useBench((bench) => bench.endGesture);
  const [reason, setReason] = useState<string | null>(null);
  const free = holdingOf(design);
  if (!free) return null;
  const set = (key: keyof Holding, value_mm: number, gesture?: string) =>
    setReason(
      edit(
        'the waste for holding',
        (current) => setHolding(current, { ...(holdingOf(current) ?? free), [key]: value_mm }),
        gesture,
      ),
    );
  return (
    <section className="group" aria-label="For holding">
      <h2>For holding</h2>
      {ENDS.map(({ key, label }) => (
        <NumberField
          key={key}
          label={label}
          value={free[key]}
          quantity={lengthQuantity(design.unit)}
          min={0}
          max={500}
          onChange={(value_mm, gesture) => set(key, value_mm, gesture)}
          onSettle={endGesture}
        />
      ))}
      <p className="legend">
        For a tenon or the lathe’s centres. It makes the blank longer; form and rings stay together, and the
        stop at the saw counts it.
      </p>
      <Reason reason={reason} />
    </section>
  );
}
