/**
 * The outline drawn as a half section with its mirror image, foot at the bottom. Points are dragged, or moved
 * with the arrow keys once they have the focus (page keys go to the neighbour, Enter smooths, Delete removes); behind them stand the blank, and inside it the zone of the
 * webs: where the outline reaches into it, a ring shows its web. Drawing frame: x = r, y down; lengths mm.
 */
import { useMemo, useRef, type KeyboardEvent, type PointerEvent } from 'react';
import type { Design, Form } from '../../design/document.ts';
import { moveOutlinePoint, removeOutlinePoint, toggleSmooth } from '../../design/formEdits.ts';
import { sectionGeometry } from '../../design/section.ts';
import { cotDeg } from '../../geometry/angle.ts';
import { useBench } from '../bench.ts';
import { profileFor } from '../derived.ts';
import { newGesture } from '../gesture.ts';
import { timberColour } from '../timberColour.ts';
import { outlinePath, silhouettePath, type DrawingScale } from './outlinePath.ts';

const MARGIN = 20;

export interface OutlineEditorProps {
  readonly design: Design;
  readonly form: Form;
  readonly width_px: number;
  readonly height_px: number;
  /** Null: no grid. */
  readonly grid_mm: number | null;
  readonly selected: number;
  readonly onSelect: (index: number) => void;
  readonly onReason: (reason: string | null) => void;
  readonly pointName: (index: number) => string;
}

export function OutlineEditor(props: OutlineEditorProps) {
  const { design, form, width_px, grid_mm, selected, onSelect, onReason } = props;
  const edit = useBench((bench) => bench.edit);
  const endGesture = useBench((bench) => bench.endGesture);
  const frame = useMemo(
    () => frameFor(design, form, width_px, props.height_px),
    [design, form, width_px, props.height_px],
  );
  const { scale } = frame;
  const drag = useRef<{ index: number; dx: number; dy: number; gesture: string } | null>(null);
  const svg = useRef<SVGSVGElement>(null);

  const move = (index: number, z_mm: number, r_mm: number, gesture: string) =>
    onReason(
      edit(
        `move point ${index + 1}`,
        (current) => moveOutlinePoint(current, index, snapped(z_mm, grid_mm), snapped(r_mm, grid_mm)),
        gesture,
      ),
    );
  const startDrag = (event: PointerEvent<SVGGElement>, index: number) => {
    if (event.button !== 0) return;
    event.preventDefault();
    event.currentTarget.focus();
    onSelect(index);
    const [x, y] = place(form.outline[index], scale);
    drag.current = { index, dx: event.clientX - x, dy: event.clientY - y, gesture: newGesture() };
    event.currentTarget.setPointerCapture(event.pointerId);
  };
  const onPointerMove = (event: PointerEvent<SVGGElement>) => {
    const from = drag.current;
    if (!from) return;
    const r_mm = (event.clientX - from.dx) / scale.pxPerMm;
    const z_mm = (scale.foot_px - (event.clientY - from.dy)) / scale.pxPerMm;
    move(from.index, z_mm, r_mm, from.gesture);
  };
  const stopDrag = () => {
    if (!drag.current) return;
    drag.current = null;
    endGesture();
    onReason(null);
  };
  const keyGesture = useRef<{ gesture: string; until: number } | null>(null);
  const onKeyDown = (event: KeyboardEvent<SVGGElement>, index: number) => {
    const neighbour = event.key === 'PageUp' ? index + 1 : event.key === 'PageDown' ? index - 1 : null;
    if (neighbour !== null) {
      event.preventDefault();
      svg.current?.querySelector<SVGGElement>(`[data-point="${neighbour}"]`)?.focus();
      return;
    }
    const step = (grid_mm ?? 0.5) * (event.shiftKey ? 10 : 1);
    const by = ARROWS[event.key];
    const point = form.outline[index];
    if (by) {
      event.preventDefault();
      if (!keyGesture.current || event.timeStamp > keyGesture.current.until)
        keyGesture.current = { gesture: newGesture(), until: 0 };
      keyGesture.current.until = event.timeStamp + 800;
      move(index, point.z_mm + by[1] * step, point.r_mm + by[0] * step, keyGesture.current.gesture);
    } else if (event.key === 'Delete' || event.key === 'Backspace') {
      event.preventDefault();
      onReason(edit('remove a point', (current) => removeOutlinePoint(current, index)));
    } else if (event.key === 'Enter' || event.key === ' ') {
      event.preventDefault();
      onReason(edit('corner or smooth', (current) => toggleSmooth(current, index)));
    }
  };

  return (
    <svg
      ref={svg}
      className="outline-editor"
      // oxlint-disable-next-line jsx-a11y/prefer-tag-over-role -- SVG has no fieldset
      role="group"
      aria-label="Outline: half section, foot at the bottom"
      width={width_px}
      height={frame.height_px}
      viewBox={`${-width_px / 2} 0 ${width_px} ${frame.height_px}`}
    >
      <Blank frame={frame} />
      <path
        className="outline-wood"
        d={silhouettePath(form, scale)}
        style={{ fill: timberColour(design, design.blank.timber) }}
      />
      <Planes design={design} frame={frame} />
      <WebTouch design={design} form={form} frame={frame} />
      <path className="outline-line mirror" d={outlinePath(form, scale, -1)} />
      <path className="outline-line" d={outlinePath(form, scale, 1)} />
      <line className="outline-axis" x1={0} x2={0} y1={4} y2={frame.height_px - 4} />
      {form.outline.map((point, index) => {
        const [x, y] = place(point, scale);
        return (
          <g
            key={index}
            className="outline-point"
            // oxlint-disable-next-line jsx-a11y/prefer-tag-over-role -- SVG has no button
            role="button"
            tabIndex={index === selected ? 0 : -1}
            data-point={index}
            aria-label={props.pointName(index)}
            aria-pressed={index === selected}
            transform={`translate(${x} ${y})`}
            onPointerDown={(event) => startDrag(event, index)}
            onPointerMove={onPointerMove}
            onPointerUp={stopDrag}
            onPointerCancel={stopDrag}
            onFocus={() => onSelect(index)}
            onKeyDown={(event) => onKeyDown(event, index)}
          >
            <circle className="hit" r={18} />
            {point.smooth ? (
              <circle className="knob" r={6} />
            ) : (
              <rect className="knob" x={-5.5} y={-5.5} width={11} height={11} />
            )}
          </g>
        );
      })}
    </svg>
  );
}

