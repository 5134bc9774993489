/** A design of the list in small. Drawn one after the other, so that a long list does not hold up the page. */
import { useEffect, useState } from 'react';
import type { Portrait } from '../files/portrait.ts';
import { DrawingSvg } from '../panels/plan/DrawingSvg.tsx';
import type { Shelf } from './keepShelf.ts';

/** What is drawn already, by design and the time of its last edit. */
const drawn = new Map<string, Portrait>();
let queue: Promise<unknown> = Promise.resolve();

interface KeptPortraitProps {
  readonly shelf: Shelf;
  readonly id: string;
  readonly edited_ms: number;
}

export function KeptPortrait({ shelf, id, edited_ms }: KeptPortraitProps) {
  const key = `${id} ${edited_ms}`;
  const [portrait, setPortrait] = useState(drawn.get(key));
  useEffect(() => {
    let wanted = true;
    const draw = async () => {
      if (!wanted || drawn.has(key)) return;
      const design = await shelf.lookAt(id);
      if (!design) return;
      const { portraitOf } = await import('../files/portrait.ts');
      const made = portraitOf(design);
      drawn.set(key, made);
      if (wanted) setPortrait(made);
      // Room for the page to answer before the next one.
      await new Promise((resolve) => setTimeout(resolve, 20));
    };
    queue = queue.then(draw);
    return () => {
      wanted = false;
    };
  }, [shelf, id, key]);
  return (
    <span className="kept-portrait" aria-hidden="true">
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
