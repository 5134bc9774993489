/**
 * What the mode at the saw remembers on this device for a piece of work, beside the design: the step in view and
 * the clamp timers, as the time at which they end. It is not part of the design: a timer in a file would be
 * wrong wherever the file goes.
 */
import { isJsonObject } from '../../design/places.ts';

export interface ClampTimer {
  /** Milliseconds since 1970 (Date.now). */
  readonly ends_ms: number;
  readonly length_ms: number;
}

export interface ShopMemory {
  /** Id of the step in view; null: the first that is not done. */
  readonly step: string | null;
  /** By the id of the clamp step. */
  readonly timers: Readonly<Record<string, ClampTimer>>;
}

export const EMPTY_MEMORY: ShopMemory = { step: null, timers: {} };

/** As much of a stored text as makes sense; what does not is left out. */
export function readMemory(text: string | null): ShopMemory {
  if (text === null) return EMPTY_MEMORY;
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch {
    // Not ours, or cut short: the ticks are in the design, so only the place and the timers are lost.
    return EMPTY_MEMORY;
  }
  if (!isJsonObject(value)) return EMPTY_MEMORY;
  const timers = isJsonObject(value.timers) ? Object.entries(value.timers) : [];
  return {
    step: typeof value.step === 'string' ? value.step : null,
    timers: Object.fromEntries(
      timers.flatMap(([id, timer]): [string, ClampTimer][] =>
        isJsonObject(timer) && isTime(timer.ends_ms) && isTime(timer.length_ms)
          ? [[id, { ends_ms: timer.ends_ms, length_ms: timer.length_ms }]]
          : [],
      ),
    ),
  };
}

function isTime(value: unknown): value is number {
  return typeof value === 'number' && Number.isFinite(value) && value > 0;
}

export function withTimer(memory: ShopMemory, id: string, timer: ClampTimer | null): ShopMemory {
  const { [id]: _, ...others } = memory.timers;
  return { ...memory, timers: timer === null ? others : { ...others, [id]: timer } };
}

/** `19:07`, `1:02:00`; whole seconds, rounded up, so that 0:00 is the end. */
export function clockText(remaining_ms: number): string {
  const seconds = Math.max(0, Math.ceil(remaining_ms / 1000));
  const hours = Math.floor(seconds / 3600);
  const minutes = Math.floor((seconds % 3600) / 60);
  const two = (value: number) => String(value).padStart(2, '0');
  return hours > 0 ? `${hours}:${two(minutes)}:${two(seconds % 60)}` : `${minutes}:${two(seconds % 60)}`;
}
