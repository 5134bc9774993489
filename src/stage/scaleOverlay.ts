/**
 * Something of true size beside the piece: an open hand, a pencil or a coin, drawn in lines, so that it hides nothing. It
 * stands on the level of the foot, in the plane through the axis that is square to the view, always to the right. Sizes
 * from memory: hand 190 mm from the wrist to the tip of the middle finger and 83 mm across the palm, a common figure for
 * adults; pencil 175 mm by 7.5 mm; coin 24 mm. Millimetres; here x to the right, y up.
 */
import type { ScaleReference } from './props.ts';
import type { Overlay } from './overlay.ts';
import type { OverlayLook } from './overlayLook.ts';
import type { Shape } from './shape.ts';

type Place = readonly [x_mm: number, y_mm: number];

/** Between the widest of the piece and the reference. */
const GAP_MM = 14;

/** A right hand from the back, fingers up: corners of a line that is drawn smooth. */
const HAND: readonly Place[] = [
  [-28, 0],
  [-30, 18],
  [-40, 38],
  [-56, 62],
  [-70, 86],
  [-76, 104],
  [-73, 114],
  [-65, 115],
  [-57, 104],
  [-49, 90],
  [-42, 82],
  [-41, 104],
  [-44, 130],
  [-45, 156],
  [-40, 167],
  [-32, 167],
  [-28, 156],
  [-25, 130],
  [-23, 112],
  [-21, 112],
  [-21, 140],
  [-20, 172],
  [-15, 187],
  [-9, 190],
  [-3, 187],
  [1, 172],
  [1, 140],
  [2, 112],
  [4, 112],
  [7, 138],
  [10, 162],
  [15, 174],
  [21, 176],
  [26, 171],
  [26, 156],
  [24, 132],
  [22, 109],
  [24, 108],
  [30, 124],
  [35, 140],
  [40, 146],
  [46, 144],
  [47, 135],
  [44, 118],
  [41, 98],
  [42, 78],
  [40, 50],
  [33, 22],
  [30, 0],
];

const PENCIL = { length_mm: 175, wide_mm: 7.5, cone_mm: 22, lead_mm: 5, leadWide_mm: 2 } as const;
const COIN = { radius_mm: 12, rim_mm: 1.2 } as const;

/** Lines of a reference, its left edge at x = 0, standing on y = 0. */
function linesOf(kind: ScaleReference): (readonly Place[])[] {
  if (kind === 'hand') {
    const left = Math.min(...HAND.map(([x]) => x));
    return [smooth(HAND.map(([x, y]) => [x - left, y]))];
  }
  if (kind === 'coin') {
    const { radius_mm, rim_mm } = COIN;
    return [radius_mm, radius_mm - rim_mm].map((r) => circle(r, [radius_mm, radius_mm]));
  }
  const { length_mm, wide_mm, cone_mm, lead_mm, leadWide_mm } = PENCIL;
  const top = length_mm - cone_mm;
  const middle = wide_mm / 2;
  const facet = wide_mm / 4;
  return [
    [
      [0, 0],
      [0, top],
      [middle, length_mm],
      [wide_mm, top],
      [wide_mm, 0],
      [0, 0],
    ],
    [
      [facet, 0],
      [facet, top],
    ],
    [
      [wide_mm - facet, 0],
      [wide_mm - facet, top],
    ],
    smooth([
      [0, top],
      [facet / 2, top + 3],
      [facet, top],
      [middle, top + 3.5],
      [wide_mm - facet, top],
      [wide_mm - facet / 2, top + 3],
      [wide_mm, top],
    ]),
    [
      [middle - leadWide_mm / 2, length_mm - lead_mm],
      [middle + leadWide_mm / 2, length_mm - lead_mm],
    ],
  ];
}

/** Width and height of a reference, mm. */
export function referenceSize_mm(kind: ScaleReference): {
  readonly wide_mm: number;
  readonly high_mm: number;
} {
  const places = linesOf(kind).flat();
  return { wide_mm: Math.max(...places.map(([x]) => x)), high_mm: Math.max(...places.map(([, y]) => y)) };
}

/** How far from the axis a reference reaches, and how high, beside what is `wide_mm` about the axis and stands on `foot_mm`. */
export function referenceReach_mm(
  kind: ScaleReference,
  wide_mm: number,
  foot_mm: number,
): { readonly out_mm: number; readonly top_mm: number } {
  const size = referenceSize_mm(kind);
  return { out_mm: wide_mm + GAP_MM + size.wide_mm, top_mm: foot_mm + size.high_mm };
}

export function addReference(overlay: Overlay, shape: Shape, kind: ScaleReference, look: OverlayLook): void {
  const { profile, section } = shape;
  const foot_mm = profile ? Math.min(...profile.z_mm) : 0;
  const wide_mm = profile ? Math.max(...profile.r_mm) : section.circumscribedRadius_mm;
  const pairs = linesOf(kind).flatMap((line) =>
    line
      .slice(1)
      .flatMap((to, i) =>
        [line[i], to].map(([x, y]): [number, number, number] => [wide_mm + GAP_MM + x, foot_mm + y, 0]),
      ),
  );
  overlay.facing(pairs, look.ink);
}

const STEPS = 5;

/** A Catmull–Rom curve through the places (its usual form, from memory). */
function smooth(places: readonly Place[]): Place[] {
  const at = (i: number) => places[Math.min(Math.max(i, 0), places.length - 1)];
  const points = places.slice(1).flatMap((_, i) =>
    Array.from({ length: STEPS }, (__, n): Place => {
      const t = n / STEPS;
      const between = (axis: 0 | 1) => {
        const [a, b, c, d] = [at(i - 1)[axis], at(i)[axis], at(i + 1)[axis], at(i + 2)[axis]];
        return b + (t / 2) * (c - a + t * (2 * a - 5 * b + 4 * c - d + t * (3 * b - a - 3 * c + d)));
      };
      return [between(0), between(1)];
    }),
  );
  return [...points, places[places.length - 1]];
}

function circle(radius_mm: number, [x, y]: Place): Place[] {
  return Array.from({ length: 49 }, (_, i): Place => {
    const turn = (2 * Math.PI * i) / 48;
    return [x + radius_mm * Math.cos(turn), y + radius_mm * Math.sin(turn)];
  });
}
