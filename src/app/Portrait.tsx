/** A design of a list in small. Drawn one after the other, so that a long list does not hold up the page. */
import { useEffect, useState } from 'react';
import type { Design } from '../design/document.ts';
import type { Portrait as Drawn } from '../files/portrait.ts';
import { DrawingSvg } from '../panels/plan/DrawingSvg.tsx';
import './designs.css';

/** What is drawn already. */
const drawn = new Map<string, Drawn>();
let queue: Promise<unknown> = Promise.resolve();

interface PortraitProps {
  /** The same for the same picture. */
  readonly of: string;
  /** The design, when its turn comes; null where there is none. The same function for the same picture. */
  readonly look: () => Promise<Design | null>;
}

export function Portrait({ of, look }: PortraitProps) {
  const [portrait, setPortrait] = useState(drawn.get(of));
  useEffect(() => {
    let wanted = true;
    const draw = async () => {
      if (!wanted || drawn.has(of)) return;
      const design = await look();
      if (!design) return;
      const { portraitOf } = await import('../files/portrait.ts');
      const made = portraitOf(design);
      drawn.set(of, made);
      if (wanted) setPortrait(made);
      // Room for the page to answer before the next one.
      await new Promise((resolve) => setTimeout(resolve, 20));
    };
    queue = queue.then(draw);
    return () => {
      wanted = false;
    };
  }, [of, look]);
  return (
    <span className="portrait" aria-hidden="true">
      {portrait && (
        <DrawingSvg
          items={portrait.items}
          width_mm={portrait.width_mm}
          height_mm={portrait.height_mm}
          label="The piece from the side"
        />
      )}
    </span>
  );
}
