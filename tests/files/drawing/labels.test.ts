/**
 * The numbers on the drawings of the cuts lie on no other ink: their boxes, measured with the typeface's own widths,
 * against every line of the drawing and every other text, over random designs.
 */
import { expect, it } from 'vitest';
import { slotsOf } from '../../../src/blank/slots.ts';
import { readFontFiles } from '../../../src/cli/fonts.ts';
import type { Design } from '../../../src/design/document.ts';
import { Pen, type Item, type PathItem, type Point, type TextItem } from '../../../src/files/drawing/pen.ts';
import { roomyWidth_mm } from '../../../src/files/drawing/labels.ts';
import { drawSetup } from '../../../src/files/drawing/setup.ts';
import { Typeface } from '../../../src/files/sheet/typeface.ts';
import { setupsOf } from '../../../src/plan/setups.ts';
import { tabled } from '../../fixtures/decorated.ts';
import { randomDesign } from '../../fixtures/designs.ts';
import { seededRandom } from '../../fixtures/random.ts';
import { starterDesigns } from '../../fixtures/starters.ts';
import { countFor, SEED } from '../../soak/counts.ts';

const typeface = new Typeface(readFontFiles());
const rounds = countFor('setup-labels', 25, 2000);
const MM_PER_POINT = 25.4 / 72;
/** Archivo: letters from the baseline to 0.69 of the size (figures and capitals), measured in its glyph outlines. */
const CAP = 0.69;

interface Box {
  readonly corners: readonly Point[];
  readonly item: TextItem;
}

function boxOf(item: TextItem): Box {
  const { size_pt, weight = 'regular', align = 'left', angle_deg = 0 } = item.style;
  const width = typeface.width_mm(item.text, size_pt, weight);
  const back = { left: 0, center: width / 2, right: width }[align];
  const turn = (angle_deg * Math.PI) / 180;
  const corner = (x: number, y: number): Point => [
    item.at[0] + x * Math.cos(turn) - y * Math.sin(turn),
    item.at[1] + x * Math.sin(turn) + y * Math.cos(turn),
  ];
  const high = CAP * size_pt * MM_PER_POINT;
  return {
    item,
    corners: [corner(-back, 0), corner(width - back, 0), corner(width - back, high), corner(-back, high)],
  };
}

/** Whether a point lies in a convex polygon with counter-clockwise corners. */
const holds = (corners: readonly Point[], [x, y]: Point) =>
  corners.every(([ax, ay], i) => {
    const [bx, by] = corners[(i + 1) % corners.length];
    return (bx - ax) * (y - ay) - (by - ay) * (x - ax) > 0;
  });

const all = (items: readonly Item[]): (PathItem | TextItem)[] =>
  items.flatMap((item) => (item.kind === 'clip' ? all(item.items) : [item]));

/** Points every 0.1 mm along the lines of a path; curves by their chords in eight. */
function along({ steps }: PathItem): Point[] {
  const points: Point[] = [];
  let start: Point = [0, 0];
  let at: Point = [0, 0];
  const to = (next: Point) => {
    const n = Math.max(1, Math.ceil(Math.hypot(next[0] - at[0], next[1] - at[1]) / 0.1));
    for (let k = 0; k <= n; k++)
      points.push([at[0] + ((next[0] - at[0]) * k) / n, at[1] + ((next[1] - at[1]) * k) / n]);
    at = next;
  };
  for (const step of steps) {
    if (step[0] === 'move') start = at = step[1];
    else if (step[0] === 'line') to(step[1]);
    else if (step[0] === 'close') to(start);
    else {
      const [p, [, a, b, c]] = [at, step];
      for (let k = 1; k <= 8; k++) {
        const [t, s] = [k / 8, 1 - k / 8];
        const mix = (i: 0 | 1) => s ** 3 * p[i] + 3 * s * s * t * a[i] + 3 * s * t * t * b[i] + t ** 3 * c[i];
        to([mix(0), mix(1)]);
      }
    }
  }
  return points;
}

const LABELS = { angle: '61.25°', stop: '123.45 mm', web: 'web 12.34 mm' };

interface Found {
  readonly drawn: number;
  /** What lies on ink, as `where label`. */
  readonly crossed: string[];
}

function measure(design: Design, where: string, [width, height]: Point): Found {
  const slots = slotsOf(design);
  const crossed: string[] = [];
  let drawn = 0;
  setupsOf(design).forEach((setup, i) => {
    const pen = new Pen();
    drawSetup(pen, width, height, {
      design,
      setup,
      slot: slots[i],
      filled: slots.slice(0, i),
      colours: { body: '#664433', timber: () => '#ddccaa' },
      labels: LABELS,
    });
    const items = all(pen.items);
    const texts = items.filter((item) => item.kind === 'text').map(boxOf);
    for (const label of Object.values(LABELS)) {
      const box = texts.find(({ item }) => item.text === label);
      if (!box) continue;
      drawn++;
      const name = `${where} ${setup.slot} ${setup.cut} ${label}`;
      const extent = box.corners;
      if (extent.some(([x, y]) => x < 0 || y < 0 || x > width || y > height))
        crossed.push(`${name}: outside`);
      for (const item of items) {
        if (item.kind !== 'path' || (item.stroke === undefined && item.fill !== '#17569b')) continue;
        if (along(item).some((point) => holds(extent, point))) {
          crossed.push(`${name}: line ${item.stroke?.colour ?? item.fill}`);
          break;
        }
      }
      for (const other of texts)
        if (other !== box && other.corners.some((point) => holds(extent, point)))
          crossed.push(`${name}: ${other.item.text}`);
    }
  });
  return { drawn, crossed };
}

it('reckons with labels at least as wide as they are printed', () => {
  for (const text of [
    '0123456789',
    '61.25°',
    '5 15⁄32″',
    'web 0.100″',
    'web 12.34 mm',
    '−1.999″',
    'ABCDwxyz',
  ])
    for (const weight of ['regular', 'semibold'] as const)
      expect(roomyWidth_mm(text, 8.5)).toBeGreaterThanOrEqual(typeface.width_mm(text, 8.5, weight));
});

it('keeps angle, stop and web clear of lines and texts, inside the drawing', () => {
  const found: Found[] = [];
  for (const size of [
    [84, 66],
    [104, 66],
  ] as const) {
    for (const design of starterDesigns()) found.push(measure(design, design.name, size));
    for (let seed = SEED; seed < SEED + rounds; seed++) {
      const design = randomDesign(seed, { maxSlots: 6 });
      const random = seededRandom(seed);
      const sets = design.sets.map((set) => tabled(random, design.blank.section, set));
      found.push(measure({ ...design, sets }, `seed ${seed}`, size));
    }
  }
  const crossed = found.flatMap((one) => one.crossed);
  expect(found.reduce((sum, { drawn }) => sum + drawn, 0)).toBeGreaterThan(500);
  expect(crossed).toEqual([]);
});
