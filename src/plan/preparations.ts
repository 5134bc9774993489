/** What to prepare before the first cut, in order, with this design's numbers. All of it is common practice. */
import { CUT_KINDS, type Blank, type CutKind, type Design, type Saw } from '../design/document.ts';
import { FACE_LETTERS } from '../design/section.ts';
import { holdingOf } from '../design/holding.ts';
import type { Measures } from './measures.ts';
import { mm, said, type Wording } from './wording.ts';
import { inSentence, timberName } from '../timber/names.ts';

export function preparationsOf(design: Design, measures: Measures): Wording[] {
  const { blank, saw } = design;
  const flat = blank.section.shape !== 'round';
  const kinds = CUT_KINDS.filter((kind) => measures.setups.some(({ cut }) => cut === kind));
  return [
    said`${sectionWords(blank.section)}, ${mm(blank.length_mm)} long, ${inSentence(timberName(blank.timber))}, dry. ${TRUING[blank.section.shape]}`,
    flat
      ? said`Write foot and head on the ends. Seen from the head the faces are lettered ${flatLetters(blank.section.shape)} counter-clockwise. Draw the diagonals on both ends and prick the centres.`
      : said`Write foot and head on the ends, prick the centres, and mark the head in degrees, 0 to 360 counter-clockwise.`,
    holdingWords(design),
    ...kinds.flatMap((kind) => OF_KIND[kind].bed(blank)),
    ...(measures.setups.length === 0 ? [] : [kerfWords(design), stripWords(saw.strip_tolerance_mm)]),
    ...kinds.map((kind) => OF_KIND[kind].jig(saw)),
    ...(measures.setups.length === 0
      ? []
      : [
          said`Make the first cut once in a block of waste wood of the same size. Web, mark and angle must be right there before the good block is touched.`,
          said`After every glue-up trim the strips flush on each face that will lie on fence or table, before the next cut. Before turning let the last glue cure as long as its label says: longer than it is clamped.`,
        ]),
  ];
}

interface KindPreparations {
  /** What the blank is laid in. */
  readonly bed: (blank: Blank) => Wording[];
  /** The jig, and how the drawings show it. */
  readonly jig: (saw: Saw) => Wording;
}

/** What cuts of a kind want. */
const OF_KIND: Readonly<Record<CutKind, KindPreparations>> = {
  fence: {
    bed: ({ section }) =>
      section.shape === 'hexagon'
        ? [
            said`With a face at the fence a six-sided blank stands on an edge: saw a V of 120° into a length of waste wood, lay the blank in it, and clamp both for every cut.`,
          ]
        : [],
    jig: ({ stop_side }) =>
      said`The stop stands on the side where blade and fence make the ${stop_side} angle, seen on the blank’s side of the fence. The drawings show it on the left as you face the fence; where yours is on the right, read them in a mirror: the face that lies up is then the opposite one.`,
  },
  table: {
    bed: () => [],
    jig: () =>
      said`For cuts with the table tilted make a ledge along the low edge of the table, parallel to the feed, and a stop for the feed. Measure the tilt against the blade, and see that the guide clears the high corner of the blank. Left and right are those of one who feeds the blank away from himself.`,
  },
};

const FOUR_SIDED =
  'Plane the faces flat, opposite ones parallel, neighbours square to each other, the ends square to all of them. ' +
  'The two diagonals of an end must agree.';

/** How a blank is made true, by its section. */
const TRUING: Readonly<Record<Design['blank']['section']['shape'], string>> = {
  square: FOUR_SIDED,
  rectangle: FOUR_SIDED,
  hexagon: manySided('120°', 'three'),
  octagon: manySided('135°', 'four'),
  round: 'Turn it true, the ends square to the axis.',
};

function manySided(corner: string, widths: string): string {
  return (
    `Plane the faces flat, opposite ones parallel, ${corner} between neighbours, the ends square to all of them. ` +
    `The ${widths} widths across the flats must agree.`
  );
}

/** `Square blank 76.2 mm a side`. */
function sectionWords(section: Design['blank']['section']): Wording {
  const width = mm(section.width_mm);
  const words: Readonly<Record<Design['blank']['section']['shape'], Wording>> = {
    square: said`Square blank ${width} a side`,
    rectangle: said`Rectangular blank ${width} (A to C) by ${mm(section.depth_mm ?? section.width_mm)} (B to D)`,
    hexagon: said`Six-sided blank ${width} across the flats`,
    octagon: said`Eight-sided blank ${width} across the flats`,
    round: said`Round blank ${width} in diameter`,
  };
  return words[section.shape];
}

function flatLetters(shape: Design['blank']['section']['shape']): string {
  const count = shape === 'hexagon' ? 6 : shape === 'octagon' ? 8 : 4;
  return `A to ${FACE_LETTERS[count - 1]}`;
}

/** What the form leaves at the ends of the blank to hold it by: waste for a tenon or between centres. */
function holdingWords(design: Design): Wording {
  const free = holdingOf(design);
  if (!free)
    return said`Leave what your chuck or centres need at the ends: the design has no form that says how much is free.`;
  const foot_mm = Math.max(0, free.foot_mm);
  const head_mm = Math.max(0, free.head_mm);
  return foot_mm + head_mm < 1
    ? said`The length allows nothing for holding. Where your chuck or centres need a tenon or waste, give the design that length (Form, For holding) and print again: the stop meets the end of the wood, so wood added at the saw would put every stop out by as much.`
    : said`For holding, as a tenon or waste, there is ${mm(foot_mm)} at the foot and ${mm(head_mm)} at the head that the form does not use.`;
}

function kerfWords({ saw, sets }: Design): Wording {
  const off = said`off by more than ${mm(saw.strip_tolerance_mm, 3)}, change the design and print again.`;
  if (saw.blade_kerf_mm !== undefined)
    return said`The test kerf of this saw measured ${mm(saw.blade_kerf_mm, 3)}; slots that are wider are sawn in passes. Measure again where the blade was changed; ${off}`;
  const kerfs = [...new Set(sets.map((set) => set.kerf_mm))].flatMap((kerf_mm, i) =>
    i === 0 ? [mm(kerf_mm, 3)] : [' and ', mm(kerf_mm, 3)],
  );
  return said`Saw a test kerf in waste wood and measure it. This plan counts on ${kerfs}; ${off}`;
}

function stripWords(tolerance_mm: number): Wording {
  return tolerance_mm > 0
    ? said`Bring the strips to thickness within ± ${mm(tolerance_mm, 3)} and try them in the test kerf: in by hand, without play.`
    : said`Bring the strips to thickness and try them in the test kerf: in by hand, without play.`;
}
