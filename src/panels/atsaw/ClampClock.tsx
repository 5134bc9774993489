/** The clamp timer of a glue-up, as large as the window allows, with what starts, lengthens and ends it. */
import { Bell as BellIcon, Plus, Square, Timer } from 'lucide-react';
import type { BellState } from './bell.ts';
import { clockText, type ClampTimer } from './shopMemory.ts';

const MINUTE_MS = 60_000;

export interface ClampClockProps {
  readonly timer: ClampTimer | null;
  readonly minutes: number;
  readonly now_ms: number;
  readonly bell: BellState;
  /** Whether the timer outlives a reload. */
  readonly kept: boolean;
  readonly onStart: (timer: ClampTimer) => void;
  readonly onStop: () => void;
  readonly onTest: () => void;
}

const BELL_WORDS: Readonly<Record<BellState, string>> = {
  ready: 'Sound is ready.',
  'needs-touch': 'Touch the screen once to let it sound.',
  none: 'This browser has no sound: watch the screen.',
};

export function ClampClock(props: ClampClockProps) {
  const { timer, minutes, now_ms, bell, kept, onStart, onStop, onTest } = props;
  const left_ms = timer ? timer.ends_ms - now_ms : minutes * MINUTE_MS;
  const over = timer !== null && left_ms <= 0;
  const share = timer ? Math.min(1, Math.max(0, 1 - left_ms / timer.length_ms)) : 0;
  const start = () => onStart({ ends_ms: Date.now() + minutes * MINUTE_MS, length_ms: minutes * MINUTE_MS });
  const lengthen = () => {
    if (!timer) return;
    const from = Math.max(timer.ends_ms, Date.now());
    onStart({
      ends_ms: from + 5 * MINUTE_MS,
      length_ms: timer.length_ms + 5 * MINUTE_MS,
    });
  };
  return (
    <div className="saw-clock" data-state={over ? 'over' : timer ? 'running' : 'waiting'}>
      <div className="saw-clock-face" role="timer" aria-label="Clamp time left">
        {over ? 'Time is up' : clockText(left_ms)}
      </div>
      <progress max={1} value={share} aria-label="Clamp time gone by" />
      <p className="saw-clock-words">
        {over && timer ? `Over for ${clockText(now_ms - timer.ends_ms)}. “Stop timer” silences it. ` : ''}
        {timer && !over ? `Ends at ${timeOfDay(timer.ends_ms)}. ` : ''}
        {BELL_WORDS[bell]}
        {kept ? '' : ' This browser keeps nothing: a reload forgets the timer.'}
      </p>
      <div className="saw-clock-buttons">
        {timer ? (
          <>
            <button type="button" className="saw-button" onClick={lengthen}>
              <Plus /> 5 min
            </button>
            <button type="button" className="saw-button" onClick={onStop}>
              <Square /> Stop timer
            </button>
          </>
        ) : (
          <button type="button" className="saw-button strong" onClick={start} disabled={minutes <= 0}>
            <Timer /> Start {minutes} min
          </button>
        )}
        <button type="button" className="saw-button" onClick={onTest} disabled={bell === 'none'}>
          <BellIcon /> Test tone
        </button>
      </div>
    </div>
  );
}

function timeOfDay(time_ms: number): string {
  return new Date(time_ms).toLocaleTimeString([], { hour: '2-digit', minute: '2-digit' });
}
