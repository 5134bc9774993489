/** The maker's own saw and jig: what the plan is worked out for. */
import { useState } from 'react';
import type { Design, Saw } from '../../design/document.ts';
import { setSaw } from '../../design/edits.ts';
import { useBench } from '../bench.ts';
import { NumberField } from '../fields/NumberField.tsx';
import { ANGLE, COUNT, lengthQuantity, thicknessQuantity } from '../fields/quantity.ts';
import { Segmented } from '../fields/Segmented.tsx';

export function SawSettings({ design }: { design: Design }) {
  const edit = useBench((bench) => bench.edit);
  const endGesture = useBench((bench) => bench.endGesture);
  const [reason, setReason] = useState<string | null>(null);
  const { saw, unit } = design;
  const change = (label: string, to: Partial<Saw>, gesture?: string) =>
    setReason(edit(label, (current) => setSaw(current, to), gesture));
  const length = lengthQuantity(unit);
  const thin = thicknessQuantity(unit);
  return (
    <section className="group" aria-label="Your saw">
      <h2>Your saw</h2>
      <Segmented
        label="The stop stands where fence and blade make"
        field
        value={saw.stop_side}
        choices={[
          { value: 'acute', name: 'the acute angle' },
          { value: 'obtuse', name: 'the obtuse angle' },
        ]}
        onChange={(stop_side) => change('side of the stop', { stop_side })}
      />
      <NumberField
        label="Slots open at once, at most"
        value={saw.max_open_slots}
        quantity={COUNT}
        min={1}
        max={24}
        onChange={(max_open_slots, gesture) => change('open slots', { max_open_slots }, gesture)}
        onSettle={endGesture}
      />
      <NumberField
        label="Minutes in the clamps"
        value={saw.clamp_minutes}
        quantity={COUNT}
        min={0}
        max={2880}
        onChange={(clamp_minutes, gesture) => change('clamp time', { clamp_minutes }, gesture)}
        onSettle={endGesture}
      />
      <NumberField
        label="Fence from"
        value={saw.fence_min_deg}
        quantity={ANGLE}
        min={1}
        max={90}
        onChange={(fence_min_deg, gesture) => change('fence range', { fence_min_deg }, gesture)}
        onSettle={endGesture}
      />
      <NumberField
        label="Fence to"
        value={saw.fence_max_deg}
        quantity={ANGLE}
        min={1}
        max={90}
        onChange={(fence_max_deg, gesture) => change('fence range', { fence_max_deg }, gesture)}
        onSettle={endGesture}
      />
      <NumberField
        label="Cuts up to a height of"
        value={saw.max_cut_height_mm}
        quantity={length}
        min={1}
        max={2000}
        onChange={(max_cut_height_mm, gesture) => change('cut height', { max_cut_height_mm }, gesture)}
        onSettle={endGesture}
      />
      <NumberField
        label="Table tilts up to"
        value={saw.table_tilt_max_deg}
        quantity={ANGLE}
        min={1}
        max={90}
        onChange={(table_tilt_max_deg, gesture) =>
          change('tilt of the table', { table_tilt_max_deg }, gesture)
        }
        onSettle={endGesture}
      />
      <NumberField
        label="Throat (0: not known)"
        value={saw.throat_mm ?? 0}
        quantity={length}
        min={0}
        max={5000}
        onChange={(throat_mm, gesture) =>
          change('throat', { throat_mm: throat_mm > 0 ? throat_mm : undefined }, gesture)
        }
        onSettle={endGesture}
      />
      <NumberField
        label="Kerf of a test cut (0: not known)"
        value={saw.blade_kerf_mm ?? 0}
        quantity={thin}
        min={0}
        max={10}
        onChange={(kerf_mm, gesture) =>
          change('kerf of the blade', { blade_kerf_mm: kerf_mm > 0 ? kerf_mm : undefined }, gesture)
        }
        onSettle={endGesture}
      />
      <NumberField
        label="Strip overhang"
        value={saw.strip_overhang_mm}
        quantity={length}
        min={0}
        max={100}
        onChange={(strip_overhang_mm, gesture) => change('strip overhang', { strip_overhang_mm }, gesture)}
        onSettle={endGesture}
      />
      <NumberField
        label="Fence is true to"
        value={saw.angle_tolerance_deg}
        quantity={{ ...ANGLE, step: 0.05 }}
        min={0}
        max={10}
        onChange={(angle_tolerance_deg, gesture) => change('accuracy', { angle_tolerance_deg }, gesture)}
        onSettle={endGesture}
      />
      <NumberField
        label="Stop is true to"
        value={saw.stop_tolerance_mm}
        quantity={thin}
        min={0}
        max={10}
        onChange={(stop_tolerance_mm, gesture) => change('accuracy', { stop_tolerance_mm }, gesture)}
        onSettle={endGesture}
      />
      <NumberField
        label="Strips are true to"
        value={saw.strip_tolerance_mm}
        quantity={thin}
        min={0}
        max={5}
        onChange={(strip_tolerance_mm, gesture) => change('accuracy', { strip_tolerance_mm }, gesture)}
        onSettle={endGesture}
      />
      {reason !== null && (
        <p className="reason" role="alert">
          {reason}
        </p>
      )}
    </section>
  );
}
