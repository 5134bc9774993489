/** The five stations, numbered in working order like the balloons of a drawing. */
import { STATIONS, type Station } from '../panels/bench.ts';
import { useApp, useAppStore } from './AppContext.ts';

export const STATION_NAMES: Readonly<Record<Station, string>> = {
  blank: 'Blank',
  rings: 'Rings',
  form: 'Form',
  plan: 'Saw plan',
  show: 'Show',
};

/** As in screens.css: the map and the settings of the picture lie over the controls. */
const PHONE = '(max-width: 720px)';

export function StationRail() {
  const store = useAppStore();
  const current = useApp((state) => state.station);
  return (
    <nav className="rail" aria-label="Stations">
      <ol>
        {STATIONS.map((station, n) => (
          <li key={station}>
            <a
              href={`#/${station}`}
              aria-current={station === current ? 'page' : undefined}
              onClick={() => {
                if (!window.matchMedia(PHONE).matches) return;
                const { view, setView } = store.getState();
                setView({ map: false, apart: 0, section: { ...view.section, on: false } });
              }}
            >
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
