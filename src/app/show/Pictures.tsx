/** A picture of the piece as it is shown, saved as a PNG. */
import { Camera } from 'lucide-react';
import { useState, type RefObject } from 'react';
import { download, fileStemOf } from '../../files/download.ts';
import { NumberField } from '../../panels/fields/NumberField.tsx';
import { COUNT } from '../../panels/fields/quantity.ts';
import { Segmented } from '../../panels/fields/Segmented.tsx';
import { MOST_PICTURE_PX, type PictureRequest, type StageHandle } from '../../stage/props.ts';
import { useApp } from '../AppContext.ts';
import { fileSizeText } from './fileSize.ts';
import { MakingBar } from './MakingBar.tsx';
import { LEAST_PX, LONG_SIDES_PX, sizeOf, timeLeft, type PictureShape } from './pictureSize.ts';
import { useMaking } from './useMaking.ts';
import './making.css';

const SHAPES: readonly { value: PictureShape; name: string; title: string }[] = [
  { value: 'square', name: '1:1', title: '1:1, square' },
  { value: 'wide', name: '4:3', title: '4:3, wider than high' },
  { value: 'tall', name: '3:4', title: '3:4, higher than wide' },
  { value: 'screen', name: '16:9', title: '16:9, as wide as a screen' },
  { value: 'own', name: 'Own', title: 'Own width and height' },
];

const SIDES = LONG_SIDES_PX.map((value) => ({ value, name: String(value) }));

type Background = NonNullable<PictureRequest['background']>;
const BACKGROUNDS: readonly { value: Background; name: string }[] = [
  { value: 'studio', name: 'Studio' },
  { value: 'transparent', name: 'Transparent' },
];

const nothing = () => undefined;

export function Pictures({ stage }: { readonly stage: RefObject<StageHandle | null> }) {
  const design = useApp((state) => state.design);
  const { making, make, stop } = useMaking();
  const [shape, setShape] = useState<PictureShape>('square');
  const [long_px, setLong] = useState<number>(2048);
  const [own, setOwn] = useState({ width_px: 1600, height_px: 1200 });
  const [background, setBackground] = useState<Background>('studio');
  const size = shape === 'own' ? own : sizeOf(shape, long_px);
  const save = () =>
    make({
      name: 'The picture',
      run: async (signal, report) => {
        const started = performance.now();
        const picture = await handleOf(stage).capture({
          ...size,
          background,
          signal,
          onProgress: (share) =>
            report({
              share,
              words: share < 1 ? timeLeft(share, 1, performance.now() - started) : 'Writing …',
            }),
        });
        download(picture, `${fileStemOf(design)}.png`);
        return `The picture is saved: ${size.width_px} × ${size.height_px} pixels, ${fileSizeText(picture)}.`;
      },
    });
  return (
    <div className="show-making">
      <Segmented field label="Shape" value={shape} choices={SHAPES} onChange={setShape} />
      {shape === 'own' ? (
        <div className="making-own">
          <NumberField
            label="Width, px"
            value={own.width_px}
            quantity={COUNT}
            min={LEAST_PX}
            max={MOST_PICTURE_PX}
            onChange={(width_px) => setOwn({ ...own, width_px })}
            onSettle={nothing}
          />
          <NumberField
            label="Height, px"
            value={own.height_px}
            quantity={COUNT}
            min={LEAST_PX}
            max={MOST_PICTURE_PX}
            onChange={(height_px) => setOwn({ ...own, height_px })}
            onSettle={nothing}
          />
        </div>
      ) : (
        <Segmented field label="Longer side, px" value={long_px} choices={SIDES} onChange={setLong} />
      )}
      <Segmented field label="Background" value={background} choices={BACKGROUNDS} onChange={setBackground} />
      {making ? (
        <MakingBar name="The picture" making={making} onStop={stop} />
      ) : (
        <button type="button" className="button" onClick={() => void save()}>
          <Camera /> Save the picture
        </button>
      )}
      <p className="lede">
        The whole piece, seen from where the stage stands, {size.width_px} × {size.height_px} pixels.
      </p>
    </div>
  );
}

/** The stage, or the sentence why there is none. */
export function handleOf(stage: RefObject<StageHandle | null>): StageHandle {
  if (!stage.current) throw new Error('there is no 3D picture in this browser, or it is still loading');
  return stage.current;
}
