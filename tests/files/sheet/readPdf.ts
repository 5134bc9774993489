/**
 * A PDF as Mozilla's reader sees it: the text of every page and every path in millimetres of paper from the
 * lower left corner, with its colours. What is clipped away is still there: paths are given whole.
 */
import { getDocument, OPS } from 'pdfjs-dist/legacy/build/pdf.mjs';

export type Point = readonly [number, number];

export interface ReadPath {
  /** Ends of the segments in order; curves by their end points. */
  readonly points: readonly Point[];
  readonly fill: string | null;
  readonly stroke: string | null;
  readonly width_mm: number;
}

/** A piece of text: where its baseline begins, how wide and large it is, how it is turned and whether it stands level. */
export interface ReadWord {
  readonly text: string;
  readonly at: Point;
  readonly width_mm: number;
  readonly size_pt: number;
  /** Counter-clockwise. */
  readonly angle_deg: number;
  readonly level: boolean;
}

export interface ReadPage {
  readonly width_mm: number;
  readonly height_mm: number;
  /** Runs of text joined by spaces, in the order of the page. */
  readonly text: string;
  readonly words: readonly ReadWord[];
  readonly paths: readonly ReadPath[];
}

export interface ReadPdf {
  readonly pages: readonly ReadPage[];
  readonly title: string;
  readonly fonts: readonly { readonly name: string; readonly embedded: boolean }[];
}

const MM = 25.4 / 72;

export async function readPdf(bytes: Uint8Array): Promise<ReadPdf> {
  const task = getDocument({
    data: Uint8Array.from(bytes),
    useSystemFonts: false,
    disableFontFace: true,
    verbosity: 0,
  });
  const document = await task.promise;
  const pages: ReadPage[] = [];
  const fonts = new Map<string, boolean>();
  for (let number = 1; number <= document.numPages; number++) {
    const page = await document.getPage(number);
    const [left, bottom, right, top] = page.view;
    const { items } = await page.getTextContent();
    const words = items.flatMap((item) =>
      'str' in item && item.str.trim() !== ''
        ? [
            {
              text: item.str,
              at: [Number(item.transform[4]) * MM, Number(item.transform[5]) * MM] as const,
              width_mm: item.width * MM,
              size_pt: Math.hypot(Number(item.transform[0]), Number(item.transform[1])),
              angle_deg: (Math.atan2(Number(item.transform[1]), Number(item.transform[0])) * 180) / Math.PI,
              level: Number(item.transform[1]) === 0,
            },
          ]
        : [],
    );
    const list = await page.getOperatorList();
    for (const [i, operator] of list.fnArray.entries())
      if (operator === OPS.setFont) {
        const font = page.commonObjs.get((list.argsArray[i] as [string])[0]) as {
          name: string;
          missingFile?: boolean;
        };
        fonts.set(font.name, font.missingFile !== true);
      }
    pages.push({
      width_mm: (right - left) * MM,
      height_mm: (top - bottom) * MM,
      text: items
        .map((item) => ('str' in item ? item.str : ''))
        .join(' ')
        .replace(/\s+/g, ' '),
      words,
      paths: pathsOf(list.fnArray, list.argsArray as unknown[][]),
    });
  }
  const { info } = await document.getMetadata();
  await task.destroy();
  return {
    pages,
    title: String((info as { Title?: string }).Title),
    fonts: [...fonts].map(([name, embedded]) => ({ name, embedded })),
  };
}

/** Corners of the box of a piece of text: letters with their tails and accents, where a halo may cut a neighbour. */
export function boxOf({ at, width_mm, size_pt, angle_deg }: ReadWord): Point[] {
  const turn = (angle_deg * Math.PI) / 180;
  const place = (x: number, y: number): Point => [
    at[0] + x * Math.cos(turn) - y * Math.sin(turn),
    at[1] + x * Math.sin(turn) + y * Math.cos(turn),
  ];
  const [low, high] = [-0.22 * size_pt * MM, 0.74 * size_pt * MM];
  return [place(0, low), place(width_mm, low), place(width_mm, high), place(0, high)];
}