const ARROWS: Readonly<Record<string, readonly [number, number] | undefined>> = {
  ArrowLeft: [-1, 0],
  ArrowRight: [1, 0],
  ArrowUp: [0, 1],
  ArrowDown: [0, -1],
};

function snapped(value: number, grid_mm: number | null): number {
  if (grid_mm === null) return Math.round(value * 100) / 100;
  return Number((Math.round(value / grid_mm) * grid_mm).toFixed(4));
}

function place(point: { z_mm: number; r_mm: number }, scale: DrawingScale): [number, number] {
  return [point.r_mm * scale.pxPerMm, scale.foot_px - point.z_mm * scale.pxPerMm];
}

interface Frame {
  readonly scale: DrawingScale;
  readonly height_px: number;
  readonly length_mm: number;
  /** Largest radius that leaves no flats, and the radius to the corners. */
  readonly inscribed_mm: number;
  readonly corners_mm: number;
  /** Radius that stays clear of the widest web. */
  readonly clear_mm: number;
}

/** Everything drawn fits: the blank, and the outline where it reaches beyond it. */
function frameFor(design: Design, form: Form, width_px: number, height_px: number): Frame {
  const section = sectionGeometry(design.blank.section);
  const length_mm = design.blank.length_mm;
  const [low, high] = shownRange(form, length_mm);
  const reach = Math.max(section.inscribedRadius_mm * 1.04, ...form.outline.map((point) => point.r_mm));
  const pxPerMm = Math.min((width_px - 2 * MARGIN) / (2 * reach), (height_px - 2 * MARGIN) / (high - low));
  const web_mm = Math.max(0, ...design.sets.map((set) => set.web_mm));
  return {
    scale: { pxPerMm, foot_px: MARGIN + high * pxPerMm },
    height_px: (high - low) * pxPerMm + 2 * MARGIN,
    length_mm,
    inscribed_mm: section.inscribedRadius_mm,
    corners_mm: section.circumscribedRadius_mm,
    clear_mm: section.inscribedRadius_mm - web_mm,
  };
}

