/** How the piece is shown: finish, light, turning, and what stands beside it. */
import { Rotate3d, Ruler } from 'lucide-react';
import { setFinish } from '../../design/woodEdits.ts';
import { Segmented } from '../../panels/fields/Segmented.tsx';
import type { Finish, ScaleReference, StudioLight } from '../../stage/props.ts';
import { useApp } from '../AppContext.ts';
import { useEdits } from './useEdits.ts';

const FINISHES: readonly { value: Finish; name: string }[] = [
  { value: 'raw', name: 'Raw' },
  { value: 'oiled', name: 'Oiled' },
  { value: 'gloss', name: 'Gloss' },
];

const LIGHTS: readonly { value: StudioLight; name: string }[] = [
  { value: 'studio', name: 'Studio' },
  { value: 'window', name: 'Window' },
  { value: 'overcast', name: 'Cloudy' },
  { value: 'evening', name: 'Evening' },
];

const REFERENCES: readonly { value: ScaleReference | 'none'; name: string; title: string }[] = [
  { value: 'none', name: 'Nothing', title: 'Nothing beside the piece' },
  { value: 'hand', name: 'Hand', title: 'A hand 190 mm long beside the piece' },
  { value: 'pencil', name: 'Pencil', title: 'A pencil 175 mm long beside the piece' },
  { value: 'coin', name: 'Coin', title: 'A coin 24 mm across beside the piece' },
];

export function PieceControls() {
  const client = useApp((state) => state.client !== null);
  const own = useApp((state) => state.design.form?.finish ?? 'oiled');
  const squared = useApp((state) => state.design.form === null);
  const view = useApp((state) => state.view);
  const setView = useApp((state) => state.setView);
  const { edit } = useEdits();
  const { shown } = view;
  const show = (change: Partial<typeof shown>) => setView({ shown: { ...shown, ...change } });
  // A client tries a finish on; the maker decides on one.
  const choose = (finish: Finish) => {
    if (client) show({ finish: finish === own ? null : finish });
    else edit(`finish: ${finish}`, (design) => setFinish(design, finish === 'oiled' ? null : finish));
  };
  return (
    <div className="piece-controls">
      {!squared && (
        <Segmented field label="Finish" value={shown.finish ?? own} choices={FINISHES} onChange={choose} />
      )}
      <Segmented
        field
        label="Light"
        value={shown.light}
        choices={LIGHTS}
        onChange={(light) => show({ light })}
      />
      <Segmented
        field
        label="Beside it, for size"
        value={shown.reference ?? 'none'}
        choices={REFERENCES}
        onChange={(reference) => show({ reference: reference === 'none' ? null : reference })}
      />
      <div className="show-toggles">
        <button
          type="button"
          className="button"
          aria-pressed={view.turntable}
          onClick={() => setView({ turntable: !view.turntable })}
        >
          <Rotate3d /> Turntable
        </button>
        <button
          type="button"
          className="button"
          aria-pressed={shown.dimensions}
          onClick={() => show({ dimensions: !shown.dimensions })}
        >
          <Ruler /> Dimensions
        </button>
      </div>
    </div>
  );
}
