/** What stands behind the outline: the blank with its webs, the cuts' mid-planes, the wood that would show a web. */
import type { Design, Form } from '../../design/document.ts';
import { cotDeg } from '../../geometry/angle.ts';
import { profileFor } from '../derived.ts';
import { timberColour } from '../timberColour.ts';
import type { Frame } from './outlineFrame.ts';

export function Blank({ frame }: { frame: Frame }) {
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
export function Planes({ design, frame }: { design: Design; frame: Frame }) {
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
export function WebTouch({ design, form, frame }: { design: Design; form: Form; frame: Frame }) {
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
