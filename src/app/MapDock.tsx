/** Beside the stage: the variants while there are several, the unrolled map, the numbers of what is pointed at. */
import { Copy } from 'lucide-react';
import { ComparePanel } from '../panels/compare/ComparePanel.tsx';
import { PointedNumbers } from '../panels/map/PointedNumbers.tsx';
import { UnrolledMap } from '../panels/map/UnrolledMap.tsx';
import { useApp } from './AppContext.ts';

export function MapDock() {
  const design = useApp((state) => state.design);
  const variants = useApp((state) => state.work.variants.length);
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
      </div>
      <UnrolledMap maxHeight_px={420} />
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
