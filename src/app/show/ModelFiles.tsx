/**
 * The piece as 3D files: with its wood for other viewers and for a phone that sets it on the table, and its exact solids
 * for printing and for other programs. What is heavy is loaded when a file is asked for.
 */
import { Box, Smartphone } from 'lucide-react';
import { useEffect, useState } from 'react';
import type { Design } from '../../design/document.ts';
import { download, fileStemOf } from '../../files/download.ts';
import { Segmented } from '../../panels/fields/Segmented.tsx';
import { useApp } from '../AppContext.ts';
import { fileSizeText } from './fileSize.ts';
import { MakingBar } from './MakingBar.tsx';
import type { MakingOptions } from './makeModel.ts';
import { useMaking } from './useMaking.ts';
import './making.css';
import './modelFiles.css';

const DETAILS = [1024, 2048, 4096].map((value) => ({ value, name: String(value) }));
const USUAL_PX = 2048;
/** No part by itself. */
const WHOLE = '';

interface Order {
  /** How the file is named when it fails. */
  readonly name: string;
  /** What stands behind the design's name in that of the file. */
  readonly ending: string;
  readonly work: (options: MakingOptions) => Promise<Blob>;
}

/** What the device's own viewer can show, and the design that it was made of. */
interface Viewed {
  readonly design: Design;
  readonly address: string;
}

export function ModelFiles() {
  const design = useApp((state) => state.design);
  const { making, make, stop } = useMaking();
  const [detail_px, setDetail] = useState(USUAL_PX);
  const [part, setPart] = useState(WHOLE);
  const [viewed, setViewed] = useState<Viewed | null>(null);
  useEffect(() => {
    if (viewed === null) return undefined;
    return () => URL.revokeObjectURL(viewed.address);
  }, [viewed]);
  const parts = ['body', ...design.order];
  const chosen = parts.includes(part) ? part : WHOLE;

  const order = ({ name, ending, work }: Order) =>
    make({
      name,
      run: async (signal, report) => {
        const blob = await work({ signal, onProgress: report });
        const fileName = `${fileStemOf(design)}${ending}`;
        download(blob, fileName);
        if (ending === '.usdz' && hasOwnViewer()) setViewed({ design, address: URL.createObjectURL(blob) });
        return `${name} is saved as ${fileName}: ${fileSizeText(blob)}.`;
      },
    });
  const wooden = (kind: 'glb' | 'usdz') =>
    order({
      name: `The ${kind.toUpperCase()} file`,
      ending: `.${kind}`,
      work: async (options) => {
        const { makeWooden } = await import('./makeModel.ts');
        return makeWooden(design, kind, detail_px, options);
      },
    });
  const solid = (ending: '3mf' | 'stl', alone?: string) =>
    order({
      name: `The ${ending.toUpperCase()} file`,
      ending: `${alone === undefined ? '' : `-${alone}`}.${ending}`,
      work: async (options) => {
        const { makeSolid } = await import('./makeModel.ts');
        return makeSolid(design, { ending, part: alone }, options);
      },
    });

  return (
    <div className="show-making">
      <Segmented field label="Wood, px across" value={detail_px} choices={DETAILS} onChange={setDetail} />
      <label className="field">
        <span className="field-name">STL of</span>
        <select value={chosen} onChange={(event) => setPart(event.target.value)}>
          <option value={WHOLE}>whole piece</option>
          {parts.map((name) => (
            <option key={name} value={name}>
              {name}
            </option>
          ))}
        </select>
      </label>
      {making ? (
        <MakingBar name="The 3D file" making={making} onStop={stop} />
      ) : (
        <div className="model-buttons">
          <button type="button" className="button" onClick={() => void wooden('glb')}>
            <Box /> GLB, with wood
          </button>
          <button type="button" className="button" onClick={() => void wooden('usdz')}>
            <Smartphone /> USDZ, for AR
          </button>
          <button type="button" className="button" onClick={() => void solid('3mf')}>
            <Box /> 3MF, every part
          </button>
          <button
            type="button"
            className="button"
            onClick={() => void solid('stl', chosen === WHOLE ? undefined : chosen)}
          >
            <Box /> STL, {chosen === WHOLE ? 'whole' : chosen}
          </button>
        </div>
      )}
      {viewed?.design === design && <OwnViewer address={viewed.address} />}
      <p className="lede">In true size. GLB and USDZ carry the wood as a picture on the finished piece.</p>
    </div>
  );
}

/**
 * A phone's own viewer opens a link of the kind `ar` whose only content is a picture (WebKit, "Viewing Augmented Reality
 * Assets in Safari for iOS"; from memory).
 */
function OwnViewer({ address }: { readonly address: string }) {
  return (
    <a className="model-viewer" rel="ar" href={address}>
      <img src="./icon-192.png" alt="Set the piece on the table" width={96} height={96} />
    </a>
  );
}

function hasOwnViewer(): boolean {
  return document.createElement('a').relList.supports('ar');
}
