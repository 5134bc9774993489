/**
 * The stage with its tools. The 3D part is loaded after the first paint; where it cannot run, words take its
 * place and the map, the numbers and the plan go on without it.
 */
import {
  Component,
  lazy,
  Suspense,
  useCallback,
  useMemo,
  useState,
  useSyncExternalStore,
  type ReactNode,
} from 'react';
import type { StageHandle, StageProps, StageStatus, Theme } from '../stage/props.ts';
import { useApp, useAppStore } from './AppContext.ts';
import { ShowBar } from './ShowBar.tsx';
import { lastPosition } from './position.ts';
import { shownVariantsOf, shownViewOf, stageVariantsOf, stageViewOf } from './stageView.ts';
import { StageTools } from './StageTools.tsx';

const LazyStage = lazy(() => import('../stage/Stage.tsx'));

/** Width of the tools with their margin; on a narrow screen they stand below (screens.css). */
const TOOLS_PX = 84;
const TOOLS_BESIDE = '(min-width: 721px)';
/** On a tablet the map stands between the picture and the tools. */
const MAP_BETWEEN = '(max-width: 1180px)';

const QUIET: StageStatus = { busy: false, message: null, level: 'ok' };

export function StageArea({ stage }: { readonly stage: React.RefObject<StageHandle | null> }) {
  const [webgl] = useState(hasWebGL2);
  const [status, setStatus] = useState(QUIET);
  const station = useApp((state) => state.station);
  const client = useApp((state) => state.client !== null);
  return (
    <main className="stage" aria-label={client ? 'The piece' : 'Stage'}>
      <StageBoundary>
        {webgl ? (
          <Suspense fallback={<p className="stage-word">Loading the stage …</p>}>
            <LiveStage ref={stage} onStatus={setStatus} />
          </Suspense>
        ) : (
          <NoStage reason="This browser offers no WebGL 2, which the 3D picture needs." />
        )}
      </StageBoundary>
      {station === 'show' ? <ShowBar /> : <StageTools />}
      <StageNotice status={status} />
    </main>
  );
}

interface LiveStageProps {
  readonly ref: React.Ref<StageHandle>;
  readonly onStatus: (status: StageStatus) => void;
}

function LiveStage({ ref, onStatus }: LiveStageProps) {
  const store = useAppStore();
  const work = useApp((state) => state.work);
  const design = useApp((state) => state.design);
  const view = useApp((state) => state.view);
  const showing = useApp((state) => state.station === 'show');
  const position = useApp((state) =>
    state.station === 'show' ? lastPosition(state.design) : state.position,
  );
  const pointed = useApp((state) => state.pointed);
  const theme = useDocumentTheme();
  const client = useApp((state) => state.client !== null);
  const tried = view.shown.finish;
  const mapBetween = useMedia(MAP_BETWEEN) && view.map;
  const toolsBeside = useMedia(TOOLS_BESIDE) && !mapBetween && !showing;
  const variants = useMemo(
    () =>
      showing ? shownVariantsOf(work, view.compare, tried, client) : stageVariantsOf(work, view.compare),
    [showing, work, view.compare, tried, client],
  );
  const stageView = useMemo(
    () => (showing ? shownViewOf(view) : stageViewOf(view, design)),
    [showing, view, design],
  );
  // Show and its saved picture are the piece itself: nothing in it is marked.
  const highlight =
    showing || pointed === null ? null : pointed.kind === 'ring' ? pointed.slot : pointed.over;
  const onHover = useCallback<NonNullable<StageProps['onHover']>>(
    (hover) =>
      store
        .getState()
        .point(hover === null || hover.slot === null ? null : { kind: 'ring', slot: hover.slot }),
    [store],
  );
  const onDragRing = useCallback<NonNullable<StageProps['onDragRing']>>(
    (drag) => store.getState().dragRing(drag),
    [store],
  );
  const onChoose = useCallback<NonNullable<StageProps['onChoose']>>(
    (key) => {
      const { work: now, chooseVariant } = store.getState();
      chooseVariant(now.variants.findIndex(({ id }) => id === key));
    },
    [store],
  );
  return (
    <div className="stage-canvas">
      <LazyStage
        ref={ref}
        variants={variants}
        position={position}
        view={stageView}
        theme={theme}
        finish={view.finish}
        highlight={highlight}
        inset_px={toolsBeside ? TOOLS_PX : 0}
        chosen={work.variants[work.active].id}
        onChoose={client ? undefined : onChoose}
        onHover={onHover}
        onDragRing={onDragRing}
        onStatus={onStatus}
      />
    </div>
  );
}

function StageNotice({ status }: { status: StageStatus }) {
  return (
    <output className="stage-notice">
      {status.busy && <span className="computing">Computing solids</span>}
      {status.message !== null && <span className={`stage-message ${status.level}`}>{status.message}</span>}
    </output>
  );
}

function NoStage({ reason }: { reason: string }) {
  const client = useApp((state) => state.client !== null);
  return (
    <div className="stage-word" role="note">
      <p>
        <strong>No 3D picture here.</strong> {reason}
      </p>
      <p>
        {client
          ? 'The drawings show the pieces as they are; the choice can be made without it.'
          : 'The map, the numbers and the saw plan come from the same engine and work without it.'}
      </p>
    </div>
  );
}

/** Keeps the rest of the window alive when the 3D part fails, and says why it did. */
class StageBoundary extends Component<{ children: ReactNode }, { fault: string | null }> {
  override state = { fault: null };

  static getDerivedStateFromError(error: unknown): { fault: string } {
    return { fault: error instanceof Error ? error.message : String(error) };
  }

  override render() {
    if (this.state.fault === null) return this.props.children;
    return <NoStage reason={`The 3D picture stopped: ${String(this.state.fault)}.`} />;
  }
}

function hasWebGL2(): boolean {
  const context = document.createElement('canvas').getContext('webgl2');
  context?.getExtension('WEBGL_lose_context')?.loseContext();
  return context !== null;
}

function useMedia(query: string): boolean {
  const subscribe = useCallback(
    (notify: () => void) => {
      const list = window.matchMedia(query);
      list.addEventListener('change', notify);
      return () => list.removeEventListener('change', notify);
    },
    [query],
  );
  return useSyncExternalStore(subscribe, () => window.matchMedia(query).matches);
}

/** The theme that the root element carries (start.ts sets it). */
function useDocumentTheme(): Theme {
  const subscribe = useCallback((notify: () => void) => {
    const observer = new MutationObserver(notify);
    observer.observe(document.documentElement, { attributes: true, attributeFilter: ['data-theme'] });
    return () => observer.disconnect();
  }, []);
  return useSyncExternalStore(subscribe, () =>
    document.documentElement.dataset.theme === 'dark' ? 'dark' : 'light',
  );
}
