/** Designs of tests/fixtures with everything that version 2 added, at random. */
import type { Design, Form, Hole, Section } from '../../src/design/document.ts';
import { sectionGeometry } from '../../src/design/section.ts';
import { TIMBERS } from '../fixtures/designs.ts';
import { seededRandom, type Random } from '../fixtures/random.ts';

/** The design with grain, colours, locks, finish and holes; its form is a sleeve now and then. */
export function decorated(seed: number, design: Design): Design {
  const random = seededRandom(seed);
  const { blank, sets, form } = design;
  return {
    ...design,
    blank: random.chance(0.7) ? { ...blank, grain: randomGrain(random) } : blank,
    sets: sets.map((set) => ({
      ...set,
      strip: {
        layers: set.strip.layers.map((layer) =>
          random.chance(0.5) ? { ...layer, grain: random.pick(['length', 'depth'] as const) } : layer,
        ),
      },
      ...(random.chance(0.3) ? { locked: true } : {}),
    })),
    form: form && {
      ...(random.chance(0.3) ? sleeve(random, blank.section, blank.length_mm) : form),
      ...(random.chance(0.8)
        ? { holes: Array.from({ length: random.whole(1, 4) }, () => randomHole(random, design)) }
        : {}),
      ...(random.chance(0.5) ? { finish: random.pick(['raw', 'oiled', 'gloss'] as const) } : {}),
    },
    ...(random.chance(0.6) ? { colors: randomColors(random) } : {}),
  };
}

function randomGrain(random: Random): Design['blank']['grain'] {
  const pith = random.chance(0.5)
    ? { pith_mm: [random.between(-90, 90), random.between(-90, 90)] as const }
    : {};
  if (random.chance(0.5)) return { along: 'axis', ...pith };
  return {
    along: 'across',
    ...(random.chance(0.5) ? { azimuth_deg: random.between(-180, 360) } : {}),
    ...pith,
  };
}

function randomColors(random: Random): Record<string, string> {
  const colors: Record<string, string> = {};
  for (let n = random.whole(1, 3); n > 0; n--)
    colors[random.pick(TIMBERS)] = `#${random.whole(0, 0xffffff).toString(16).padStart(6, '0')}`;
  return colors;
}

/** A hole that takes some of the form, not too near its edge. */
export function randomHole(random: Random, { blank }: Pick<Design, 'blank'>): Hole {
  const radius_mm = sectionGeometry(blank.section).inscribedRadius_mm;
  const from = random.pick(['head', 'foot', 'side'] as const);
  return {
    from,
    diameter_mm: radius_mm * random.between(0.05, 0.6),
    depth_mm: random.chance(0.3) ? null : blank.length_mm * random.between(0.05, 0.6),
    ...(random.chance(0.6) ? { offset_mm: radius_mm * random.between(-0.5, 0.5) } : {}),
    ...(random.chance(0.7) ? { azimuth_deg: random.pick([90, random.between(-180, 360)]) } : {}),
    ...(from === 'side' ? { z_mm: blank.length_mm * random.between(0.1, 0.9) } : {}),
  };
}

function sleeve(random: Random, section: Section, length_mm: number): Form {
  const radius_mm = sectionGeometry(section).inscribedRadius_mm;
  const bore_mm = radius_mm * random.between(0.2, 0.5);
  return {
    outline: [
      { z_mm: length_mm * random.between(0, 0.1), r_mm: radius_mm * random.between(0.7, 0.95) },
      { z_mm: length_mm / 2, r_mm: radius_mm * random.between(0.7, 0.95), smooth: true },
      { z_mm: length_mm * random.between(0.9, 1), r_mm: radius_mm * random.between(0.7, 0.95) },
      { z_mm: length_mm * 0.9, r_mm: bore_mm },
      { z_mm: length_mm * 0.1, r_mm: bore_mm },
    ],
    loop: true,
  };
}
