/**
 * Edits of a design: pure functions from a document to the next. They keep what belongs together together (the
 * order of cutting names every slot exactly once; a rectangle alone has a depth) and nothing more: whether the
 * values are in range is for checkDesign to say. An edit of something that is not there gives back the same
 * document. Lengths mm, angles degrees.
 */
import { sinDeg } from '../geometry/angle.ts';
import { writtenCut } from './cuts.ts';
import { DEFAULT_HIGH_SIDE } from './defaults.ts';
import type { Blank, Design, DisplayUnit, Saw, Section, SlotId, SlotSet } from './document.ts';
import { defaultOrder, setIdOf, slotIdsOf, slotNumberOf } from './order.ts';
import { sectionGeometry } from './section.ts';
import { withProgress } from './sawEdits.ts';
import { colourDifference, labOfHex } from '../timber/colour.ts';
import { timberColour } from './colors.ts';

export function setName(design: Design, name: string): Design {
  return { ...design, name };
}

export function setUnit(design: Design, unit: DisplayUnit): Design {
  return { ...design, unit };
}

/** Notes on the whole design; an empty text takes them away. */
export function setNotes(design: Design, notes: string): Design {
  const { notes: _, ...rest } = design;
  return notes === '' ? rest : { ...rest, notes };
}

/** Changes what is known of the saw; `undefined` takes away what need not be known (throat_mm, blade_kerf_mm). */
export function setSaw(design: Design, change: Partial<Saw>): Design {
  const { throat_mm, blade_kerf_mm, ...saw } = { ...design.saw, ...change };
  return {
    ...design,
    saw: {
      ...saw,
      ...(blade_kerf_mm === undefined ? {} : { blade_kerf_mm }),
      ...(throat_mm === undefined ? {} : { throat_mm }),
    },
  };
}

export type BlankChange = Partial<Section> & Partial<Omit<Blank, 'section' | 'grain'>>;

/** Changes the blank. A new rectangle is as deep as it is wide until a depth is given. */
export function setBlank(design: Design, change: BlankChange): Design {
  const { shape, width_mm, depth_mm, ...rest } = change;
  const before = design.blank.section;
  const section: Section = { shape: shape ?? before.shape, width_mm: width_mm ?? before.width_mm };
  const depth = section.shape === 'rectangle' ? (depth_mm ?? before.depth_mm ?? section.width_mm) : undefined;
  return {
    ...design,
    blank: {
      ...design.blank,
      ...rest,
      section: depth === undefined ? section : { ...section, depth_mm: depth },
    },
  };
}

/** First of S1, S2, S3 … that no set has. */
export function nextSetId(design: Pick<Design, 'sets'>): string {
  const taken = new Set(design.sets.map((set) => set.id));
  for (let n = 1; ; n++) if (!taken.has(`S${n}`)) return `S${n}`;
}

export type SetChange = Partial<Omit<SlotSet, 'id'>>;

/** Adds a set at the end, cut last: like the set before it where nothing is said, in the middle of the blank. */
export function addSet(design: Design, fields: SetChange = {}): Design {
  const id = nextSetId(design);
  const like: Omit<SlotSet, 'id'> = design.sets.at(-1) ?? firstSet(design);
  const { notes: _, locked: __, ...values } = like;
  const set = canonicalSet({ ...values, center_mm: design.blank.length_mm / 2, ...fields, id });
  return withSets(design, [...design.sets, set]);
}

/** Strips of a first set: the one of them that shows better against the body. */
const FIRST_STRIPS = ['sugar-maple', 'black-walnut'] as const;

/**
 * A plain set from every face (four for a round blank): kerf, strip and web of 0.040 and 0.100 in are common practice, for
 * one who works in millimetres 1 and 2.5.
 */
function firstSet(design: Design): Omit<SlotSet, 'id'> {
  const { blank, unit } = design;
  const kerf_mm = unit === 'in' ? 1.016 : 1;
  const { round, faceAzimuths_deg } = sectionGeometry(blank.section);
  return {
    angle_deg: 45,
    center_mm: blank.length_mm / 2,
    fence_azimuths_deg: round ? [0, 90, 180, 270] : faceAzimuths_deg,
    high_side: DEFAULT_HIGH_SIDE,
    kerf_mm,
    web_mm: unit === 'in' ? 2.54 : 2.5,
    strip: { layers: [{ timber: firstStrip(design), thickness_mm: kerf_mm }] },
  };
}

/** What shows best against the body, in the colours that the design gives them. */
function firstStrip(design: Design): string {
  const body = labOfHex(timberColour(design, design.blank.timber));
  const differences = FIRST_STRIPS.map((timber) => {
    const strip = labOfHex(timberColour(design, timber));
    return body && strip ? colourDifference(body, strip) : 0;
  });
  return FIRST_STRIPS[differences.indexOf(Math.max(...differences))];
}

export function removeSet(design: Design, id: string): Design {
  return has(design, id)
    ? withSets(
        design,
        design.sets.filter((set) => set.id !== id),
      )
    : design;
}

/** A copy right after the set, five kerfs nearer the head (within the blank), cut last and not locked. */
export function duplicateSet(design: Design, id: string): Design {
  const at = design.sets.findIndex((set) => set.id === id);
  if (at < 0) return design;
  const set = design.sets[at];
  const step_mm = (5 * set.kerf_mm) / sinDeg(set.angle_deg);
  const center_mm =
    set.center_mm + step_mm <= design.blank.length_mm ? set.center_mm + step_mm : set.center_mm;
  const copy = canonicalSet({ ...set, id: nextSetId(design), center_mm, locked: false });
  return withSets(design, design.sets.toSpliced(at + 1, 0, copy));
}

