/**
 * On the unrolled map of the ideal: where the rings of the sample lie, as they are drawn on the stage; the ring and the
 * crossing that are farthest off, with how far they are off in truth. On the map of the sample: where the ideal's lie.
 */
import type { Crossing } from '../../blank/crossings.ts';
import type { RingPath } from '../../blank/rings.ts';
import type { Design } from '../../design/document.ts';
import { formatThickness } from '../../design/lengthText.ts';
import { useBench, type Work } from '../bench.ts';
import { pathsFor } from '../derived.ts';
import { samplePair, shiftsOf, type SamplePair } from './sampleVariant.ts';
import './asBuilt.css';

export interface SampleOnMapProps {
  readonly design: Design;
  /** How the map draws a centreline and where it puts a crossing. */
  readonly lineOf: (path: RingPath) => string;
  readonly placeOf: (crossing: Crossing) => { readonly x: number; readonly y: number };
  readonly width_px: number;
}

const ROOM_PX = 70;

export function SampleOnMap(props: SampleOnMapProps) {
  const { design, lineOf, placeOf, width_px } = props;
  const work = useBench((bench) => bench.work);
  const shown = pairAt(work, design);
  if (!shown) return null;
  const other = (shown.onIdeal ? shown.pair.variant : shown.pair.ideal).design;
  const shifts = shown.onIdeal ? shiftsOf(shown.pair) : null;
  const worst = shifts?.rings.findIndex((ring) => ring === shifts.worstRing);
  const lines = (pathsFor(other) ?? []).flatMap((paths, n) =>
    paths.map((path) => ({ d: lineOf(path), isWorst: n === worst })),
  );
  const crossing = shifts?.worstCrossing;
  const at = crossing ? placeOf(crossing.crossing) : null;
  return (
    <g className="map-sample" aria-hidden="true">
      {['under', 'over'].map((layer) =>
        lines.map(({ d, isWorst }, i) => (
          <path key={`${layer} ${i}`} className={layer} data-worst={isWorst} d={d} />
        )),
      )}
      {at && crossing && (
        <>
          <circle className="under" cx={at.x} cy={at.y} r={8} />
          <circle cx={at.x} cy={at.y} r={8} />
          <text
            x={at.x > width_px - ROOM_PX ? at.x - 13 : at.x + 13}
            y={at.y + 4}
            textAnchor={at.x > width_px - ROOM_PX ? 'end' : 'start'}
          >
            {formatThickness(crossing.shift_mm, design.unit)} off
          </text>
        </>
      )}
    </g>
  );
}

/** What the dashed lines of the map are, in words. */
export function SampleWords({ design }: { design: Design }) {
  const work = useBench((bench) => bench.work);
  const shown = pairAt(work, design);
  if (!shown) return null;
  const { sample } = shown.pair;
  const errors = sample.times === 1 ? 'in true size' : `errors shown ×${sample.times}`;
  return (
    <p className="map-sample-words">
      {shown.onIdeal ? `Dashed: as sawn, try ${sample.tried}, ${errors}.` : 'Dashed: the ideal.'}
      {!shown.onIdeal && sample.times !== 1 && ` This piece: errors shown ×${sample.times}.`}
    </p>
  );
}

function pairAt(work: Work, design: Design): { pair: SamplePair; onIdeal: boolean } | null {
  const pair = samplePair(work);
  if (!pair || pair.ideal.design.form !== pair.variant.design.form) return null;
  if (pair.ideal.design === design) return { pair, onIdeal: true };
  return pair.variant.design === design ? { pair, onIdeal: false } : null;
}