/** Pairs of texts of a page that are printed over one another, by more than a hair. */
export function printedOver({ words }: ReadPage): [string, string][] {
  const boxes = words.map(boxOf);
  return words.flatMap((word, i) =>
    words.slice(i + 1).flatMap((other, k): [string, string][] => {
      return overlapOf(boxes[i], boxes[i + 1 + k]) > 0.15 ? [[word.text, other.text]] : [];
    }),
  );
}

/** How far two boxes lie in one another, by the direction in which that is least (separating axes); 0 apart. */
function overlapOf(a: readonly Point[], b: readonly Point[]): number {
  let least = Infinity;
  for (const box of [a, b])
    for (const i of [0, 1]) {
      const [dx, dy] = [box[i + 1][0] - box[i][0], box[i + 1][1] - box[i][1]];
      const long = Math.hypot(dx, dy);
      const along = ([x, y]: Point) => (x * dx + y * dy) / long;
      const [from, to] = [a.map(along), b.map(along)];
      least = Math.min(least, Math.max(...from) - Math.min(...to), Math.max(...to) - Math.min(...from));
    }
  return Math.max(0, least);
}

interface State {
  fill: string;
  stroke: string;
  width: number;
}

function pathsOf(operators: readonly number[], args: readonly unknown[][]): ReadPath[] {
  const paths: ReadPath[] = [];
  let state: State = { fill: '#000000', stroke: '#000000', width: 1 };
  const saved: State[] = [];
  let points: Point[] = [];
  const paint = (fill: boolean, stroke: boolean) => {
    if (points.length > 0)
      paths.push({
        points,
        fill: fill ? state.fill : null,
        stroke: stroke ? state.stroke : null,
        width_mm: state.width * MM,
      });
    points = [];
  };
  operators.forEach((operator, i) => {
    switch (operator) {
      case OPS.save:
        saved.push({ ...state });
        break;
      case OPS.restore:
        state = saved.pop()!;
        break;
      case OPS.transform:
        throw new Error('a drawing is transformed: its coordinates are not the page’s');
      case OPS.setFillRGBColor:
        state.fill = colourOf(args[i]);
        break;
      case OPS.setStrokeRGBColor:
        state.stroke = colourOf(args[i]);
        break;
      case OPS.setLineWidth:
        state.width = Number(args[i][0]);
        break;
      case OPS.constructPath:
        // The reader hands a long page on in pieces and may cut a path in two.
        points = [...points, ...pathPoints(args[i][0] as number[], args[i][1] as number[])];
        break;
      case OPS.fill:
        paint(true, false);
        break;
      case OPS.stroke:
        paint(false, true);
        break;
      case OPS.fillStroke:
        paint(true, true);
        break;
      case OPS.endPath:
        points = [];
        break;
      default:
    }
  });
  return paths;
}

function colourOf(args: readonly unknown[]): string {
  if (typeof args[0] === 'string') return args[0];
  return `#${Array.from(args, (value) => Number(value).toString(16).padStart(2, '0')).join('')}`;
}

function pathPoints(steps: readonly number[], numbers: readonly number[]): Point[] {
  const points: Point[] = [];
  let at = 0;
  const take = (skip: number) => {
    at += skip;
    points.push([numbers[at] * MM, numbers[at + 1] * MM]);
    at += 2;
  };
  for (const step of steps)
    if (step === OPS.moveTo || step === OPS.lineTo) take(0);
    else if (step === OPS.curveTo) take(4);
    else if (step === OPS.rectangle) {
      const [x, y, w, h] = numbers.slice(at, at + 4).map((value) => value * MM);
      points.push([x, y], [x + w, y], [x + w, y + h], [x, y + h]);
      at += 4;
    } else if (step !== OPS.closePath) throw new Error(`unknown path step ${step}`);
  return points;
}
