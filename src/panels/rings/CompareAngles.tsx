/** One click to see the design at two angles side by side. */
import { Columns2 } from 'lucide-react';
import type { Design } from '../../design/document.ts';
import { formatAngle } from '../../design/lengthText.ts';
import { useBench } from '../bench.ts';

/** The angle that the button sets beside the design's own. */
export function otherAngle(angle_deg: number): number {
  return angle_deg === 60 ? 45 : 60;
}

export function CompareAngles({ design }: { design: Design }) {
  const selected = useBench((bench) => bench.selectedSet);
  const compareAngles = useBench((bench) => bench.compareAngles);
  const angle_deg = (design.sets.find((set) => set.id === selected) ?? design.sets[0]).angle_deg;
  const other_deg = otherAngle(angle_deg);
  const [low, high] = [angle_deg, other_deg].sort((a, b) => a - b);
  return (
    <section className="group" aria-label="Compare">
      <button type="button" className="button full" onClick={() => compareAngles(angle_deg, other_deg)}>
        <Columns2 /> {formatAngle(low)} against {formatAngle(high)}
      </button>
    </section>
  );
}
