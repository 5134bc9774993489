/** The maker's own saw and jig: what the plan is worked out for. Lengths mm, angles degrees. */
import { useState } from 'react';
import type { Design, DisplayUnit, Saw } from '../../design/document.ts';
import { setSaw } from '../../design/edits.ts';
import { useBench } from '../bench.ts';
import { NumberField } from '../fields/NumberField.tsx';
import { Reason } from '../fields/Reason.tsx';
import {
  ANGLE,
  counted,
  lengthQuantity,
  MINUTES,
  thicknessQuantity,
  unlessUnknown,
  type Quantity,
} from '../fields/quantity.ts';
import { Segmented } from '../fields/Segmented.tsx';

type NumberName = { [K in keyof Saw]-?: number extends Saw[K] ? K : never }[keyof Saw];

interface Row {
  readonly key: NumberName;
  readonly label: string;
  /** What an undo step calls the change. */
  readonly what: string;
  readonly quantity: Quantity;
  readonly min: number;
  readonly max: number;
}

interface RowGroup {
  readonly name: string;
  readonly rows: readonly Row[];
}

function rowGroups(unit: DisplayUnit): readonly RowGroup[] {
  const length = lengthQuantity(unit);
  const thin = thicknessQuantity(unit);
  const row = (
    key: NumberName,
    label: string,
    what: string,
    quantity: Quantity,
    min: number,
    max: number,
  ): Row => ({ key, label, what, quantity, min, max });
  return [
    {
      name: 'How you work',
      rows: [
        row('max_open_slots', 'Open at once, at most', 'open slots', counted('slot'), 1, 24),
        row('clamp_minutes', 'In the clamps', 'clamp time', MINUTES, 0, 2880),
        row('strip_overhang_mm', 'Strip overhang', 'strip overhang', length, 0, 100),
        row('blade_kerf_mm', 'Kerf of a test cut', 'kerf of the blade', unlessUnknown(thin), 0, 10),
      ],
    },
    {
      name: 'What it reaches',
      rows: [
        row('fence_min_deg', 'Fence from', 'fence range', ANGLE, 1, 90),
        row('fence_max_deg', 'Fence to', 'fence range', ANGLE, 1, 90),
        row('table_tilt_max_deg', 'Table tilts up to', 'tilt of the table', ANGLE, 1, 90),
        row('max_cut_height_mm', 'Cuts up to a height of', 'cut height', length, 1, 2000),
        row('throat_mm', 'Throat, blade to frame', 'throat', unlessUnknown(length), 0, 5000),
      ],
    },
    {
      name: 'How true it is',
      rows: [
        row('angle_tolerance_deg', 'Fence within ±', 'accuracy', { ...ANGLE, step: 0.05 }, 0, 10),
        row('stop_tolerance_mm', 'Stop within ±', 'accuracy', thin, 0, 10),
        row('strip_tolerance_mm', 'Strips within ±', 'accuracy', thin, 0, 5),
      ],
    },
  ];
}

/** 0 takes away what need not be known; everywhere else it is a number like any other. */
function sawChange(key: NumberName, value: number): Partial<Saw> {
  const unknown = value === 0 && (key === 'throat_mm' || key === 'blade_kerf_mm');
  return { [key]: unknown ? undefined : value };
}

export function SawSettings({ design }: { design: Design }) {
  const edit = useBench((bench) => bench.edit);
  const endGesture = useBench((bench) => bench.endGesture);
  const [reason, setReason] = useState<string | null>(null);
  const { saw, unit } = design;
  const change = (label: string, to: Partial<Saw>, gesture?: string) =>
    setReason(edit(label, (current) => setSaw(current, to), gesture));
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
      {rowGroups(unit).map(({ name, rows }) => (
        <div key={name} className="saw-rows">
          <h3>{name}</h3>
          {rows.map(({ key, label, what, ...row }) => (
            <NumberField
              key={key}
              label={label}
              value={saw[key] ?? 0}
              {...row}
              onChange={(value, gesture) => change(what, sawChange(key, value), gesture)}
              onSettle={endGesture}
            />
          ))}
        </div>
      ))}
      <Reason reason={reason} />
    </section>
  );
}
