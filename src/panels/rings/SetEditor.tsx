/** The numbers of one set: angle, place, faces, slope, kerf, web and strip. Lengths mm, angles degrees. */
import { useState } from 'react';
import type { Design, SlotSet } from '../../design/document.ts';
import { updateSet, type SetChange } from '../../design/edits.ts';
import { setCut } from '../../design/sawEdits.ts';
import { sectionGeometry } from '../../design/section.ts';
import { useBench } from '../bench.ts';
import { NumberField } from '../fields/NumberField.tsx';
import { ANGLE, lengthQuantity, thicknessQuantity } from '../fields/quantity.ts';
import { Segmented } from '../fields/Segmented.tsx';
import { AzimuthField } from './AzimuthField.tsx';
import { StripLayers } from './StripLayers.tsx';

export function SetEditor({ design, set }: { design: Design; set: SlotSet }) {
  const edit = useBench((bench) => bench.edit);
  const endGesture = useBench((bench) => bench.endGesture);
  const locked = set.locked === true;
  const [reason, setReason] = useState<string | null>(null);
  const { unit } = design;
  const length_mm = design.blank.length_mm;
  const across_mm = 2 * sectionGeometry(design.blank.section).inscribedRadius_mm;
  const change = (label: string, to: SetChange, gesture?: string) =>
    setReason(edit(`${label} of ${set.id}`, (current) => updateSet(current, set.id, to), gesture));

  return (
    <>
      <section className="group" aria-label={`Set ${set.id}`}>
        <h2>Set {set.id}</h2>
        <NumberField
          label="Angle to the axis"
          value={set.angle_deg}
          quantity={ANGLE}
          min={1}
          max={90}
          slider={{ min: Math.min(30, set.angle_deg), max: 90 }}
          onChange={(angle_deg, gesture) => change('angle', { angle_deg }, gesture)}
          onSettle={endGesture}
        />
        <NumberField
          label="Place from the foot"
          value={set.center_mm}
          quantity={lengthQuantity(unit)}
          min={-length_mm}
          max={2 * length_mm}
          slider={{ min: 0, max: length_mm }}
          disabled={locked}
          onChange={(center_mm, gesture) => change('place', { center_mm }, gesture)}
          onSettle={endGesture}
        />
        <AzimuthField design={design} set={set} onChange={change} onSettle={endGesture} />
        <Segmented
          label="High side of the cut"
          field
          value={set.high_side}
          choices={[
            { value: 'fence', name: 'At the fence' },
            { value: 'entry', name: 'At the entry' },
          ]}
          onChange={(high_side) => change('slope', { high_side })}
        />
        <Segmented
          label="How it is cut"
          field
          value={set.cut ?? 'fence'}
          choices={[
            { value: 'fence', name: 'Fence turned' },
            { value: 'table', name: 'Table tilted' },
          ]}
          onChange={(cut) =>
            setReason(edit(`way of cutting ${set.id}`, (current) => setCut(current, set.id, cut)))
          }
        />
        {set.cut === 'table' && (
          <>
            <Segmented
              label="Web, seen from the head"
              field
              value={set.web_side ?? 'ahead'}
              choices={[
                { value: 'ahead', name: 'A quarter ahead' },
                { value: 'behind', name: 'A quarter behind' },
              ]}
              onChange={(side) =>
                setReason(edit(`web of ${set.id}`, (current) => setCut(current, set.id, 'table', side)))
              }
            />
            <p className="lede">
              The blank lies flat on an end and the angle is the table’s tilt; the blade stops across the
              blank.
            </p>
          </>
        )}
        {reason !== null && (
          <p className="reason" role="alert">
            {reason}
          </p>
        )}
      </section>
      <section className="group" aria-label={`Kerf and strip of ${set.id}`}>
        <h2>Kerf and strip</h2>
        <NumberField
          label="Kerf"
          value={set.kerf_mm}
          quantity={thicknessQuantity(unit)}
          min={0.05}
          max={50}
          onChange={(kerf_mm, gesture) => change('kerf', kerfChange(set, kerf_mm), gesture)}
          onSettle={endGesture}
        />
        <NumberField
          label="Web left"
          value={set.web_mm}
          quantity={thicknessQuantity(unit)}
          min={0}
          max={across_mm * 0.98}
          onChange={(web_mm, gesture) => change('web', { web_mm }, gesture)}
          onSettle={endGesture}
        />
        <StripLayers
          unit={unit}
          body={design.blank.timber}
          set={set}
          onChange={change}
          onSettle={endGesture}
        />
      </section>
    </>
  );
}

/** A strip that filled the kerf goes on filling it; any other keeps its thickness. */
function kerfChange(set: SlotSet, kerf_mm: number): SetChange {
  const total_mm = set.strip.layers.reduce((sum, layer) => sum + layer.thickness_mm, 0);
  if (Math.abs(total_mm - set.kerf_mm) > 1e-6) return { kerf_mm };
  const layers = set.strip.layers.map((layer) => ({
    ...layer,
    thickness_mm: Number(((layer.thickness_mm * kerf_mm) / total_mm).toPrecision(10)),
  }));
  return { kerf_mm, strip: { layers } };
}
