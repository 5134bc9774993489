/** The starter designs with their pictures, read when the list is first shown: a first visit does not load them. */
import { useEffect, useState } from 'react';
import type { Design } from '../design/document.ts';
import { useApp } from './AppContext.ts';
import { Portrait } from './Portrait.tsx';
import { starterLine } from './starterLine.ts';
import { STARTER_DESIGNS, type StarterDesign } from './starters.ts';

interface StarterListProps {
  /** Id of the menu, which closes. */
  readonly menu: string;
  readonly choose: (design: Design) => void;
}

export function StarterList(props: StarterListProps) {
  return (
    <ul className="starters">
      {STARTER_DESIGNS.map((starter) => (
        <StarterRow key={starter.name} starter={starter} {...props} />
      ))}
    </ul>
  );
}

function StarterRow({ starter, menu, choose }: StarterListProps & { readonly starter: StarterDesign }) {
  const unit = useApp((state) => state.design.unit);
  const [design, setDesign] = useState<Design | null>(null);
  useEffect(() => {
    let wanted = true;
    const load = async () => {
      const loaded = await starter.load();
      if (wanted) setDesign(loaded);
    };
    void load();
    return () => {
      wanted = false;
    };
  }, [starter]);
  return (
    <li>
      <button
        type="button"
        onClick={() => {
          document.getElementById(menu)?.hidePopover();
          void starter.load().then(choose);
        }}
      >
        <Portrait of={`starter ${starter.name}`} look={starter.load} />
        <span>
          {starter.name}
          <small>{design ? starterLine(design, unit) : '…'}</small>
        </span>
      </button>
    </li>
  );
}
