/** Station 3: starter forms, the outline with its points, solid or hollow. Lengths mm. */
import { ChevronDown, ChevronUp, Plus, Spline, Trash2, Waypoints } from 'lucide-react';
import { useState } from 'react';
import type { Design, Form } from '../../design/document.ts';
import {
  addOutlinePoint,
  moveOutlinePoint,
  removeOutlinePoint,
  setForm,
  toggleSmooth,
} from '../../design/formEdits.ts';
import { formatLength } from '../../design/lengthText.ts';
import { MM_PER_INCH } from '../../design/units.ts';
import { bezierAt, isSmooth, outlineSegment } from '../../geometry/outline.ts';
import { useBench } from '../bench.ts';
import { NumberField } from '../fields/NumberField.tsx';
import { Reason } from '../fields/Reason.tsx';
import { lengthQuantity } from '../fields/quantity.ts';
import { useElementWidth } from '../useElementWidth.ts';
import { HoldingFields } from './HoldingFields.tsx';
import { Holes } from './Holes.tsx';
import { Inside } from './Inside.tsx';
import { OutlineEditor } from './OutlineEditor.tsx';
import { StarterForms } from './StarterForms.tsx';
import './form.css';

export function FormStation() {
  const design = useBench((bench) => bench.design);
  const edit = useBench((bench) => bench.edit);
  return (
    <>
      <StarterForms design={design} />
      {design.form ? (
        <Outline design={design} form={design.form} />
      ) : (
        <p className="group lede">The blank is left square. Choose a form to turn it.</p>
      )}
      {design.form && (
        <div className="group">
          <button
            type="button"
            className="button"
            onClick={() => edit('leave the blank square', (current) => setForm(current, null))}
          >
            Leave the blank square
          </button>
        </div>
      )}
    </>
  );
}

function Outline({ design, form }: { design: Design; form: Form }) {
  const edit = useBench((bench) => bench.edit);
  const endGesture = useBench((bench) => bench.endGesture);
  const [selected, setSelected] = useState(1);
  const [snap, setSnap] = useState(true);
  const [reason, setReason] = useState<string | null>(null);
  const [holder, width_px] = useElementWidth();
  const { unit } = design;
  const quantity = lengthQuantity(unit);
  const index = Math.min(selected, form.outline.length - 1);
  const point = form.outline[index];
  const loop = form.loop === true;
  const isEnd = !loop && (index === 0 || index === form.outline.length - 1);
  const grid_mm = snap ? (unit === 'in' ? MM_PER_INCH / 32 : 0.5) : null;
  const name = (i: number) =>
    `Point ${i + 1}, ${form.outline[i].smooth ? 'smooth' : 'corner'}, ${formatLength(form.outline[i].z_mm, unit)} from the foot, ${formatLength(form.outline[i].r_mm, unit)} from the axis`;

  const add = () => {
    const after = loop ? index : Math.min(index, form.outline.length - 2);
    const next = (after + 1) % form.outline.length;
    const [z_mm, r_mm] = bezierAt(outlineSegment(form.outline, after, loop), 0.5);
    const curved = isSmooth(form.outline, after, loop) || isSmooth(form.outline, next, loop);
    const added = { z_mm: hundredths(z_mm), r_mm: hundredths(r_mm), smooth: curved };
    setReason(edit('add a point', (current) => addOutlinePoint(current, after + 1, added)));
    setSelected(after + 1);
  };

  return (
    <>
      <section className="group" aria-label="Outline">
        <div className="group-head">
          <h2>Outline</h2>
          <label className="switch">
            <input type="checkbox" checked={snap} onChange={(event) => setSnap(event.target.checked)} />
            {unit === 'in' ? 'Snap to 1/32 in' : 'Snap to 0.5 mm'}
          </label>
        </div>
        <div ref={holder} className="outline-holder">
          {width_px > 0 && (
            <OutlineEditor
              design={design}
              form={form}
              width_px={width_px}
              height_px={460}
              grid_mm={grid_mm}
              selected={index}
              onSelect={setSelected}
              onReason={setReason}
              pointName={name}
            />
          )}
        </div>
        <p className="legend">
          <span className="key-web" aria-hidden="true" /> Zone of the webs: a ring that comes to the surface
          here shows a gap.
        </p>
        <Reason reason={reason} />
      </section>
      <section className="group" aria-label={`Point ${index + 1}`}>
        <div className="group-head">
          <h2>
            Point {index + 1} of {form.outline.length}
          </h2>
          <div className="point-actions">
            <button
              type="button"
              className="icon"
              aria-label="Point before"
              title="Point before, nearer the foot's end of the outline"
              disabled={index === 0}
              onClick={() => setSelected(index - 1)}
            >
              <ChevronDown />
            </button>
            <button
              type="button"
              className="icon"
              aria-label="Next point"
              title="Next point of the outline"
              disabled={index === form.outline.length - 1}
              onClick={() => setSelected(index + 1)}
            >
              <ChevronUp />
            </button>
            <button
              type="button"
              className="icon"
              aria-pressed={point.smooth === true}
              aria-label="Smooth"
              title={point.smooth ? 'Smooth: make it a corner' : 'Corner: make it smooth'}
              disabled={isEnd}
              onClick={() => setReason(edit('corner or smooth', (current) => toggleSmooth(current, index)))}
            >
              {point.smooth ? <Spline /> : <Waypoints />}
            </button>
            <button
              type="button"
              className="icon"
              aria-label="Add a point after this one"
              title="Add a point after this one"
              onClick={add}
            >
              <Plus />
            </button>
            <button
              type="button"
              className="icon"
              aria-label="Remove this point"
              title="Remove this point"
              disabled={isEnd || form.outline.length <= 3}
              onClick={() => {
                setReason(edit('remove a point', (current) => removeOutlinePoint(current, index)));
                setSelected(Math.max(index - 1, 0));
              }}
            >
              <Trash2 />
            </button>
          </div>
        </div>
        <NumberField
          label="From the foot"
          value={point.z_mm}
          quantity={quantity}
          min={-3000}
          max={3000}
          onChange={(z_mm, gesture) =>
            setReason(
              edit('move a point', (current) => moveOutlinePoint(current, index, z_mm, point.r_mm), gesture),
            )
          }
          onSettle={endGesture}
        />
        <NumberField
          label="Diameter"
          value={2 * point.r_mm}
          quantity={quantity}
          min={0}
          max={2000}
          disabled={isEnd}
          onChange={(diameter_mm, gesture) =>
            setReason(
              edit(
                'move a point',
                (current) => moveOutlinePoint(current, index, point.z_mm, diameter_mm / 2),
                gesture,
              ),
            )
          }
          onSettle={endGesture}
        />
      </section>
      <Inside design={design} form={form} />
      <Holes design={design} form={form} />
      <HoldingFields design={design} />
    </>
  );
}

function hundredths(value: number): number {
  return Math.round(value * 100) / 100;
}
