/**
 * How each timber looks beyond its colour: what the stage's wood is drawn from. Lengths in mm in the wood's own frame
 * (along the grain, across it, out from the pith); differences of colour in CIELAB from the timber's colour.
 *
 * These are choices for a picture, made from general knowledge of each wood's anatomy (ring-porous or diffuse-porous,
 * ray size, interlocked grain); none is measured. Only the direction "end grain is darker" has a published ground
 * (Journal of Wood Science 2020, 10.1186/s10086-020-01883-2, abstract).
 */
import { TEMPERATE_FIGURES } from './figuresTemperate.ts';
import { TROPICAL_FIGURES } from './figuresTropical.ts';
import { TIMBER_ALIASES, type Lab } from './timbers.ts';

/** A difference in CIELAB. */
export type LabStep = Lab;

export interface Figure {
  /** Mean width of a growth ring, mm. */
  readonly ring_mm: number;
  /** How unequal the rings are, 0…1. */
  readonly unequal: number;
  /** Share of the ring that is earlywood with its own tone and pores; 0: the ring only has a line at its end. */
  readonly early: number;
  readonly earlyStep: LabStep;
  /** The line that ends a ring. */
  readonly line: LabStep;
  /** Share of the ring over which the line builds up. */
  readonly lineShare: number;
  /** Broad bands of another tone, following the rings. */
  readonly streak: LabStep;
  /** Mean distance between streaks, mm, and how sharp they are (0 soft, 1 hard). */
  readonly streak_mm: number;
  readonly streakHard: number;
  /** Fine regular bands between the rings (banded parenchyma); 0 mm: none. */
  readonly band_mm: number;
  readonly band: LabStep;
  /** Pores: diameter, share of places taken in late- and in earlywood, length seen along the grain, tone. */
  readonly pore_mm: number;
  readonly poreLate: number;
  readonly poreEarly: number;
  readonly poreLength_mm: number;
  readonly poreTone: LabStep;
  /** Rays: height along the grain, thickness, share, tone on the radial face. */
  readonly rayHeight_mm: number;
  readonly ray_mm: number;
  readonly rayShare: number;
  readonly rayTone: LabStep;
  /** Fine variation from fibre to fibre, 0…1. */
  readonly fibre: number;
  /** Slow change of tone through the piece, 0…1. */
  readonly drift: number;
  /** How far rings wander from circles, mm. */
  readonly wander_mm: number;
  /** Interlocked grain: width of its stripes, mm, and the fibre's lean in them, degrees. */
  readonly ribbon_mm: number;
  readonly ribbon_deg: number;
  /** Ripple across the grain (curl, fiddleback): the fibre's lean, degrees. */
  readonly ripple_deg: number;
  /** Silk of the fibre in the light, 0…1. */
  readonly sheen: number;
  /** How much darker end grain is, L*. */
  readonly endDark: number;
}

const PLAIN: Figure = {
  ring_mm: 2.4,
  unequal: 0.4,
  early: 0,
  earlyStep: [0, 0, 0],
  line: [-5, 1, 1],
  lineShare: 0.3,
  streak: [-3, 0.5, 0.5],
  streak_mm: 16,
  streakHard: 0.2,
  band_mm: 0,
  band: [0, 0, 0],
  pore_mm: 0.08,
  poreLate: 0.35,
  poreEarly: 0.4,
  poreLength_mm: 5,
  poreTone: [-8, 1, 1],
  rayHeight_mm: 1.2,
  ray_mm: 0.12,
  rayShare: 0.25,
  rayTone: [2, 0, 0],
  fibre: 0.35,
  drift: 0.4,
  wander_mm: 3,
  ribbon_mm: 8,
  ribbon_deg: 1.5,
  ripple_deg: 1,
  sheen: 0.5,
  endDark: 7,
};

const FIGURES: Readonly<Record<string, Partial<Figure>>> = { ...TEMPERATE_FIGURES, ...TROPICAL_FIGURES };

/** Figure of a timber by id or alias; a timber that the table does not know gets a plain, even wood. */
export function figureOf(timber: string): Figure {
  return { ...PLAIN, ...FIGURES[TIMBER_ALIASES.get(timber) ?? timber] };
}

/** Ids with a figure of their own. */
export const FIGURED_TIMBERS: readonly string[] = Object.keys(FIGURES);
