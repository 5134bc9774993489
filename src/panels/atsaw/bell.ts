/**
 * The sound at the end of a clamp time: three rising notes, repeated. A browser lets a page sound only after
 * it was touched, so the bell is woken by the first touch or key in the mode and says whether it can sound.
 */
export type BellState = 'ready' | 'needs-touch' | 'none';

/** Notes of one ring: frequency, Hz, and when it begins, s. High enough to be heard over an extractor. */
const NOTES = [
  [880, 0],
  [1175, 0.22],
  [1568, 0.44],
] as const;
const NOTE_S = 0.2;
const LOUD = 0.6;

export class Bell {
  #context: AudioContext | null = null;
  readonly #onState: (state: BellState) => void;

  constructor(onState: (state: BellState) => void) {
    this.#onState = onState;
    onState('AudioContext' in globalThis ? 'needs-touch' : 'none');
  }

  /** Call from a touch or a key. */
  async wake(): Promise<void> {
    if (!('AudioContext' in globalThis)) return;
    this.#context ??= new AudioContext();
    if (this.#context.state !== 'running') await this.#context.resume();
    this.#onState(this.#context.state === 'running' ? 'ready' : 'needs-touch');
  }

  /** Sounds once; nothing where the bell was not woken. */
  ring(): void {
    const context = this.#context;
    if (!context || context.state !== 'running') return;
    for (const [frequency, at] of NOTES) {
      const begin = context.currentTime + at;
      const tone = context.createOscillator();
      const level = context.createGain();
      tone.type = 'triangle';
      tone.frequency.value = frequency;
      level.gain.setValueAtTime(0, begin);
      level.gain.linearRampToValueAtTime(LOUD, begin + 0.01);
      level.gain.linearRampToValueAtTime(0, begin + NOTE_S);
      tone.connect(level).connect(context.destination);
      tone.start(begin);
      tone.stop(begin + NOTE_S);
    }
  }

  close(): void {
    const context = this.#context;
    this.#context = null;
    if (context) void context.close();
  }
}
