/** One piece as it may be sawn, beside the design; pressed again, another one. Lengths mm, angles degrees. */
import { Columns2 } from 'lucide-react';
import type { Design } from '../../design/document.ts';
import { formatLength } from '../../design/lengthText.ts';
import { useBench } from '../bench.ts';

export function AsBuilt({ design: { saw, unit } }: { design: Design }) {
  const compareAsBuilt = useBench((bench) => bench.compareAsBuilt);
  return (
    <>
      <button type="button" className="button full as-built" onClick={compareAsBuilt}>
        <Columns2 /> Show one as it may come out
      </button>
      <p className="lede">
        Every cut is off by chance, on its own: its angle by up to {saw.angle_tolerance_deg}°, its stop by up
        to {formatLength(saw.stop_tolerance_mm, unit)}. The same try of the same design always comes out
        alike; press again for the next try.
      </p>
    </>
  );
}
