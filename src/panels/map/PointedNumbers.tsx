/** The numbers of the ring or the crossing that is pointed at; of all rings together when none is. */
import type { Design } from '../../design/document.ts';
import { formatAngle, formatLength, formatThickness } from '../../design/lengthText.ts';
import { faceLetterAt, sectionGeometry } from '../../design/section.ts';
import { sinDeg } from '../../geometry/angle.ts';
import { useBench, type Pointed } from '../bench.ts';
import { coverageFor, crossingsFor, ringsFor, slotsFor } from '../derived.ts';
import { useReport } from '../useReport.ts';

export function PointedNumbers({ design }: { design: Design }) {
  const pointed = useBench((bench) => bench.pointed);
  const known = pointed !== null && stands(pointed, design) ? pointed : null;
  return (
    <div className="pointed" aria-live="polite">
      {known?.kind === 'ring' ? (
        <RingNumbers design={design} slot={known.slot} />
      ) : known?.kind === 'crossing' ? (
        <CrossingNumbers design={design} pointed={known} />
      ) : (
        <Summary design={design} />
      )}
    </div>
  );
}

function stands(pointed: Pointed, design: Design): boolean {
  const ids = pointed.kind === 'ring' ? [pointed.slot] : [pointed.under, pointed.over];
  return ids.every((id) => design.order.includes(id));
}

function Summary({ design }: { design: Design }) {
  const rings = ringsFor(design) ?? [];
  const crossings = crossingsFor(design) ?? [];
  const coverage = coverageFor(design);
  const { report } = useReport();
  if (!design.form) return null;
  const whole = rings.filter((ring) => ring.whole).length;
  return (
    <>
      <h3>All rings</h3>
      <dl className="facts">
        <dt>Rings</dt>
        <dd>{rings.length}</dd>
        <dt>Whole all around</dt>
        <dd>{whole}</dd>
        <dt>Crossings</dt>
        <dd>{crossings.length}</dd>
        {coverage && (
          <>
            <dt>Strips show on</dt>
            <dd>{percent(1 - coverage.body_mm2 / coverage.outside_mm2)} of the outside</dd>
          </>
        )}
        {report?.turned && (
          <>
            <dt>Wood turned away</dt>
            <dd>{percent(1 - report.turned.volume_mm3 / report.block.volume_mm3)}</dd>
          </>
        )}
      </dl>
      {rings.length > 0 && (
        <p className="lede">Point at a band{crossings.length > 0 && ' or a crossing'} for its numbers.</p>
      )}
    </>
  );
}

function percent(share: number): string {
  return `${(share * 100).toFixed(1)} %`;
}

function RingNumbers({ design, slot }: { design: Design; slot: string }) {
  const { unit } = design;
  const index = slotsFor(design).findIndex((candidate) => candidate.id === slot);
  const ring = ringsFor(design)?.[index];
  const { angle_deg, kerf_mm, fenceAzimuth_deg } = slotsFor(design)[index];
  const face = faceLetterAt(sectionGeometry(design.blank.section), fenceAzimuth_deg);
  if (!ring) return null;
  return (
    <>
      <h3>
        Ring {slot}
        <small>
          cut {index + 1}, {formatAngle(angle_deg)},{' '}
          {face === null ? formatAngle(fenceAzimuth_deg) : `face ${face}`}
        </small>
      </h3>
      {ring.zLow_mm === null || ring.zHigh_mm === null || ring.span_mm === null ? (
        <p className="lede">The cut misses the outside of the form.</p>
      ) : (
        <dl className="facts">
          <dt>Lowest</dt>
          <dd>{formatLength(ring.zLow_mm, unit)}</dd>
          <dt>Highest</dt>
          <dd>{formatLength(ring.zHigh_mm, unit)}</dd>
          <dt>Span</dt>
          <dd>{formatLength(ring.span_mm, unit)}</dd>
          <dt>Band along the axis</dt>
          <dd>{formatThickness(kerf_mm / sinDeg(angle_deg), unit)}</dd>
          <dt>Length</dt>
          <dd>{formatLength(ring.length_mm, unit)}</dd>
          <dt>Missing in the web</dt>
          <dd>{formatLength(ring.missing_mm, unit)}</dd>
          <dt>Under later strips</dt>
          <dd>{formatLength(ring.hidden_mm, unit)}</dd>
        </dl>
      )}
    </>
  );
}

function CrossingNumbers({ design, pointed }: { design: Design; pointed: Pointed & { kind: 'crossing' } }) {
  const slots = slotsFor(design);
  const crossing = crossingsFor(design)?.find(
    (candidate) =>
      slots[candidate.under].id === pointed.under &&
      slots[candidate.over].id === pointed.over &&
      Math.abs(candidate.z_mm - pointed.z_mm) < 1e-6 &&
      Math.abs(candidate.azimuth_deg - pointed.azimuth_deg) < 1e-6,
  );
  return (
    <>
      <h3>
        Crossing
        <small>
          {pointed.over} over {pointed.under}
        </small>
      </h3>
      <dl className="facts">
        <dt>From the foot</dt>
        <dd>{formatLength(pointed.z_mm, design.unit)}</dd>
        <dt>Azimuth</dt>
        <dd>{formatAngle(pointed.azimuth_deg)}</dd>
        {crossing && (
          <>
            <dt>Diameter there</dt>
            <dd>{formatLength(2 * crossing.radius_mm, design.unit)}</dd>
          </>
        )}
      </dl>
    </>
  );
}
