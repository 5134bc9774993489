/**
 * Starter forms: outlines that fit themselves to a blank. Frame:
 * (z, r) with z along the lathe axis from the foot, mm; an outline runs from the axis at the foot around the
 * outside, over the rim, along the inside if hollow, to the axis again (docs/geometry.md, "Form").
 *
 * The largest radius leaves the web outside the form: a ring of a slot whose web is at most the one given is
 * whole on every starter form. Proportions are our own choice.
 */
import { DEG } from '../geometry/angle.ts';
import type { Blank, Form, OutlinePoint } from './document.ts';
import { corner, hollowed, smooth } from './hollowing.ts';
import { sectionGeometry } from './section.ts';

export const FORM_KINDS = [
  'pen-barrel',
  'bottle-stopper',
  'handle',
  'candle-stick',
  'vase',
  'goblet',
  'box',
  'bowl',
  'platter',
  'sphere',
  'bangle',
  'ornament',
] as const;
export type FormKind = (typeof FORM_KINDS)[number];

export const FORM_NAMES: Readonly<Record<FormKind, string>> = {
  'pen-barrel': 'Pen barrel',
  'bottle-stopper': 'Bottle stopper',
  handle: 'Handle',
  'candle-stick': 'Candle stick',
  vase: 'Vase',
  goblet: 'Goblet',
  box: 'Box',
  bowl: 'Bowl',
  platter: 'Platter',
  sphere: 'Sphere',
  bangle: 'Bangle',
  ornament: 'Ornament',
};

/** Wood left between the largest radius and the web, mm. */
const CLEARANCE_MM = 0.4;

/** A starter form that fits the blank and stays clear of webs of web_mm. */
export function formFor(kind: FormKind, blank: Blank, web_mm: number): Form {
  const inscribed = sectionGeometry(blank.section).inscribedRadius_mm;
  const room = inscribed - web_mm - CLEARANCE_MM;
  const radius = room > inscribed / 4 ? room : inscribed * 0.9;
  const outline = OUTLINES[kind](blank.length_mm, radius).map(rounded);
  return kind === 'bangle' ? { outline, loop: true } : { outline };
}

type Outline = readonly OutlinePoint[];

