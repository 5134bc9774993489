/**
 * Keeps one open design in the library. It remembers what the records hold and writes only what is different,
 * by identity of the states: one edit is one small record, whatever the length of the history. What is on its way may
 * or may not arrive; a state counts as held only where it is held in either case.
 */
import { type KeptHeader, type KeptState, type Origin, sealOf, type Timeline } from './kept.ts';
import type { Outcome, Spoilt, StateRecord } from './keptDatabase.ts';
import { type KeptChange, type Library, newHeader } from './library.ts';
import type { ReadBack } from './readBack.ts';

/** States in the records, from record number `first` on. */
interface Holding {
  readonly first: number;
  readonly states: readonly KeptState[];
}

export class Keeper {
  readonly #library: Library;
  #header: KeptHeader;
  /** What the records hold, from record number #header.first on. */
  #states: readonly KeptState[];
  /** What they will hold when a writing that is on its way arrives. */
  readonly #onTheWay = new Set<Holding>();
  /** What could not be read of the records, until it is set aside with the writing that replaces it. */
  #lost: Spoilt | null;
  #underWay = 0;
  #newest: Promise<Outcome<null>> = Promise.resolve({ ok: true, value: null });

  /** Of a design that is not in the library yet. */
  static forNew(
    library: Library,
    design: { readonly id: string; readonly origin: Origin; readonly link?: string },
  ): Keeper {
    return new Keeper(library, newHeader(design.id, '', design.origin, design.link ?? null), []);
  }

  /** Of a design as it was read from the library. */
  static forRead(library: Library, read: Extract<ReadBack, { state: 'good' }>): Keeper {
    return new Keeper(library, { ...read.header, first: read.seqs[0] }, read.timeline.states, read.lost);
  }

  /** Of a design that is in the library and is only looked at. */
  static forWritten(library: Library, header: KeptHeader): Keeper {
    return new Keeper(library, header, []);
  }

  private constructor(
    library: Library,
    header: KeptHeader,
    states: readonly KeptState[],
    lost: Spoilt | null = null,
  ) {
    this.#library = library;
    this.#header = header;
    this.#states = states;
    this.#lost = lost;
  }

  get id(): string {
    return this.#header.id;
  }

  get origin(): Origin {
    return this.#header.origin;
  }

  /** Whether something of its records could not be read, and is not set aside yet. */
  get spoilt(): boolean {
    return this.#lost !== null;
  }

  /** Whether the library has a record of it. */
  get written(): boolean {
    return this.#header.revision > 0;
  }

  /**
   * Writes the timeline; resolves when the transaction has completed. `alone`: no other tab can write this design. The
   * writing is with the browser when this returns, behind those that are under way; with other writers about it waits
   * for these, to know which revision it follows.
   */
  keep(timeline: Timeline, alone: boolean): Promise<Outcome<null>> {
    const atOnce = alone || this.#underWay === 0;
    this.#underWay++;
    const write = async () => {
      const outcome = await this.#write(timeline, alone);
      this.#underWay--;
      return outcome;
    };
    this.#newest = atOnce ? write() : this.#newest.then(write);
    return this.#newest;
  }

  async #write(timeline: Timeline, alone: boolean): Promise<Outcome<null>> {
    const outcome = await this.#bring(timeline, alone);
    if (outcome.ok || outcome.fault.code !== 'gone') return outcome;
    // Nothing is certain any more, and every state is written; by those behind this one, which find the same.
    this.#states = [];
    return this.#onTheWay.size === 0 ? this.#bring(timeline, alone) : this.#newest;
  }

  async #bring(timeline: Timeline, alone: boolean): Promise<Outcome<null>> {
    const known = alone ? null : this.#header.revision;
    const lost = this.#lost;
    const change: KeptChange = { ...changeTo(this.#header, this.#held(), timeline), aside: lost };
    const coming: Holding = { first: change.header.first, states: timeline.states };
    this.#onTheWay.add(coming);
    const outcome = await this.#library.write(change, known);
    this.#onTheWay.delete(coming);
    if (!outcome.ok) return outcome;
    this.#header = change.header;
    this.#states = timeline.states;
    if (this.#lost === lost) this.#lost = null;
    return outcome;
  }

  /** What the records hold whether or not what is on its way arrives; null where that is not the same. */
  #held(): (KeptState | null)[] {
    const { first } = this.#header;
    const coming = [...this.#onTheWay];
    return this.#states.map((state, i) =>
      coming.every((holding) => isSame(state, holding.states[first + i - holding.first])) ? state : null,
    );
  }
}

function isSame(a: KeptState, b: KeptState | null | undefined): boolean {
  return a.work === b?.work && a.label === b.label;
}

/** What is to be written so that the records hold the timeline. `held`: what they hold from the header's first on. */
export function changeTo(
  header: KeptHeader,
  held: readonly (KeptState | null)[],
  timeline: Timeline,
): KeptChange {
  const { states, at } = timeline;
  // The history may have lost its oldest states; the rest then stands where it stood.
  const dropped = held.findIndex((state) => state?.work === states[0].work);
  const first = dropped >= 0 ? header.first + dropped : header.first + held.length;
  const put: StateRecord[] = [];
  for (const [i, state] of states.entries()) {
    if (dropped >= 0 && isSame(state, held[i + dropped])) continue;
    put.push({ id: header.id, seq: first + i, ...state, seal: sealOf(state.work) });
  }
  const { variants, active } = states[at].work;
  return {
    header: {
      ...header,
      name: variants[active].design.name,
      edited_ms: put.length > 0 || at + first !== header.at ? Date.now() : header.edited_ms,
      revision: header.revision + 1,
      first,
      count: states.length,
      at: first + at,
    },
    put,
    outside: [first, first + states.length - 1],
    aside: null,
  };
}
