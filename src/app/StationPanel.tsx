/** The controls of the current station. */
import { useApp } from './AppContext.ts';
import { STATION_NAMES } from './StationRail.tsx';

export function StationPanel() {
  const station = useApp((state) => state.station);
  return (
    <aside className="panel" aria-label={STATION_NAMES[station]}>
      <h1>{STATION_NAMES[station]}</h1>
    </aside>
  );
}
