/** A design in small, in a list or on a choice's card. Drawn one after the other, so that many do not hold up the page. */
import { useEffect, useState } from 'react';
import type { Design } from '../design/document.ts';
import type { Portrait as Drawn } from '../files/portrait.ts';
import { DrawingSvg } from '../panels/plan/DrawingSvg.tsx';
import './designs.css';

/** What is drawn already. */
const byText = new Map<string, Drawn>();
const byDesign = new WeakMap<Design, Drawn>();
let queue: Promise<unknown> = Promise.resolve();

interface PortraitProps {
  /** The same for the same picture: the design, or a text where it is looked up only when its turn comes. */
  readonly of: Design | string;
  /** The design; null where there is none. The same function for the same picture. */
  readonly look: () => Design | Promise<Design | null>;
  readonly className?: string;
}

export function Portrait({ of, look, className = 'portrait' }: PortraitProps) {
  const [portrait, setPortrait] = useState(drawnOf(of));
  useEffect(() => {
    let wanted = true;
    const draw = async () => {
      if (!wanted) return;
      const known = drawnOf(of);
      if (known) {
        setPortrait(known);
        return;
      }
      const design = await look();
      if (!design) return;
      const { portraitOf } = await import('../files/portrait.ts');
      const made = portraitOf(design);
      if (typeof of === 'string') byText.set(of, made);
      else byDesign.set(of, made);
      if (wanted) setPortrait(made);
      // Room for the page to answer before the next one.
      await new Promise((resolve) => setTimeout(resolve, 20));
    };
    // One that fails is reported as an error of the page and does not keep the others waiting.
    queue = queue.then(draw).catch(reportError);
    return () => {
      wanted = false;
    };
  }, [of, look]);
  return (
    <span className={className} aria-hidden="true">
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

function drawnOf(of: Design | string): Drawn | undefined {
  return typeof of === 'string' ? byText.get(of) : byDesign.get(of);
}
