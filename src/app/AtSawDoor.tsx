/**
 * The way in and out of the mode at the saw: `#/saw` in the address. The rest of the window is not built before it
 * is needed: a shop tablet that opens at the saw draws no 3D.
 */
import { lazy, useState, useSyncExternalStore, type ReactNode } from 'react';
import { useStore } from 'zustand';
import { BenchContext } from '../panels/bench.ts';
import { Later } from './Later.tsx';
import type { AppStore } from './store.ts';

const AtSaw = lazy(async () => {
  const mode = await import('../panels/atsaw/AtSaw.tsx');
  return { default: mode.AtSaw };
});

const AT_SAW = '#/saw';

function follow(changed: () => void): () => void {
  window.addEventListener('hashchange', changed);
  return () => window.removeEventListener('hashchange', changed);
}

export function AtSawDoor({ store, children }: { store: AppStore; children: ReactNode }) {
  const atSaw = useSyncExternalStore(follow, () => window.location.hash === AT_SAW);
  const [windowBuilt, setWindowBuilt] = useState(!atSaw);
  if (!atSaw && !windowBuilt) setWindowBuilt(true);
  return (
    <>
      {windowBuilt && children}
      {atSaw &&
        (windowBuilt ? (
          <Mode store={store} />
        ) : (
          <main>
            <Mode store={store} />
          </main>
        ))}
    </>
  );
}

function Mode({ store }: { store: AppStore }) {
  const document = useStore(store, (state) => state.document);
  const variant = useStore(store, ({ work }) => work.variants[work.active].id);
  const kept = useStore(store, (state) => state.kept);
  const switchTheme = useStore(store, (state) => state.switchTheme);
  const notKept = document.newer
    ? 'this design was made with a newer Kerfweave and is open for reading only'
    : kept.state === 'failed'
      ? kept.reason
      : null;
  return (
    <BenchContext value={store}>
      <Later>
        <AtSaw
          workId={`${document.id}-${variant}`}
          notKept={notKept}
          onTheme={switchTheme}
          onLeave={() => {
            store.getState().setStation('plan');
            window.location.hash = '#/plan';
          }}
        />
      </Later>
    </BenchContext>
  );
}
