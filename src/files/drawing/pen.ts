/**
 * Drawings as lists of paths and texts, independent of what shows them (sheet/pdf.ts prints them). Frame: x to
 * the right, y up, millimetres on paper; type sizes in points. A pen may carry a similarity (scale, turn,
 * shift), so that a drawing is made in the frame of the thing drawn; the items hold paper coordinates only,
 * so that what is printed can be measured.
 */
import { MM_PER_INCH } from '../../design/units.ts';

/** Of type: 72 to the inch. */
export const MM_PER_POINT = MM_PER_INCH / 72;

/** `#rrggbb`. */
export type Colour = string;
export type Point = readonly [x_mm: number, y_mm: number];

export type PathStep =
  | readonly ['move', Point]
  | readonly ['line', Point]
  | readonly ['curve', Point, Point, Point]
  | readonly ['close'];

export interface Stroke {
  readonly colour: Colour;
  readonly width_mm: number;
  readonly dash_mm?: readonly number[];
  readonly round?: boolean;
}

export interface PathItem {
  readonly kind: 'path';
  readonly steps: readonly PathStep[];
  readonly fill?: Colour;
  readonly stroke?: Stroke;
}

export type Weight = 'regular' | 'semibold';
export type Align = 'left' | 'center' | 'right';

export interface TextStyle {
  readonly size_pt: number;
  readonly weight?: Weight;
  readonly align?: Align;
  readonly colour?: Colour;
  /** Counter-clockwise from level. */
  readonly angle_deg?: number;
  /** Drawn behind the letters, so that lines do not run through them. */
  readonly halo?: Colour;
}

export interface TextItem {
  readonly kind: 'text';
  /** On the baseline. */
  readonly at: Point;
  readonly text: string;
  readonly style: TextStyle;
}

/** Items that show only inside a path. */
export interface ClipItem {
  readonly kind: 'clip';
  readonly steps: readonly PathStep[];
  readonly items: readonly Item[];
}

export type Item = PathItem | TextItem | ClipItem;

export interface Paint {
  readonly fill?: Colour;
  readonly stroke?: Stroke;
}

/** Length of the handles that make a quarter circle of four Béziers, over the radius (error 2.7e-4). */
const QUARTER = (4 / 3) * Math.tan(Math.PI / 8);

export class Pen {
  readonly items: Item[];
  readonly #scale: number;
  readonly #cos: number;
  readonly #sin: number;
  readonly #x: number;
  readonly #y: number;

