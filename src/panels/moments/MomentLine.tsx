/**
 * The line of moments: a rule under the stage that walks the workpiece from the sawn block to the finished
 * piece. Marks stand at the whole moments; between them the work is under way. Keys: arrows one moment, page
 * keys one cut, home and end the ends.
 */
import { ChevronLeft, ChevronRight, Pause, Play } from 'lucide-react';
import { memo, useEffect, useMemo, type CSSProperties, type KeyboardEvent } from 'react';
import type { Moment } from '../../blank/moments.ts';
import type { Design } from '../../design/document.ts';
import { useBench, useBenchStore } from '../bench.ts';
import { momentsFor } from '../derived.ts';
import { timberColour } from '../timberColour.ts';
import { useElementWidth } from '../useElementWidth.ts';
import { markLabels } from './markLabels.ts';
import { momentWords } from './momentText.ts';
import './moments.css';

export function MomentLine() {
  const design = useBench((bench) => bench.design);
  const variants = useBench((bench) => bench.work.variants);
  const position = useBench((bench) => bench.position);
  const setPosition = useBench((bench) => bench.setPosition);
  const stepMoment = useBench((bench) => bench.stepMoment);
  const playing = useBench((bench) => bench.playing);
  const setPlaying = useBench((bench) => bench.setPlaying);
  const moments = momentsFor(design);
  const last = moments.length - 1;
  const words = momentWords(
    design,
    moments[Math.ceil(position - 1e-9)] ?? moments[last],
    variants.map((variant) => variant.design),
  );

  usePlay();

  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    const to = keyTarget(event.key, moments, position);
    if (to === null) return;
    event.preventDefault();
    setPlaying(false);
    setPosition(to);
  };
  const settle = () => {
    const near = Math.round(position);
    if (Math.abs(position - near) < 0.2) setPosition(near);
  };

  return (
    <section className="moments" aria-label="Moments">
      <div className="moment-now">
        <p className="moment-title">{words.title}</p>
        <p className="moment-detail">{words.detail}</p>
      </div>
      <div className="moment-steps">
        <button
          type="button"
          className="icon"
          aria-label="Moment before"
          title="Moment before (,)"
          disabled={position <= 0}
          onClick={() => stepMoment(-1)}
        >
          <ChevronLeft />
        </button>
        <button
          type="button"
          className="icon"
          aria-label={playing ? 'Pause' : 'Play the work'}
          title={playing ? 'Pause (P)' : 'Play the work (P)'}
          onClick={() => {
            if (!playing && position >= last) setPosition(0);
            setPlaying(!playing);
          }}
        >
          {playing ? <Pause /> : <Play />}
        </button>
        <button
          type="button"
          className="icon"
          aria-label="Next moment"
          title="Next moment (.)"
          disabled={position >= last}
          onClick={() => stepMoment(1)}
        >
          <ChevronRight />
        </button>
      </div>
      <div className="moment-rule" style={{ '--done': position / last } as CSSProperties}>
        <Marks design={design} moments={moments} />
        <input
          type="range"
          aria-label="Moment of the work"
          aria-valuetext={`${words.title}: ${words.detail}`}
          min={0}
          max={last}
          step="any"
          value={position}
          onKeyDown={onKeyDown}
          onPointerUp={settle}
          onChange={(event) => {
            setPlaying(false);
            setPosition(event.target.valueAsNumber);
          }}
        />
      </div>
    </section>
  );
}

/** Place that a key of the rule goes to; null for other keys. */
export function keyTarget(key: string, moments: readonly Moment[], position: number): number | null {
  const last = moments.length - 1;
  const cuts = moments.flatMap((moment, i) => (moment.kind === 'cut' ? [i] : []));
  switch (key) {
    case 'ArrowRight':
    case 'ArrowUp':
      return Math.min(last, Math.floor(position + 1e-6) + 1);
    case 'ArrowLeft':
    case 'ArrowDown':
      return Math.max(0, Math.ceil(position - 1e-6) - 1);
    case 'PageUp':
      return cuts.find((i) => i > position + 1e-6) ?? last;
    case 'PageDown':
      return cuts.findLast((i) => i < position - 1e-6) ?? 0;
    case 'Home':
      return 0;
    case 'End':
      return last;
    default:
      return null;
  }
}

const SECONDS_PER_MOMENT = 1.1;

/** Moves the place on while the work plays; a step per moment where the reader asked for less motion. */
function usePlay(): void {
  const playing = useBench((bench) => bench.playing);
  const setPosition = useBench((bench) => bench.setPosition);
  const setPlaying = useBench((bench) => bench.setPlaying);
  const design = useBench((bench) => bench.design);
  const store = useBenchStore();
  const last = momentsFor(design).length - 1;
  useEffect(() => {
    if (!playing) return undefined;
    const calm = window.matchMedia('(prefers-reduced-motion: reduce)').matches;
    const from = store.getState().position;
    let begin: number | null = null;
    let frame = requestAnimationFrame(function advance(now) {
      begin ??= now;
      const moved = from + (now - begin) / 1000 / SECONDS_PER_MOMENT;
      setPosition(calm ? Math.floor(moved) : moved);
      if (moved >= last) setPlaying(false);
      else frame = requestAnimationFrame(advance);
    });
    return () => cancelAnimationFrame(frame);
  }, [playing, last, setPosition, setPlaying, store]);
}

/** Marks of the rule: a long one where a cut is complete, its number below, the strip's colour once it is in. */
const Marks = memo(function Marks({ design, moments }: { design: Design; moments: readonly Moment[] }) {
  const last = moments.length - 1;
  const colours = useMemo(() => stripColours(design), [design]);
  const [ref, width_px] = useElementWidth();
  const labels = useMemo(() => markLabels(moments, width_px), [moments, width_px]);
  return (
    <div ref={ref} className="marks" aria-hidden="true">
      {moments.map((moment, i) => (
        <span key={i} className={`mark ${moment.kind}`} style={{ left: `${(i / last) * 100}%` }}>
          {moment.kind === 'strip' && (
            <i style={{ background: colours.get(design.order[moment.slot ?? 0]) }} />
          )}
          {labels.has(i) && <b>{labels.get(i)}</b>}
        </span>
      ))}
    </div>
  );
});

function stripColours(design: Design): Map<string, string> {
  const colours = new Map<string, string>();
  for (const set of design.sets) {
    const thickest = set.strip.layers.reduce((a, b) => (b.thickness_mm > a.thickness_mm ? b : a));
    set.fence_azimuths_deg.forEach((_, n) =>
      colours.set(`${set.id}.${n + 1}`, timberColour(design, thickest.timber)),
    );
  }
  return colours;
}
