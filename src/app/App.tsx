/** The whole window: bar, stations, the station's panel, the stage with its map, and the line of moments. */
import { lazy, useRef } from 'react';
import { BenchContext } from '../panels/bench.ts';
import { MomentLine } from '../panels/moments/MomentLine.tsx';
import { AppContext, useApp } from './AppContext.ts';
import { KeptDesigns } from './KeptDesigns.tsx';
import { KeyTable } from './KeyTable.tsx';
import { Later } from './Later.tsx';
import { MapDock } from './MapDock.tsx';
import { RefusedFile } from './RefusedFile.tsx';
import { Said } from './Said.tsx';

import { SectionCard } from './SectionCard.tsx';
import { ShareDesign } from './ShareDesign.tsx';
import { StageArea } from './StageArea.tsx';
import { StationPanel } from './StationPanel.tsx';
import { StationRail } from './StationRail.tsx';
import { TopBar } from './TopBar.tsx';
import { UpdateNotice } from './UpdateNotice.tsx';
import type { StageHandle } from '../stage/props.ts';
import type { AppStore } from './store.ts';

/** Only for those who came by a client's link. */
const ClientPage = lazy(async () => {
  const page = await import('./show/ClientPage.tsx');
  return { default: page.ClientPage };
});

export function App({ store }: { store: AppStore }) {
  return (
    <AppContext value={store}>
      <BenchContext value={store}>
        {store.getState().client ? (
          <Later>
            <ClientPage />
          </Later>
        ) : (
          <Window />
        )}
      </BenchContext>
    </AppContext>
  );
}

function Window() {
  const station = useApp((state) => state.station);
  const map = useApp((state) => state.view.map);
  const large = useApp((state) => state.view.mapLarge);
  const tall = useApp((state) => state.view.sheetTall);
  const clean = useApp((state) => state.station === 'show' && state.view.shown.clean);
  const stage = useRef<StageHandle>(null);
  return (
    <div
      className="window"
      data-station={station}
      data-map={map ? (large ? 'large' : 'shown') : 'hidden'}
      data-sheet={tall ? 'tall' : 'half'}
      data-clean={clean}
    >
      <TopBar />
      <StationRail />
      <StationPanel stage={stage} />
      <StageArea stage={stage} />
      {station !== 'show' && <SectionCard />}
      <MapDock />
      <MomentLine />
      <KeyTable />
      <KeptDesigns />
      <ShareDesign />
      <RefusedFile />
      <UpdateNotice />
      <Said />
    </div>
  );
}
