/** The unrolled map beside the stage, with the numbers of what is pointed at. */
import { PointedNumbers } from '../panels/map/PointedNumbers.tsx';
import { UnrolledMap } from '../panels/map/UnrolledMap.tsx';
import { useApp } from './AppContext.ts';

export function MapDock() {
  const design = useApp((state) => state.design);
  return (
    <section className="dock" aria-label="Unrolled map">
      <div className="dock-head">
        <h2>Unrolled map</h2>
      </div>
      <UnrolledMap maxHeight_px={420} />
      <PointedNumbers design={design} />
    </section>
  );
}
