/**
 * The unrolled map: the outside of the turned form laid flat, azimuth across, length along the outside up.
 * Bands come from the engine's arcs, painted in cutting order; what lies in a web is drawn as a dashed line.
 * Pointing at a band or a crossing here points at it everywhere.
 */
import { memo, useDeferredValue, useId, useMemo } from 'react';
import type { Crossing } from '../../blank/crossings.ts';
import type { RingPath } from '../../blank/rings.ts';
import type { Slot } from '../../blank/slots.ts';
import type { Design, Form } from '../../design/document.ts';
import { sectionGeometry } from '../../design/section.ts';
import { useBench, useBenchStore, type Pointed } from '../bench.ts';
import { pointedByKey } from './pointByKeys.ts';
import { crossingTarget, sameCrossing } from './target.ts';
import { crossingsFor, lineFor, pathsFor, slotsFor } from '../derived.ts';
import { SampleOnMap, SampleWords } from '../plan/SampleOnMap.tsx';
import { useElementWidth } from '../useElementWidth.ts';
import { timberColour } from '../timberColour.ts';
import { bandPath, type MapScale } from './bandPath.ts';
import { layersAsSlots } from '../../blank/bands.ts';
import { alongOf, type OutsideLine } from '../../blank/outsideLine.ts';
import { useRingDrag } from './ringDrag.ts';
import './map.css';

const MARGIN = { top: 22, right: 8, bottom: 8, left: 8 } as const;
const TURN = 2 * Math.PI;

export function UnrolledMap({ maxHeight_px }: { maxHeight_px: number }) {
  const current = useBench((bench) => bench.design);
  const design = useDeferredValue(current);
  const { form } = design;
  if (!form)
    return (
      <div className="map-empty">
        <p className="lede">
          Rings come to light when the blank is turned: then its outside is laid flat here, with their
          numbers.
        </p>
        <a className="button" href="#/form">
          Choose a form
        </a>
      </div>
    );
  return <Sheet design={design} form={form} maxHeight_px={maxHeight_px} stale={design !== current} />;
}

interface SheetProps {
  readonly design: Design;
  readonly form: Form;
  readonly maxHeight_px: number;
  readonly stale: boolean;
}

function Sheet({ design, form, maxHeight_px, stale }: SheetProps) {
  const [holder, width_px] = useElementWidth();
  const line = lineFor(form);
  const scale = useMemo(
    () =>
      scaleFor(
        line,
        design,
        width_px - MARGIN.left - MARGIN.right,
        maxHeight_px - MARGIN.top - MARGIN.bottom,
      ),
    [line, design, width_px, maxHeight_px],
  );
  const height_px = scale.length_mm * scale.yPerMm + MARGIN.top + MARGIN.bottom;
  const width = TURN * scale.xPerRad;
  const point = useBench((bench) => bench.point);
  const store = useBenchStore();
  const pointedNow = () => store.getState().pointed;
  const drag = useRingDrag(scale);
  const clip = useId();
  return (
    <div ref={holder} className="map-holder" data-stale={stale}>
      {width_px > 0 && (
        // oxlint-disable-next-line jsx-a11y/no-noninteractive-element-interactions -- a widget of our own
        <svg
          className="map"
          role="application"
          // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex -- a widget of our own
          tabIndex={0}
          aria-label="Unrolled map. Up and down point at one ring after another, left and right at crossings."
          onKeyDown={(event) => {
            const next = pointedByKey(event.key, design, pointedNow());
            if (next === undefined) return;
            event.preventDefault();
            point(next);
          }}
          width={width_px}
          height={height_px}
          viewBox={`${-MARGIN.left} ${-MARGIN.top} ${width_px} ${height_px}`}
          onPointerLeave={(event) => {
            // A finger that is lifted leaves as well; what it touched stays pointed at.
            if (event.pointerType !== 'touch') point(null);
          }}
        >
          <clipPath id={clip}>
            <rect width={width} height={scale.length_mm * scale.yPerMm} />
          </clipPath>
          <rect
            className="map-body"
            width={width}
            height={scale.length_mm * scale.yPerMm}
            style={{ fill: timberColour(design, design.blank.timber) }}
          />
          <FaceLines design={design} scale={scale} />
          <g clipPath={`url(#${clip})`} {...drag}>
            <Halo design={design} line={line} scale={scale} />
            <Bands design={design} line={line} scale={scale} />
            <Webs design={design} line={line} scale={scale} />
            <Crossings design={design} line={line} scale={scale} />
            <SampleOnMap
              design={design}
              lineOf={(path) => centreline(path, line, scale)}
              placeOf={(crossing) => placeOf(crossing, line, scale)}
              width_px={width}
            />
          </g>
          <rect className="map-frame" width={width} height={scale.length_mm * scale.yPerMm} />
        </svg>
      )}
      <SampleWords design={design} />
    </div>
  );
}

function scaleFor(line: OutsideLine, design: Design, width_px: number, height_px: number): MapScale {
  const widest_mm = Math.max(...line.r_mm) * TURN;
  const xPerRad = Math.max(width_px, 1) / TURN;
  const trueHeight = (line.length_mm * width_px) / widest_mm;
  const height = Math.min(Math.max(trueHeight, 0.4 * width_px), Math.max(height_px, 80));
  const faces = sectionGeometry(design.blank.section).faceAzimuths_deg.length || 4;
  return {
    left_rad: -Math.PI / faces,
    xPerRad,
    yPerMm: height / line.length_mm,
    length_mm: line.length_mm,
  };
}

