/**
 * Where a piece of wood sat in its tree: a frame with g along the grain and the pith at q.xy = 0,
 * q = (a · p + a₀, b · p + b₀, g · p + g₀), mm. Defaults are chosen by seed, so that a design always looks the same
 * and no two strips are alike. Lathe frame.
 */
import type { Slot } from '../../blank/slots.ts';
import type { Blank } from '../../design/document.ts';
import { grainOf, stripGrainOf } from '../../design/grain.ts';
import { DEG } from '../../geometry/angle.ts';
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

/** The blank, as design/grain.ts has it; the fibre strays from straight by a degree or two, as it does in any board. */
export function blankGrain(blank: Blank): GrainFrame {
  const { fibre, first, second, pith_mm, middle_mm } = grainOf(blank);
  const random = randomFrom(seedOf(blank.timber) ^ 0x5bd1);
  const lean = (1.6 + 1.4 * random()) * DEG;
  const leanSide = (random() - 0.5) * (Math.PI / 90);
  const along_mm = 1000 * random();
  const pith = add(scale(first, pith_mm[0]), scale(second, pith_mm[1]));
  const distance = norm(pith);
  const outward: Vec3 = distance > 1e-6 ? scale(pith, -1 / distance) : first;
  const side = cross(fibre, outward);
  const g = unit(add(add(fibre, scale(outward, Math.sin(lean))), scale(side, Math.sin(leanSide))));
  return frameAbout(middle_mm, g, outward, distance, along_mm);
}

/** A strip's layer: grain along the strip, each cut from a board of its own. */
export function stripGrain(slot: Slot, layer: number): GrainFrame {
  const random = randomFrom(seedOf(`${slot.id}/${layer}`));
  const turn = 2 * Math.PI * random();
  const down = cross(slot.bladeDirection, slot.normal);
  const lean = (random() - 0.5) * 0.09;
  const [fibre, sideways] =
    stripGrainOf(slot.layers[layer]) === 'depth' ? [down, slot.bladeDirection] : [slot.bladeDirection, down];
  const g = unit(add(fibre, scale(sideways, lean)));
  const across = add(scale(slot.normal, Math.cos(turn)), scale(sideways, Math.sin(turn)));
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
