/**
 * What the workpiece is at a place of the line of moments: everything that is drawn follows from this. Pure; lathe frame, mm.
 */
import { holeCylinder, holeRegion } from '../blank/holes.ts';
import { momentsOf, type Moment } from '../blank/moments.ts';
import { sectionGeometry, type SectionGeometry } from '../blank/section.ts';
import { slotsOf, type Slot } from '../blank/slots.ts';
import { DEG } from '../geometry/angle.ts';
import type { Drilled } from '../meshes/exact.ts';
import { turningProfile, type SweptProfile } from '../meshes/formProfile.ts';
import type { Design } from '../design/document.ts';
import { momentAt } from './props.ts';

export interface Shape {
  readonly design: Design;
  readonly slots: readonly Slot[];
  readonly section: SectionGeometry;
  readonly moment: Moment;
  readonly progress: number;
  /** Strips glued in: the first `filled` slots. */
  readonly filled: number;
  /** The slot that stands open, and how far the blade has come (0…1). */
  readonly open: { readonly slot: number; readonly depth: number } | null;
  /** The strip on its way into the open slot: 0 outside, 1 home; and how much of its overhang is left (1 all). */
  readonly incoming: { readonly slot: number; readonly slide: number; readonly overhang: number } | null;
  /** The slot that this moment is about, for the saw's side of it. */
  readonly atSaw: number | null;
  /** Turn of the blank about the axis, radians. */
  readonly spin_rad: number;
  /** null: still a block. */
  readonly profile: SweptProfile | null;
  /** Holes that are drilled by now. */
  readonly holes: readonly Drilled[];
  /** How far the surface has been finished: 0 raw from the tool, 1 done. */
  readonly finished: number;
}

/** Share of a strip's moment in which it slides home; in the rest it is trimmed flush. */
const SLIDE_SHARE = 0.75;

/** A place past the last moment: the finished piece. */
export const FINISHED = 1e6;

export function shapeAt(design: Design, position: number): Shape {
  const moments = momentsOf(design);
  const { moment, progress, index } = momentAt(moments, position);
  const slots = slotsOf(design);
  const section = sectionGeometry(design.blank.section);
  const spins = spinsOf(slots);
  const last = spins.length - 1;
  const home = last < 0 ? 0 : Math.round(spins[last] / (2 * Math.PI)) * 2 * Math.PI;
  let spin_rad = moment.slot === null ? (moment.kind === 'block' ? 0 : home) : spins[moment.slot];
  if (moment.kind === 'quarter-turn' && moment.slot !== null && moment.slot > 0)
    spin_rad = between(spins[moment.slot - 1], spins[moment.slot], eased(progress));
  if (moment.kind === 'glued' && last >= 0) spin_rad = between(spins[last], home, eased(progress));
  const cutting = moment.kind === 'cut' && moment.slot !== null && progress > 0;
  const filling = moment.kind === 'strip' && moment.slot !== null;
  const done = filling && progress >= 1;
  return {
    design,
    slots,
    section,
    moment,
    progress,
    filled: done ? moment.filled + 1 : moment.filled,
    open:
      moment.slot !== null && (cutting || (filling && !done))
        ? { slot: moment.slot, depth: cutting ? progress : 1 }
        : null,
    incoming:
      moment.slot !== null && filling && !done && progress > 0
        ? {
            slot: moment.slot,
            slide: Math.min(1, progress / SLIDE_SHARE),
            overhang: 1 - Math.max(0, (progress - SLIDE_SHARE) / (1 - SLIDE_SHARE)),
          }
        : null,
    atSaw: moment.slot,
    spin_rad,
    profile: profileAt(design, section, moment, progress, index),
    holes: isHollowed(moment, progress) ? drilledHoles(design) : [],
    finished: moment.kind === 'finished' ? progress : 0,
  };
}

function profileAt(
  design: Design,
  section: SectionGeometry,
  moment: Moment,
  progress: number,
  index: number,
): SweptProfile | null {
  if (!design.form || moment.turned === 'none' || index === 0) return null;
  return turningProfile({
    outline: design.form.outline,
    loop: design.form.loop,
    blankLength_mm: design.blank.length_mm,
    blankRadius_mm: section.circumscribedRadius_mm,
    roundRadius_mm: section.round ? section.inscribedRadius_mm : undefined,
    outside: moment.kind === 'turned' ? progress : 1,
    inside: moment.kind === 'turned' ? 0 : moment.kind === 'hollowed' ? progress : 1,
  });
}

/** Holes are drilled when the form is hollowed. */
function isHollowed(moment: Moment, progress: number): boolean {
  return moment.kind === 'finished' || (moment.kind === 'hollowed' && progress >= 1);
}

function drilledHoles({ form }: Design): Drilled[] {
  if (!form?.holes) return [];
  return form.holes.map((hole) => ({ region: holeRegion(hole, form), cylinder: holeCylinder(hole, form) }));
}

/** Turn of the blank at each slot, unwound: each step goes the short way round. */
function spinsOf(slots: readonly Slot[]): number[] {
  const spins: number[] = [];
  slots.forEach((slot, i) => {
    if (i === 0) return spins.push(0);
    const step = slot.fenceAzimuth_deg - slots[i - 1].fenceAzimuth_deg;
    const short = ((((step + 180) % 360) + 360) % 360) - 180;
    return spins.push(spins[i - 1] - short * DEG);
  });
  return spins;
}

function between(a: number, b: number, t: number): number {
  return a + (b - a) * t;
}

function eased(t: number): number {
  return t * t * (3 - 2 * t);
}