/** Face letters over the map, the middles of the faces as fine lines. */
function FaceLines({ design, scale }: { design: Design; scale: MapScale }) {
  const section = sectionGeometry(design.blank.section);
  const azimuths_deg = section.round ? [0, 90, 180, 270] : section.faceAzimuths_deg;
  return (
    <g className="map-faces" aria-hidden="true">
      {azimuths_deg.map((azimuth, i) => {
        const x = ((azimuth * Math.PI) / 180 - scale.left_rad) * scale.xPerRad;
        return (
          <g key={azimuth}>
            <line x1={x} x2={x} y1={-4} y2={scale.length_mm * scale.yPerMm} />
            <text x={x} y={-8}>
              {section.round ? `${azimuth}°` : 'ABCDEFGH'[i]}
            </text>
          </g>
        );
      })}
    </g>
  );
}

interface LayerProps {
  readonly design: Design;
  readonly line: OutsideLine;
  readonly scale: MapScale;
}

const Bands = memo(function Bands({ design, line, scale }: LayerProps) {
  const point = useBench((bench) => bench.point);
  const bands = useMemo(
    () =>
      slotsFor(design).map((slot) => ({
        slot,
        layers: layersAsSlots(slot).map((layer) => ({
          d: bandPath(layer, line, scale),
          fill: timberColour(design, layer.layers[0].timber),
        })),
      })),
    [design, line, scale],
  );
  return (
    <g className="map-bands">
      {bands.map(({ slot, layers }) => (
        <g key={slot.id} data-slot={slot.id} onPointerEnter={() => point({ kind: 'ring', slot: slot.id })}>
          {layers.map((layer, i) => (
            <path key={i} d={layer.d} style={{ fill: layer.fill }} />
          ))}
        </g>
      ))}
    </g>
  );
});

function isLit(pointed: Pointed | null, slot: Slot): boolean {
  if (pointed === null) return false;
  if (pointed.kind === 'ring') return pointed.slot === slot.id;
  return pointed.under === slot.id || pointed.over === slot.id;
}

/** Light behind the rings that are pointed at. */
const Halo = memo(function Halo({ design, line, scale }: LayerProps) {
  const pointed = useBench((bench) => bench.pointed);
  const paths = pathsFor(design) ?? [];
  return (
    <g className="map-halo" aria-hidden="true">
      {slotsFor(design).map((slot, i) =>
        isLit(pointed, slot)
          ? paths[i]?.map((path, k) => <path key={`${slot.id} ${k}`} d={centreline(path, line, scale)} />)
          : null,
      )}
    </g>
  );
});

/** Parts of the centrelines that lie in a web: wood where the ring should be. */
const Webs = memo(function Webs({ design, line, scale }: LayerProps) {
  const lines = useMemo(
    () =>
      (pathsFor(design) ?? []).flatMap((paths) =>
        paths.filter((path) => path.state === 'missing').map((path) => centreline(path, line, scale)),
      ),
    [design, line, scale],
  );
  return (
    <g className="map-webs" aria-hidden="true">
      {lines.map((d, i) => (
        <path key={i} d={d} />
      ))}
    </g>
  );
});

function centreline(path: RingPath, line: OutsideLine, scale: MapScale): string {
  const points = [...path.azimuth_rad];
  if (points.length === 0) return '';
  const first = Math.floor((Math.min(...points) - scale.left_rad) / TURN);
  const last = Math.floor((Math.max(...points) - scale.left_rad) / TURN);
  let d = '';
  for (let turn = first; turn <= last; turn++)
    d += points
      .map((azimuth, i) => {
        const x = (azimuth - turn * TURN - scale.left_rad) * scale.xPerRad;
        const y = (line.length_mm - path.along_mm[i]) * scale.yPerMm;
        return `${i === 0 ? 'M' : 'L'}${x.toFixed(2)} ${y.toFixed(2)}`;
      })
      .join('');
  return d;
}

const Crossings = memo(function Crossings({ design, line, scale }: LayerProps) {
  const point = useBench((bench) => bench.point);
  const pointed = useBench((bench) => bench.pointed);
  const slots = slotsFor(design);
  const places = useMemo(
    () =>
      (crossingsFor(design) ?? []).map((crossing) => ({
        crossing,
        ...placeOf(crossing, line, scale),
      })),
    [design, line, scale],
  );
  return (
    <g className="map-crossings">
      {places.map(({ crossing, x, y }, i) => {
        const target = crossingTarget(crossing, slots);
        return (
          <circle
            key={i}
            cx={x}
            cy={y}
            r={places.length > 40 ? 2.2 : 3.2}
            data-lit={pointed !== null && sameCrossing(pointed, target) ? 'on' : undefined}
            onPointerEnter={() => point(target)}
          />
        );
      })}
    </g>
  );
});

function placeOf(crossing: Crossing, line: OutsideLine, scale: MapScale): { x: number; y: number } {
  let angle = (crossing.azimuth_deg * Math.PI) / 180 - scale.left_rad;
  angle -= Math.floor(angle / TURN) * TURN;
  const along = alongOf(line, crossing.z_mm, crossing.radius_mm);
  return { x: angle * scale.xPerRad, y: (line.length_mm - along) * scale.yPerMm };
}
