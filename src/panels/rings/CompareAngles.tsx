/** One click to see the design at two angles side by side; a design at neither stands beside them as it is. */
import { Columns2 } from 'lucide-react';
import type { Design } from '../../design/document.ts';
import { formatAngle } from '../../design/lengthText.ts';
import { useBench } from '../bench.ts';

/** Pairs of angles worth a look for a set at an angle: 45° against 60° always, and its own against 60°. */
export function anglePairs(angle_deg: number): readonly (readonly [number, number])[] {
  const usual = [45, 60] as const;
  if (angle_deg === 45 || angle_deg === 60) return [usual];
  return [angle_deg < 60 ? [angle_deg, 60] : [60, angle_deg], usual];
}

export function CompareAngles({ design }: { design: Design }) {
  const selected = useBench((bench) => bench.selectedSet);
  const compareAngles = useBench((bench) => bench.compareAngles);
  const { angle_deg } = design.sets.find((set) => set.id === selected) ?? design.sets[0];
  return (
    <section className="group" aria-label="Compare">
      <h2>Side by side</h2>
      <div className="compare-angles">
        {anglePairs(angle_deg).map(([low, high]) => (
          <button
            key={`${low} ${high}`}
            type="button"
            className="button full"
            onClick={() => compareAngles(angle_deg, [low, high])}
          >
            <Columns2 /> {formatAngle(low)} against {formatAngle(high)}
          </button>
        ))}
      </div>
    </section>
  );
}
