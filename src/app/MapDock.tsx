/** Beside the stage: the variants while there are several, the unrolled map, the numbers of what is pointed at. */
import { Copy, Maximize2, Minimize2 } from 'lucide-react';
import { ComparePanel } from '../panels/compare/ComparePanel.tsx';
import { PointedNumbers } from '../panels/map/PointedNumbers.tsx';
import { UnrolledMap } from '../panels/map/UnrolledMap.tsx';
import { useApp } from './AppContext.ts';

export function MapDock() {
  const design = useApp((state) => state.design);
  const variants = useApp((state) => state.work.variants.length);
  const large = useApp((state) => state.view.mapLarge);
  const setView = useApp((state) => state.setView);
  const addVariant = useApp((state) => state.addVariant);
  return (
    <section className="dock" aria-label="Map and numbers">
      {variants > 1 && (
        <>
          <div className="dock-head">
            <h2>Variants</h2>
          </div>
          <ComparePanel />
        </>
      )}
      <div className="dock-head">
        <h2>Unrolled map</h2>
        <button
          type="button"
          className="icon"
          aria-label={large ? 'Map beside the stage' : 'Map in the place of the stage'}
          title={large ? 'Beside the stage' : 'Larger, in the place of the stage'}
          onClick={() => setView({ mapLarge: !large })}
        >
          {large ? <Minimize2 /> : <Maximize2 />}
        </button>
      </div>
      <UnrolledMap maxHeight_px={large ? Math.max(window.innerHeight - 330, 300) : 420} />
      <PointedNumbers design={design} />
      {variants === 1 && (
        <div className="dock-foot">
          <button type="button" className="button quiet" onClick={addVariant}>
            <Copy /> Try a variant beside this one
          </button>
        </div>
      )}
    </section>
  );
}
