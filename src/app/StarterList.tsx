/** The starter designs with their pictures, read when the list is first shown: a first visit does not load them. */
import { useEffect, useState } from 'react';
import type { Design } from '../design/document.ts';
import { useApp } from './AppContext.ts';
import { Portrait } from './Portrait.tsx';
import { starterLine } from './starterLine.ts';
import { STARTER_DESIGNS, type StarterDesign } from './starters.ts';

export function StarterList({ choose }: { readonly choose: (design: Design) => void }) {
  return (
    <ul className="starters">
      {STARTER_DESIGNS.map((starter) => (
        <StarterRow key={starter.name} starter={starter} choose={choose} />
      ))}
    </ul>
  );
}

interface StarterRowProps {
  readonly starter: StarterDesign;
  readonly choose: (design: Design) => void;
}

function StarterRow({ starter, choose }: StarterRowProps) {
  const unit = useApp((state) => state.design.unit);
  const [design, setDesign] = useState<Design | null>(null);
  useEffect(() => {
    let wanted = true;
    void starter.load().then((loaded) => {
      if (wanted) setDesign(loaded);
    });
    return () => {
      wanted = false;
    };
  }, [starter]);
  return (
    <li>
      <button type="button" onClick={() => void starter.load().then(choose)}>
        <Portrait of={`starter ${starter.name}`} look={starter.load} />
        <span>
          {starter.name}
          <small>{design ? starterLine(design, unit) : '…'}</small>
        </span>
      </button>
    </li>
  );
}
