/** The piece of a variant in small, drawn as on paper, when the page has time for it. */
import { useEffect, useState } from 'react';
import type { Design } from '../../design/document.ts';
import type { Portrait as Drawn } from '../../files/portrait.ts';
import { DrawingSvg } from '../../panels/plan/DrawingSvg.tsx';

const drawn = new WeakMap<Design, Drawn>();

export function Portrait({ design }: { readonly design: Design }) {
  const [portrait, setPortrait] = useState(drawn.get(design));
  useEffect(() => {
    let wanted = true;
    const draw = async () => {
      const { portraitOf } = await import('../../files/portrait.ts');
      if (!wanted) return;
      const made = drawn.get(design) ?? portraitOf(design);
      drawn.set(design, made);
      setPortrait(made);
    };
    void draw();
    return () => {
      wanted = false;
    };
  }, [design]);
  return (
    <span className="choice-portrait" aria-hidden="true">
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
