/** A film of the piece in one turn, that can be played round and round. */
import { Clapperboard } from 'lucide-react';
import { useState, type RefObject } from 'react';
import { download, fileStemOf } from '../../files/download.ts';
import type { FilmFormat } from '../../files/film.ts';
import { Segmented } from '../../panels/fields/Segmented.tsx';
import type { StageHandle } from '../../stage/props.ts';
import { useApp } from '../AppContext.ts';
import { fileSizeText } from './fileSize.ts';
import { MakingBar } from './MakingBar.tsx';
import { handleOf } from './Pictures.tsx';
import { FILM_SIZES, timeLeft, type FilmSize } from './pictureSize.ts';
import { useMaking } from './useMaking.ts';
import './making.css';

const SIZES: readonly { value: FilmSize; name: string; title: string }[] = [
  { value: '720p', name: '720p', title: '720p, 1280 × 720 pixels' },
  { value: '1080p', name: '1080p', title: '1080p, 1920 × 1080 pixels' },
  { value: 'square', name: '1:1', title: '1:1, 1080 × 1080 pixels' },
];
const SECONDS = [6, 10, 15].map((value) => ({ value, name: `${value} s` }));
const RATES = [24, 30].map((value) => ({ value, name: String(value) }));

export function Film({ stage }: { readonly stage: RefObject<StageHandle | null> }) {
  const design = useApp((state) => state.design);
  const { making, make, stop } = useMaking();
  const [size, setSize] = useState<FilmSize>('720p');
  const [seconds, setSeconds] = useState(10);
  const [fps, setFps] = useState(24);
  const save = () =>
    make({
      name: 'The film',
      run: async (signal, report) => {
        const handle = handleOf(stage);
        const { filmFormat, filmShot, makeFilm } = await import('../../files/film.ts');
        const plan = { ...FILM_SIZES[size], seconds, fps };
        const format = await filmFormat(plan);
        const shot = filmShot(plan, format);
        const turn = await handle.openTurn({ ...shot, signal });
        try {
          const started = performance.now();
          const film = await makeFilm(shot, format, (index) => turn.draw(index), {
            signal,
            onProgress: (done) =>
              report({
                share: done / shot.frames,
                words: `Picture ${done} of ${shot.frames}, ${timeLeft(done, shot.frames, performance.now() - started)}`,
              }),
          });
          download(film, `${fileStemOf(design)}-turn.${format.kind}`);
          return `The film is saved: ${formatWords(format)}, ${shot.width_px} × ${shot.height_px} pixels, ${fileSizeText(film)}.`;
        } finally {
          turn.dispose();
        }
      },
    });
  return (
    <div className="show-making">
      <Segmented field label="Size" value={size} choices={SIZES} onChange={setSize} />
      <Segmented field label="One turn in" value={seconds} choices={SECONDS} onChange={setSeconds} />
      <Segmented field label="Pictures a second" value={fps} choices={RATES} onChange={setFps} />
      {making ? (
        <MakingBar name="The film" making={making} onStop={stop} />
      ) : (
        <button type="button" className="button" onClick={() => void save()}>
          <Clapperboard /> Save the film
        </button>
      )}
      <p className="lede">
        {seconds * fps} pictures, drawn one by one: without a graphics card that takes minutes. Keep this
        window in front meanwhile; you can go on working on the stage.
      </p>
    </div>
  );
}

function formatWords({ kind, codec }: FilmFormat): string {
  if (kind === 'gif') return 'a GIF, because this browser encodes no video';
  if (kind === 'mp4') return 'MP4';
  return `WebM (${codec.toUpperCase()})`;
}
