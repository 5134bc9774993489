/**
 * Where a piece of wood sat in its tree: a frame with g along the grain and the pith at q.xy = 0,
 * q = (a · p + a₀, b · p + b₀, g · p + g₀), mm. Defaults are chosen by seed, so that a design always looks the same
 * and no two strips are alike. Lathe frame.
 */
import type { Slot } from '../../blank/slots.ts';
import { add, cross, dot, norm, scale, type Vec3 } from '../../geometry/vector.ts';
import { randomFrom, seedOf } from './noise.ts';

export interface GrainFrame {
  readonly a: Vec3;
  readonly a0: number;
  readonly b: Vec3;
  readonly b0: number;
  readonly g: Vec3;
  readonly g0: number;
}

/** The blank: grain along the axis, leaning a little, cut clear of the pith. */
export function blankGrain(timber: string, width_mm: number, length_mm: number): GrainFrame {
  const random = randomFrom(seedOf(timber) ^ 0x5bd1);
  const toward = (120 + 45 * random()) * (Math.PI / 180);
  const pith_mm = width_mm * (0.5 + 0.16 * random()) + 8;
  const lean = (1.6 + 1.4 * random()) * (Math.PI / 180);
  const leanSide = (random() - 0.5) * (Math.PI / 90);
  const outward: Vec3 = [-Math.cos(toward), -Math.sin(toward), 0];
  const side: Vec3 = [Math.sin(toward), -Math.cos(toward), 0];
  const g = unit(add(add([0, 0, 1], scale(outward, Math.sin(lean))), scale(side, Math.sin(leanSide))));
  return frameAbout([0, 0, length_mm / 2], g, outward, pith_mm, 1000 * random());
}

/** A strip's layer: grain along the strip, each cut from a board of its own. */
export function stripGrain(slot: Slot, layer: number): GrainFrame {
  const random = randomFrom(seedOf(`${slot.id}/${layer}`));
  const turn = 2 * Math.PI * random();
  const down = cross(slot.bladeDirection, slot.normal);
  const across = add(scale(slot.normal, Math.cos(turn)), scale(down, Math.sin(turn)));
  const lean = (random() - 0.5) * 0.09;
  const g = unit(add(slot.bladeDirection, scale(down, lean)));
  const center = scale(slot.normal, slot.offset_mm);
  return frameAbout(center, g, across, 35 + 70 * random(), 1000 * random());
}

/** Frame whose pith runs along g, `pith_mm` behind `center` against `outward`. */
function frameAbout(center: Vec3, g: Vec3, outward: Vec3, pith_mm: number, along_mm: number): GrainFrame {
  const a = unit(add(outward, scale(g, -dot(outward, g))));
  const b = cross(g, a);
  return { a, a0: pith_mm - dot(a, center), b, b0: -dot(b, center), g, g0: along_mm - dot(g, center) };
}

function unit(v: Vec3): Vec3 {
  return scale(v, 1 / norm(v));
}
