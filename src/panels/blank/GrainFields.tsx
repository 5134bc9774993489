/** How the blank's wood grew: fibre along or across the axis, and where the pith runs. Lengths mm, angles degrees. */
import { useState } from 'react';
import type { Design, Grain } from '../../design/document.ts';
import { grainOf } from '../../design/grain.ts';
import { setGrain } from '../../design/woodEdits.ts';
import { useBench } from '../bench.ts';
import { NumberField } from '../fields/NumberField.tsx';
import { Reason } from '../fields/Reason.tsx';
import { ANGLE, lengthQuantity } from '../fields/quantity.ts';
import { Segmented } from '../fields/Segmented.tsx';

type Choice = 'usual' | Grain['along'];

const AXIS_PITH = ['Pith, toward face A', 'Pith, toward face B'] as const;
const ACROSS_PITH = ['Pith, sideways', 'Pith, toward the head'] as const;

export function GrainFields({ design }: { design: Design }) {
  const edit = useBench((bench) => bench.edit);
  const endGesture = useBench((bench) => bench.endGesture);
  const [reason, setReason] = useState<string | null>(null);
  const { blank, unit } = design;
  const shown = grainOf(blank);
  const change = (grain: Grain | null, gesture?: string) =>
    setReason(edit('grain of the blank', (current) => setGrain(current, grain), gesture));
  const explicit: Grain = blank.grain ?? { along: shown.along };
  const pithNames = shown.along === 'axis' ? AXIS_PITH : ACROSS_PITH;
  return (
    <>
      <Segmented<Choice>
        label="Fibre"
        field
        value={blank.grain ? blank.grain.along : 'usual'}
        choices={[
          { value: 'usual', name: 'As usual' },
          { value: 'axis', name: 'Along the axis' },
          { value: 'across', name: 'Across it' },
        ]}
        onChange={(choice) => change(choice === 'usual' ? null : { along: choice })}
      />
      {blank.grain && (
        <>
          {explicit.along === 'across' && (
            <NumberField
              label="Fibre runs to"
              value={shown.azimuth_deg}
              quantity={ANGLE}
              min={0}
              max={359.99}
              onChange={(azimuth_deg, gesture) => change({ ...explicit, azimuth_deg }, gesture)}
              onSettle={endGesture}
            />
          )}
          {pithNames.map((name, i) => (
            <NumberField
              key={name}
              label={name}
              value={shown.pith_mm[i]}
              quantity={lengthQuantity(unit)}
              min={-2000}
              max={2000}
              onChange={(value, gesture) => {
                const pith_mm: [number, number] = [shown.pith_mm[0], shown.pith_mm[1]];
                pith_mm[i] = value;
                change({ ...explicit, pith_mm }, gesture);
              }}
              onSettle={endGesture}
            />
          ))}
        </>
      )}
      <Reason reason={reason} />
    </>
  );
}
