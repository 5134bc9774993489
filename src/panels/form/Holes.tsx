/** Drilled holes of the form: from the head, the foot or the side, on the axis or off it. Lengths mm, angles degrees. */
import { Plus, Trash2 } from 'lucide-react';
import { useState } from 'react';
import type { Design, Form, Hole } from '../../design/document.ts';
import { addHole, removeHole, updateHole } from '../../design/holeEdits.ts';
import { MAX_HOLES } from '../../design/limits.ts';
import { useBench } from '../bench.ts';
import { NumberField } from '../fields/NumberField.tsx';
import { Reason } from '../fields/Reason.tsx';
import { ANGLE, lengthQuantity } from '../fields/quantity.ts';
import { Segmented } from '../fields/Segmented.tsx';

/** A cup for a candle of 7/8 in, and a hole for a cord: common practice. */
const CANDLE_CUP: Hole = { from: 'head', diameter_mm: 22.225, depth_mm: 25.4 };
const CORD_HOLE: Omit<Hole, 'z_mm'> = { from: 'side', diameter_mm: 4.7625, depth_mm: null };

export function Holes({ design, form }: { design: Design; form: Form }) {
  const edit = useBench((bench) => bench.edit);
  const [reason, setReason] = useState<string | null>(null);
  const holes = form.holes ?? [];
  const add = (label: string, hole: Hole) => setReason(edit(label, (current) => addHole(current, hole)));
  const high_mm = Math.max(...form.outline.map((point) => point.z_mm));
  return (
    <section className="group" aria-label="Drilled holes">
      <h2>Drilled holes</h2>
      {holes.map((hole, i) => (
        <HoleFields key={i} design={design} hole={hole} index={i} onReason={setReason} />
      ))}
      <div className="hole-actions">
        <button
          type="button"
          className="button"
          disabled={holes.length >= MAX_HOLES}
          onClick={() => add('drill a candle cup', CANDLE_CUP)}
        >
          <Plus /> Candle cup
        </button>
        <button
          type="button"
          className="button"
          disabled={holes.length >= MAX_HOLES}
          onClick={() => add('drill a cord hole', { ...CORD_HOLE, z_mm: Math.round(high_mm * 90) / 100 })}
        >
          <Plus /> Hole from the side
        </button>
      </div>
      <Reason reason={reason} />
    </section>
  );
}

interface HoleFieldsProps {
  readonly design: Design;
  readonly hole: Hole;
  readonly index: number;
  readonly onReason: (reason: string | null) => void;
}

function HoleFields({ design, hole, index, onReason }: HoleFieldsProps) {
  const edit = useBench((bench) => bench.edit);
  const endGesture = useBench((bench) => bench.endGesture);
  const size = lengthQuantity(design.unit);
  const name = `Hole ${index + 1}`;
  const change = (to: Partial<Hole>, gesture?: string) =>
    onReason(edit(`change ${name.toLowerCase()}`, (current) => updateHole(current, index, to), gesture));
  const depth_mm = hole.depth_mm ?? design.blank.length_mm / 4;
  return (
    <fieldset className="hole">
      <div className="group-head">
        <h3>{name}</h3>
        <button
          type="button"
          className="icon"
          aria-label={`Remove ${name.toLowerCase()}`}
          title={`Remove ${name.toLowerCase()}`}
          onClick={() =>
            onReason(edit(`remove ${name.toLowerCase()}`, (current) => removeHole(current, index)))
          }
        >
          <Trash2 />
        </button>
      </div>
      <Segmented
        label={`${name}, drilled from`}
        value={hole.from}
        choices={[
          { value: 'head', name: 'Head' },
          { value: 'foot', name: 'Foot' },
          { value: 'side', name: 'Side' },
        ]}
        onChange={(from) => change({ from, ...(from === 'side' ? {} : { z_mm: undefined }) })}
      />
      <NumberField
        of={name.toLowerCase()}
        label="Diameter"
        value={hole.diameter_mm}
        quantity={size}
        min={0.5}
        max={500}
        onChange={(diameter_mm, gesture) => change({ diameter_mm }, gesture)}
        onSettle={endGesture}
      />
      <label className="switch">
        <input
          type="checkbox"
          checked={hole.depth_mm === null}
          onChange={(event) => change({ depth_mm: event.target.checked ? null : Math.round(depth_mm) })}
        />
        Right through
      </label>
      {hole.depth_mm !== null && (
        <NumberField
          of={name.toLowerCase()}
          label="Depth"
          value={hole.depth_mm}
          quantity={size}
          min={0.5}
          max={3000}
          onChange={(value, gesture) => change({ depth_mm: value }, gesture)}
          onSettle={endGesture}
        />
      )}
      {hole.from === 'side' && (
        <NumberField
          of={name.toLowerCase()}
          label="From the foot"
          value={hole.z_mm ?? 0}
          quantity={size}
          min={-3000}
          max={3000}
          onChange={(z_mm, gesture) => change({ z_mm }, gesture)}
          onSettle={endGesture}
        />
      )}
      <NumberField
        of={name.toLowerCase()}
        label="Off the axis"
        value={hole.offset_mm ?? 0}
        quantity={size}
        min={hole.from === 'side' ? -1000 : 0}
        max={1000}
        onChange={(offset_mm, gesture) => change({ offset_mm }, gesture)}
        onSettle={endGesture}
      />
      <NumberField
        of={name.toLowerCase()}
        label={hole.from === 'side' ? 'Drill comes from' : 'Toward'}
        value={hole.azimuth_deg ?? 0}
        quantity={ANGLE}
        min={0}
        max={359.99}
        onChange={(azimuth_deg, gesture) => change({ azimuth_deg }, gesture)}
        onSettle={endGesture}
      />
    </fieldset>
  );
}