/**
 * Changes fields of a set. Azimuths added at the end of its list are cut last; to take one out of the middle
 * use removeSlot, which keeps the others in their places in the order.
 */
export function updateSet(design: Design, id: string, change: SetChange): Design {
  if (!has(design, id)) return design;
  return withSets(
    design,
    design.sets.map((set) => (set.id === id ? canonicalSet({ ...set, ...change, id }) : set)),
  );
}

/** A set that is not locked, one without notes and one cut against the fence do not say so; nor does a web ahead. */
function canonicalSet({ cut, web_side, locked, notes, ...rest }: SlotSet): SlotSet {
  return {
    ...rest,
    ...writtenCut({ cut, web_side }),
    ...(locked ? { locked } : {}),
    ...(notes ? { notes } : {}),
  };
}

/** Locks a set against changes by hand, or unlocks it. Who changes sets by hand asks `locked` first. */
export function setLocked(design: Design, id: string, locked: boolean): Design {
  return updateSet(design, id, { locked });
}

/** Gives a set another id; its slots keep their places in the order. */
export function renameSet(design: Design, id: string, newId: string): Design {
  if (!has(design, id) || id === newId) return design;
  return withSets(
    design,
    design.sets.map((set) => (set.id === id ? { ...set, id: newId } : set)),
    (slot) => (setIdOf(slot) === id ? `${newId}.${slotNumberOf(slot)}` : slot),
  );
}

/** Adds a slot to a set, cut last. */
export function addSlot(design: Design, id: string, azimuth_deg: number): Design {
  const set = design.sets.find((candidate) => candidate.id === id);
  if (!set) return design;
  return updateSet(design, id, { fence_azimuths_deg: [...set.fence_azimuths_deg, azimuth_deg] });
}

/** Takes one slot out; the slots after it in its set move down a number and keep their places in the order. */
export function removeSlot(design: Design, slot: SlotId): Design {
  const id = setIdOf(slot);
  const removed = slotNumberOf(slot);
  const set = design.sets.find((candidate) => candidate.id === id);
  if (!set || !slotIdsOf(set).includes(slot)) return design;
  if (set.fence_azimuths_deg.length === 1) return removeSet(design, id);
  const fence_azimuths_deg = set.fence_azimuths_deg.toSpliced(removed - 1, 1);
  return withSets(
    design,
    design.sets.map((candidate) => (candidate === set ? { ...set, fence_azimuths_deg } : candidate)),
    (other) => {
      if (setIdOf(other) !== id || slotNumberOf(other) < removed) return other;
      return slotNumberOf(other) === removed ? null : `${id}.${slotNumberOf(other) - 1}`;
    },
  );
}

/** The set's mirror image about the middle of the blank: its place, its slope and the order of its layers. */
export function mirrorSet(design: Design, id: string): Design {
  return {
    ...design,
    sets: design.sets.map((set) =>
      set.id === id
        ? {
            ...set,
            center_mm: design.blank.length_mm - set.center_mm,
            high_side: set.high_side === 'fence' ? 'entry' : 'fence',
            strip: { layers: set.strip.layers.toReversed() },
          }
        : set,
    ),
  };
}

/** Spaces the centres of the sets evenly between the first and the last of them. */
export function spaceEvenly(design: Design, ids: readonly string[]): Design {
  const chosen = design.sets
    .filter((set) => ids.includes(set.id))
    .toSorted((a, b) => a.center_mm - b.center_mm);
  const first = chosen.at(0);
  const last = chosen.at(-1);
  if (!first || !last || chosen.length < 3) return design;
  const step_mm = (last.center_mm - first.center_mm) / (chosen.length - 1);
  const places = new Map(chosen.map((set, n) => [set.id, first.center_mm + n * step_mm]));
  places.set(last.id, last.center_mm);
  return {
    ...design,
    sets: design.sets.map((set) => ({ ...set, center_mm: places.get(set.id) ?? set.center_mm })),
  };
}

/** Moves a slot to a place in the order of cutting, counted from 0 in the order that results. */
export function moveInOrder(design: Design, slot: SlotId, index: number): Design {
  const from = design.order.indexOf(slot);
  const to = Math.min(Math.max(index, 0), design.order.length - 1);
  if (from < 0 || from === to) return design;
  return { ...design, order: design.order.toSpliced(from, 1).toSpliced(to, 0, slot) };
}

/** The default order: set after set, azimuths as listed. */
export function resetOrder(design: Design): Design {
  return { ...design, order: defaultOrder(design.sets) };
}

function has(design: Design, id: string): boolean {
  return design.sets.some((set) => set.id === id);
}

/**
 * The design with other sets: slots that are gone leave the order, the measures and the steps done; new ones are
 * cut last.
 */
function withSets(
  design: Design,
  sets: readonly SlotSet[],
  renamed: (slot: SlotId) => SlotId | null = (slot) => slot,
): Design {
  const all = defaultOrder(sets);
  const present = new Set(all);
  const kept = design.order.map(renamed).filter((slot) => slot !== null && present.has(slot)) as SlotId[];
  const placed = new Set(kept);
  const order = [...kept, ...all.filter((slot) => !placed.has(slot))];
  return withProgress({ ...design, sets, order }, (slot) => {
    const now = renamed(slot);
    return now !== null && present.has(now) ? now : null;
  });
}
