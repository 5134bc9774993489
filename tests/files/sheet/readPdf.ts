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

export interface ReadPage {
  readonly width_mm: number;
  readonly height_mm: number;
  /** Runs of text joined by spaces, in the order of the page. */
  readonly text: string;
  /** Each piece of text, where its baseline begins, how wide it is and whether it stands level. */
  readonly words: readonly {
    readonly text: string;
    readonly at: Point;
    readonly width_mm: number;
    readonly level: boolean;
  }[];
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
        points = pathPoints(args[i][0] as number[], args[i][1] as number[]);
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
