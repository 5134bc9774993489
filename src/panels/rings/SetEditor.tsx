/** The numbers of one set: name, angle, place, faces, kerf, web and strip, slope and way of cutting, note. Lengths mm, angles degrees. */
import { useState } from 'react';
import { cutOf, WEB_PLACES } from '../../design/cuts.ts';
import { CUT_KINDS, type Design, type SlotSet } from '../../design/document.ts';
import { updateSet, type SetChange } from '../../design/edits.ts';
import { setCut } from '../../design/sawEdits.ts';
import { sectionGeometry } from '../../design/section.ts';
import { useBench } from '../bench.ts';
import { NotesField } from '../fields/NotesField.tsx';
import { Reason } from '../fields/Reason.tsx';
import { NumberField } from '../fields/NumberField.tsx';
import { ANGLE, lengthQuantity, thicknessQuantity } from '../fields/quantity.ts';
import { Segmented } from '../fields/Segmented.tsx';
import { AzimuthField } from './AzimuthField.tsx';
import { CUT_CHOICES } from './cutChoices.ts';
import { SetName } from './SetName.tsx';
import { StripLayers } from './StripLayers.tsx';

/** Changes the design on behalf of the set; the label is completed with its name. */
export type SetAct = (label: string, change: (design: Design) => Design, gesture?: string) => void;

export function SetEditor({ design, set }: { design: Design; set: SlotSet }) {
  const edit = useBench((bench) => bench.edit);
  const endGesture = useBench((bench) => bench.endGesture);
  const locked = set.locked === true;
  const [reason, setReason] = useState<string | null>(null);
  const { unit } = design;
  const cut = cutOf(set);
  const { explained } = CUT_CHOICES[cut];
  const length_mm = design.blank.length_mm;
  const across_mm = 2 * sectionGeometry(design.blank.section).inscribedRadius_mm;
  const act: SetAct = (label, change, gesture) => setReason(edit(`${label} of ${set.id}`, change, gesture));
  const change = (label: string, to: SetChange, gesture?: string) =>
    act(label, (current) => updateSet(current, set.id, to), gesture);

  return (
    <>
      <section className="group" aria-label={`Set ${set.id}`}>
        <SetName design={design} set={set} />
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
        <AzimuthField design={design} set={set} onAct={act} onSettle={endGesture} />
        <Reason reason={reason} />
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
        <StripLayers unit={unit} body={design.blank.timber} set={set} onAct={act} onSettle={endGesture} />
      </section>
      <section className="group" aria-label={`Sawing of ${set.id}`}>
        <h2>How it is sawn</h2>
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
          label="What makes the angle"
          field
          value={cut}
          choices={CUT_KINDS.map((value) => ({ value, name: CUT_CHOICES[value].name }))}
          onChange={(to) => act('sawing', (current) => setCut(current, set.id, to))}
        />
        {WEB_PLACES[cut].hasSides && (
          <Segmented
            label="Web, seen from the head"
            field
            value={set.web_side ?? 'ahead'}
            choices={[
              { value: 'ahead', name: 'A quarter ahead' },
              { value: 'behind', name: 'A quarter behind' },
            ]}
            onChange={(side) => act('web', (current) => setCut(current, set.id, cut, side))}
          />
        )}
        {explained !== null && <p className="lede">{explained}</p>}
        <NotesField
          label="Note on this set"
          placeholder="Printed on the shop sheet"
          value={set.notes ?? ''}
          onChange={(notes, gesture) => change('note', { notes }, gesture)}
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