/** Heights that are drawn: the form, and the ends of the blank unless they are far away. */
function shownRange(form: Form, length_mm: number): [number, number] {
  const foot = Math.min(...form.outline.map((point) => point.z_mm));
  const head = Math.max(...form.outline.map((point) => point.z_mm));
  const near = 0.6 * (head - foot);
  const pad = 0.15 * (head - foot);
  return [
    foot - near <= 0 ? Math.min(0, foot) : foot - pad,
    head + near >= length_mm ? Math.max(length_mm, head) : head + pad,
  ];
}

function Blank({ frame }: { frame: Frame }) {
  const { scale, length_mm, inscribed_mm, clear_mm } = frame;
  const top = scale.foot_px - length_mm * scale.pxPerMm;
  const height = length_mm * scale.pxPerMm;
  const web = (inscribed_mm - clear_mm) * scale.pxPerMm;
  return (
    <g aria-hidden="true">
      <rect
        className="outline-blank"
        x={-inscribed_mm * scale.pxPerMm}
        y={top}
        width={2 * inscribed_mm * scale.pxPerMm}
        height={height}
      />
      {[-1, 1].map((side) => (
        <rect
          key={side}
          className="outline-web"
          x={side > 0 ? clear_mm * scale.pxPerMm : -inscribed_mm * scale.pxPerMm}
          y={top}
          width={Math.max(web, 0)}
          height={height}
        />
      ))}
    </g>
  );
}

/** Mid-planes of the cuts as they stand in the half section. */
function Planes({ design, frame }: { design: Design; frame: Frame }) {
  const { scale, clear_mm, inscribed_mm } = frame;
  return (
    <g className="outline-planes" aria-hidden="true">
      {design.sets.flatMap((set) => {
        const rise = cotDeg(set.angle_deg);
        const colour = timberColour(design, set.strip.layers[0].timber);
        const ends = [
          [-inscribed_mm, clear_mm],
          [inscribed_mm, -clear_mm],
        ] as const;
        return ends.map(([from, to], i) => {
          const slope = i === 0 ? rise : -rise;
          return (
            <line
              key={`${set.id} ${i}`}
              x1={from * scale.pxPerMm}
              x2={to * scale.pxPerMm}
              y1={scale.foot_px - (set.center_mm + from * slope) * scale.pxPerMm}
              y2={scale.foot_px - (set.center_mm + to * slope) * scale.pxPerMm}
              style={{ stroke: colour }}
            />
          );
        });
      })}
    </g>
  );
}

/** The parts of the outside that reach into the zone of the webs. */
function WebTouch({ design, form, frame }: { design: Design; form: Form; frame: Frame }) {
  const { scale, clear_mm } = frame;
  if (design.sets.length === 0) return null;
  const { z_mm, r_mm, outsideStart, outsideEnd } = profileFor(form);
  let d = '';
  for (let i = outsideStart; i < outsideEnd; i++) {
    if (Math.min(r_mm[i], r_mm[i + 1]) <= clear_mm) continue;
    for (const side of [-1, 1])
      d += `M${side * r_mm[i] * scale.pxPerMm} ${scale.foot_px - z_mm[i] * scale.pxPerMm}L${side * r_mm[i + 1] * scale.pxPerMm} ${scale.foot_px - z_mm[i + 1] * scale.pxPerMm}`;
  }
  return d === '' ? null : <path className="outline-web-touch" d={d} />;
}
