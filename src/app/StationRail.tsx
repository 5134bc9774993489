/** The five stations, numbered in working order like the balloons of a drawing. */
import { STATIONS, type Station } from '../panels/bench.ts';
import { useApp } from './AppContext.ts';

export const STATION_NAMES: Readonly<Record<Station, string>> = {
  blank: 'Blank',
  rings: 'Rings',
  form: 'Form',
  plan: 'Saw plan',
  show: 'Show',
};

export function StationRail() {
  const current = useApp((state) => state.station);
  return (
    <nav className="rail" aria-label="Stations">
      <ol>
        {STATIONS.map((station, n) => (
          <li key={station}>
            <a href={`#/${station}`} aria-current={station === current ? 'page' : undefined}>
              <span className="balloon" aria-hidden="true">
                {n + 1}
              </span>
              {STATION_NAMES[station]}
            </a>
          </li>
        ))}
      </ol>
    </nav>
  );
}
