/** The words and the few controls of the Show station, over the stage. */
import { Camera, Rotate3d, Share2 } from 'lucide-react';
import { useState } from 'react';
import type { Design } from '../design/document.ts';
import { setFinish } from '../design/woodEdits.ts';
import { count, timberName } from '../panels/moments/momentText.ts';
import { Segmented } from '../panels/fields/Segmented.tsx';
import type { Finish, StageHandle } from '../stage/props.ts';
import { useApp } from './AppContext.ts';
import { download, fileStemOf } from '../files/download.ts';

const FINISHES: readonly { value: Finish; name: string }[] = [
  { value: 'raw', name: 'Raw' },
  { value: 'oiled', name: 'Oiled' },
  { value: 'gloss', name: 'Gloss' },
];

/** Longer side of a saved picture, pixels. */
const PICTURE_PX = 2048;

export function ShowBar({ stage }: { stage: React.RefObject<StageHandle | null> }) {
  const design = useApp((state) => state.design);
  const view = useApp((state) => state.view);
  const setView = useApp((state) => state.setView);
  const edit = useApp((state) => state.edit);
  const say = useApp((state) => state.say);
  const showDialog = useApp((state) => state.showDialog);
  const [busy, setBusy] = useState(false);
  const savePicture = async () => {
    const handle = stage.current;
    if (!handle) return;
    setBusy(true);
    try {
      const picture = await handle.capture({ width_px: PICTURE_PX, height_px: PICTURE_PX });
      download(picture, `${fileStemOf(design)}.png`);
    } catch (error) {
      say(`No picture was saved: ${error instanceof Error ? error.message : String(error)}`);
    }
    setBusy(false);
  };
  return (
    <div className="show-bar">
      <div className="show-words">
        <h1>{design.name}</h1>
        <p>{madeOf(design)}</p>
      </div>
      <div className="show-tools">
        <Segmented
          label="Finish"
          value={design.form?.finish ?? 'oiled'}
          choices={FINISHES}
          onChange={(finish) =>
            edit(`finish: ${finish}`, (current) => setFinish(current, finish === 'oiled' ? null : finish))
          }
        />
        <button
          type="button"
          className="button"
          aria-pressed={view.turntable}
          onClick={() => setView({ turntable: !view.turntable })}
        >
          <Rotate3d /> Turntable
        </button>
        <button type="button" className="button" onClick={() => showDialog('share')}>
          <Share2 /> Share
        </button>
        <button type="button" className="button" disabled={busy} onClick={() => void savePicture()}>
          <Camera /> {busy ? 'Drawing …' : 'Save a picture'}
        </button>
      </div>
    </div>
  );
}

/** `Black walnut with four … of hard maple`: what it is made of, for a client. */
function madeOf(design: Design): string {
  const strips = new Set(
    design.sets.flatMap((set) => set.strip.layers.map((layer) => timberName(layer.timber))),
  );
  const body = timberName(design.blank.timber);
  if (strips.size === 0) return body;
  return `${body}, ${count(design.order.length, 'ring')} of ${listed([...strips].map((name) => name.toLowerCase()))}`;
}

function listed(names: readonly string[]): string {
  if (names.length < 2) return names.join('');
  return `${names.slice(0, -1).join(', ')} and ${names[names.length - 1]}`;
}
