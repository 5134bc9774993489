/** Over the stage of the Show station: what the piece is, and the way to see it alone and back. */
import { Maximize2, Minimize2, Share2 } from 'lucide-react';
import { useEffect, useRef, useState } from 'react';
import { madeOf } from '../plan/offerText.ts';
import { useApp } from './AppContext.ts';

export function ShowBar() {
  const design = useApp((state) => state.design);
  const client = useApp((state) => state.client !== null);
  const sideBySide = useApp((state) => state.view.compare && state.work.variants.length > 1);
  const shown = useApp((state) => state.view.shown);
  const setView = useApp((state) => state.setView);
  const showDialog = useApp((state) => state.showDialog);
  const { clean } = shown;
  useEffect(() => {
    if (!clean) return undefined;
    const leave = (event: KeyboardEvent) => {
      if (event.key === 'Escape') setView({ shown: { ...shown, clean: false } });
    };
    window.addEventListener('keydown', leave);
    return () => window.removeEventListener('keydown', leave);
  }, [clean, shown, setView]);
  const put = (away: boolean) => setView({ shown: { ...shown, clean: away } });
  if (clean)
    return (
      <div className="show-bar" data-clean="true">
        <button type="button" className="button" onClick={() => put(false)}>
          <Minimize2 /> Controls
        </button>
      </div>
    );
  return (
    <div className="show-bar">
      {/* Side by side each piece stands under its own name. */}
      {!client && !sideBySide && (
        <div className="show-words">
          <p className="show-title">{design.name}</p>
          <p>{madeOf(design)}</p>
        </div>
      )}
      {client && <TurnHint />}
      <div className="show-tools">
        {!client && (
          <button type="button" className="button" onClick={() => showDialog('offer')}>
            <Share2 /> <span>Share</span>
          </button>
        )}
        <button type="button" className="button" onClick={() => put(true)}>
          <Maximize2 /> <span>The piece alone</span>
        </button>
      </div>
    </div>
  );
}

/** For who has never turned a piece on a screen; gone with the first touch of the stage. */
function TurnHint() {
  const hint = useRef<HTMLParagraphElement>(null);
  const [turned, setTurned] = useState(false);
  useEffect(() => {
    const stage = hint.current?.closest('.stage');
    const touched = () => setTurned(true);
    stage?.addEventListener('pointerdown', touched);
    stage?.addEventListener('wheel', touched, { passive: true });
    return () => {
      stage?.removeEventListener('pointerdown', touched);
      stage?.removeEventListener('wheel', touched);
    };
  }, []);
  if (turned) return null;
  return (
    <p ref={hint} className="show-hint">
      Drag to turn it
    </p>
  );
}