  constructor(items: Item[] = [], scale = 1, angle_rad = 0, origin: Point = [0, 0]) {
    this.items = items;
    this.#scale = scale;
    this.#cos = Math.cos(angle_rad);
    this.#sin = Math.sin(angle_rad);
    [this.#x, this.#y] = origin;
  }

  /** A pen on the same paper whose drawing is scaled, turned and shifted within this one's frame. */
  within(origin: Point, scale = 1, angle_rad = 0): Pen {
    const turn = Math.atan2(this.#sin, this.#cos) + angle_rad;
    return new Pen(this.items, this.#scale * scale, turn, this.place(origin));
  }

  /** Where a point of this frame lies on paper. */
  place([x, y]: Point): Point {
    return [
      this.#x + this.#scale * (this.#cos * x - this.#sin * y),
      this.#y + this.#scale * (this.#sin * x + this.#cos * y),
    ];
  }

  path(steps: readonly PathStep[], paint: Paint): void {
    this.items.push({ kind: 'path', steps: this.#placed(steps), ...paint });
  }

  line(from: Point, to: Point, stroke: Stroke): void {
    this.path(
      [
        ['move', from],
        ['line', to],
      ],
      { stroke },
    );
  }

  polyline(points: readonly Point[], stroke: Stroke): void {
    this.path(polylineSteps(points), { stroke });
  }

  polygon(points: readonly Point[], paint: Paint): void {
    this.path([...polylineSteps(points), ['close']], paint);
  }

  rectangle([x, y]: Point, width: number, height: number, paint: Paint): void {
    this.path(rectangleSteps([x, y], width, height), paint);
  }

  circle(center: Point, radius: number, paint: Paint): void {
    this.path(circleSteps(center, radius), paint);
  }

  /** Counter-clockwise from one direction to the other, radians of this frame. */
  arc(center: Point, radius: number, from_rad: number, to_rad: number, stroke: Stroke): void {
    this.path(arcSteps(center, radius, from_rad, to_rad), { stroke });
  }

  /** Position in this frame; size, alignment and angle are the paper's. */
  text(at: Point, text: string, style: TextStyle): void {
    if (text !== '') this.items.push({ kind: 'text', at: this.place(at), text, style });
  }

  /** What `draw` puts on paper shows only inside the path. */
  clipped(steps: readonly PathStep[], draw: (pen: Pen) => void): void {
    const inside = new Pen([], this.#scale, Math.atan2(this.#sin, this.#cos), [this.#x, this.#y]);
    draw(inside);
    this.items.push({ kind: 'clip', steps: this.#placed(steps), items: inside.items });
  }

  #placed(steps: readonly PathStep[]): PathStep[] {
    return steps.map((step): PathStep => {
      if (step[0] === 'close') return step;
      if (step[0] === 'curve')
        return ['curve', this.place(step[1]), this.place(step[2]), this.place(step[3])];
      return [step[0], this.place(step[1])];
    });
  }
}

/** Items turned counter-clockwise about the origin of the paper, then shifted. */
export function placedItems(items: readonly Item[], [x, y]: Point, turn_deg: 0 | 90 = 0): Item[] {
  const place = ([px, py]: Point): Point => (turn_deg === 90 ? [x - py, y + px] : [x + px, y + py]);
  const steps = (list: readonly PathStep[]) =>
    list.map((step): PathStep => {
      if (step[0] === 'close') return step;
      if (step[0] === 'curve') return ['curve', place(step[1]), place(step[2]), place(step[3])];
      return [step[0], place(step[1])];
    });
  return items.map((item): Item => {
    if (item.kind === 'text')
      return {
        ...item,
        at: place(item.at),
        style:
          turn_deg === 0 ? item.style : { ...item.style, angle_deg: (item.style.angle_deg ?? 0) + turn_deg },
      };
    if (item.kind === 'path') return { ...item, steps: steps(item.steps) };
    return { ...item, steps: steps(item.steps), items: placedItems(item.items, [x, y], turn_deg) };
  });
}

export function polylineSteps(points: readonly Point[]): PathStep[] {
  return points.map((point, i): PathStep => [i === 0 ? 'move' : 'line', point]);
}

export function rectangleSteps([x, y]: Point, width: number, height: number): PathStep[] {
  return [
    ['move', [x, y]],
    ['line', [x + width, y]],
    ['line', [x + width, y + height]],
    ['line', [x, y + height]],
    ['close'],
  ];
}

export function circleSteps([x, y]: Point, radius: number): PathStep[] {
  const h = QUARTER * radius;
  return [
    ['move', [x + radius, y]],
    ['curve', [x + radius, y + h], [x + h, y + radius], [x, y + radius]],
    ['curve', [x - h, y + radius], [x - radius, y + h], [x - radius, y]],
    ['curve', [x - radius, y - h], [x - h, y - radius], [x, y - radius]],
    ['curve', [x + h, y - radius], [x + radius, y - h], [x + radius, y]],
    ['close'],
  ];
}

export function arcSteps([x, y]: Point, radius: number, from_rad: number, to_rad: number): PathStep[] {
  const pieces = Math.max(1, Math.ceil(Math.abs(to_rad - from_rad) / (Math.PI / 4)));
  const step = (to_rad - from_rad) / pieces;
  const handle = (4 / 3) * Math.tan(step / 4) * radius;
  const at = (angle: number): Point => [x + radius * Math.cos(angle), y + radius * Math.sin(angle)];
  const steps: PathStep[] = [['move', at(from_rad)]];
  for (let i = 0; i < pieces; i++) {
    const a = from_rad + i * step;
    const b = a + step;
    const [ax, ay] = at(a);
    const [bx, by] = at(b);
    steps.push([
      'curve',
      [ax - handle * Math.sin(a), ay + handle * Math.cos(a)],
      [bx + handle * Math.sin(b), by - handle * Math.cos(b)],
      [bx, by],
    ]);
  }
  return steps;
}