/** Outlines for a length and a largest radius. Thin walls and stems scale with the radius. */
const OUTLINES: Readonly<Record<FormKind, (length: number, radius: number) => Outline>> = {
  'pen-barrel': (l, r) => [
    corner(0, 0),
    corner(0, 0.72 * r),
    smooth(0.1 * l, 0.82 * r),
    smooth(0.55 * l, r),
    smooth(0.92 * l, 0.84 * r),
    corner(l, 0.72 * r),
    corner(l, 0),
  ],
  'bottle-stopper': (l, r) => [
    corner(0, 0),
    corner(0, 0.44 * r),
    corner(0.1 * l, 0.5 * r),
    smooth(0.26 * l, 0.4 * r),
    smooth(0.44 * l, 0.66 * r),
    smooth(0.68 * l, r),
    smooth(0.88 * l, 0.78 * r),
    smooth(0.98 * l, 0.32 * r),
    corner(l, 0),
  ],
  handle: (l, r) => [
    corner(0, 0),
    corner(0, 0.6 * r),
    corner(0.05 * l, 0.66 * r),
    smooth(0.14 * l, 0.62 * r),
    smooth(0.3 * l, 0.82 * r),
    smooth(0.55 * l, 0.74 * r),
    smooth(0.82 * l, r),
    smooth(0.95 * l, 0.72 * r),
    smooth(0.995 * l, 0.2 * r),
    corner(l, 0),
  ],
  'candle-stick': (l, r) => [
    corner(0, 0),
    corner(0, r),
    corner(0.04 * l, r),
    smooth(0.12 * l, 0.66 * r),
    smooth(0.3 * l, 0.5 * r),
    smooth(0.52 * l, 0.68 * r),
    smooth(0.76 * l, 0.44 * r),
    smooth(0.9 * l, 0.6 * r),
    corner(0.97 * l, 0.78 * r),
    corner(l, 0.78 * r),
    corner(l, 0),
  ],
  vase: (l, r) =>
    hollowed(
      [
        corner(0, 0),
        corner(0, 0.52 * r),
        corner(0.02 * l, 0.54 * r),
        smooth(0.2 * l, 0.82 * r),
        smooth(0.44 * l, r),
        smooth(0.72 * l, 0.7 * r),
        smooth(0.88 * l, 0.5 * r),
        corner(l, 0.62 * r),
        corner(l, 0),
      ],
      0.12 * r,
      0.08 * l,
    ),
  goblet: (l, r) => [
    corner(0, 0),
    corner(0, 0.86 * r),
    corner(0.015 * l, 0.86 * r),
    smooth(0.06 * l, 0.4 * r),
    smooth(0.16 * l, 0.17 * r),
    smooth(0.36 * l, 0.15 * r),
    smooth(0.46 * l, 0.32 * r),
    smooth(0.58 * l, 0.8 * r),
    smooth(0.76 * l, r),
    corner(l, 0.9 * r),
    corner(l, 0.82 * r),
    smooth(0.76 * l, 0.9 * r),
    smooth(0.62 * l, 0.72 * r),
    smooth(0.535 * l, 0.3 * r),
    corner(0.52 * l, 0),
  ],
  box: (l, r) => [
    corner(0, 0),
    corner(0, 0.94 * r),
    corner(0.06 * r, r),
    corner(l, r),
    corner(l, 0.84 * r),
    corner(0.12 * l, 0.84 * r),
    corner(0.12 * l, 0),
  ],
  bowl: (l, r) =>
    hollowed(
      [
        corner(0, 0),
        corner(0, 0.36 * r),
        corner(0.05 * l, 0.4 * r),
        smooth(0.2 * l, 0.66 * r),
        smooth(0.5 * l, 0.89 * r),
        corner(l, r),
        corner(l, 0),
      ],
      Math.min(0.1 * r, 0.2 * l),
      Math.min(0.16 * l, 0.2 * r),
    ),
  platter: (l, r) => {
    const height = Math.min(l, 0.32 * r);
    return [
      corner(0, 0),
      corner(0, 0.45 * r),
      corner(0.14 * height, 0.47 * r),
      smooth(0.42 * height, 0.72 * r),
      corner(height, r),
      corner(height, 0.95 * r),
      smooth(0.62 * height, 0.72 * r),
      smooth(0.42 * height, 0.45 * r),
      corner(0.38 * height, 0),
    ];
  },
  sphere: (l, r) => {
    const radius = Math.min(r, l / 2);
    const angles_deg = [2, 7, 15, 26, 40, 56, 73, 90, 107, 124, 140, 154, 165, 173, 178];
    const at = (angle_deg: number): readonly [number, number] => {
      const angle = angle_deg * DEG;
      return [l / 2 - radius * Math.cos(angle), radius * Math.sin(angle)];
    };
    return [
      corner(l / 2 - radius, 0),
      ...angles_deg.map((angle) => smooth(...at(angle))),
      corner(l / 2 + radius, 0),
    ];
  },
  // A ring off the axis: the outside from the foot up, then the bore down.
  bangle: (l, r) => {
    const half = Math.min(l, 0.5 * r) / 2;
    return [
      corner(l / 2 - half, 0.95 * r),
      smooth(l / 2, r),
      corner(l / 2 + half, 0.95 * r),
      corner(l / 2 + half, 0.84 * r),
      corner(l / 2 - half, 0.84 * r),
    ];
  },
  ornament: (l, r) => [
    corner(0, 0),
    corner(0.005 * l, 0.05 * r),
    smooth(0.2 * l, 0.13 * r),
    smooth(0.33 * l, 0.24 * r),
    smooth(0.38 * l, 0.14 * r),
    smooth(0.46 * l, 0.46 * r),
    smooth(0.62 * l, r),
    smooth(0.78 * l, 0.5 * r),
    smooth(0.86 * l, 0.16 * r),
    smooth(0.91 * l, 0.26 * r),
    smooth(0.97 * l, 0.1 * r),
    corner(l, 0),
  ],
};

/** Hundredths of a millimetre: what a maker can read, and what a file shows. */
function rounded(point: OutlinePoint): OutlinePoint {
  const round = (value: number) => Math.round(value * 100) / 100;
  return { ...point, z_mm: round(point.z_mm), r_mm: round(point.r_mm) };
}
