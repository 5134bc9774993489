/**
 * The outline drawn as a half section with its mirror image, foot at the bottom. Points are dragged, or moved
 * with the arrow keys once they have the focus (page keys go to the neighbour, Enter smooths, Delete removes); behind them stand the blank, and inside it the zone of the
 * webs: where the outline reaches into it, a ring shows its web. Drawing frame: x = r, y down; lengths mm.
 */
import { useMemo, useRef, useState, type KeyboardEvent, type PointerEvent } from 'react';
import type { Design, Form } from '../../design/document.ts';
import { moveOutlinePoint, removeOutlinePoint, toggleSmooth } from '../../design/formEdits.ts';
import { useBench } from '../bench.ts';
import { newGesture } from '../gesture.ts';
import { timberColour } from '../timberColour.ts';
import { frameFor, GRAB_PX, placeOf, pointAt } from './outlineFrame.ts';
import { Blank, Planes, WebTouch } from './OutlineGround.tsx';
import { outlinePath, silhouettePath } from './outlinePath.ts';

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
  const places = form.outline.map((point) => placeOf(point, scale));
  const [hovered, setHovered] = useState<number | null>(null);
  // Points of a thin wall lie closer than a fingertip: the nearest one is meant, whichever is drawn on top.
  const meant = (event: PointerEvent<SVGSVGElement>) => {
    const { left, top } = event.currentTarget.getBoundingClientRect();
    return pointAt(places, [event.clientX - left - width_px / 2, event.clientY - top], selected);
  };
  const startDrag = (event: PointerEvent<SVGSVGElement>) => {
    const index = meant(event);
    if (event.button !== 0 || index === null) return;
    event.preventDefault();
    svg.current?.querySelector<SVGGElement>(`[data-point="${index}"]`)?.focus();
    onSelect(index);
    setHovered(null);
    const [x, y] = places[index];
    drag.current = { index, dx: event.clientX - x, dy: event.clientY - y, gesture: newGesture() };
    event.currentTarget.setPointerCapture(event.pointerId);
  };
  const onPointerMove = (event: PointerEvent<SVGSVGElement>) => {
    const from = drag.current;
    if (!from) {
      if (event.pointerType === 'mouse') setHovered(meant(event));
      return;
    }
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
      data-grab={hovered !== null}
      onPointerDown={startDrag}
      onPointerMove={onPointerMove}
      onPointerUp={stopDrag}
      onPointerCancel={stopDrag}
      onPointerLeave={() => setHovered(null)}
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
        const [x, y] = places[index];
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
            data-hovered={index === hovered}
            transform={`translate(${x} ${y})`}
            onFocus={() => onSelect(index)}
            onKeyDown={(event) => onKeyDown(event, index)}
          >
            <circle className="hit" r={GRAB_PX} />
            <circle className="ring" r={12} />
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
