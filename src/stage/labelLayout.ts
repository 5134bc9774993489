/**
 * Where the labels of a picture go so that none covers another: each as near to its own place as the ones before it
 * leave room for. Pixels at a pixel ratio of one, y up, from the lower left corner of the picture. Pure.
 */

export interface LabelBox {
  /** Middle of the label where nothing is in its way. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export interface LabelRoom {
  readonly left: number;
  readonly bottom: number;
  readonly right: number;
  readonly top: number;
}

/** Clear space between two labels. */
const GAP = 3;
const STEP = 7;
const STEPS = 26;
/** A label is read along its line: a place above or below is nearer than one as far beside. */
const BESIDE = 1.35;

/** Shifts to try, the nearest first. */
const SHIFTS: readonly (readonly [number, number])[] = Array.from({ length: 2 * STEPS + 1 }, (_, i) =>
  Array.from({ length: 2 * STEPS + 1 }, (_unused, j) => [(i - STEPS) * STEP, (j - STEPS) * STEP] as const),
)
  .flat()
  .sort((a, b) => Math.hypot(BESIDE * a[0], a[1]) - Math.hypot(BESIDE * b[0], b[1]));

/**
 * Shifts of the labels, the first having the first choice; all within the room. Where there is no free place within
 * reach, null: the label is better left out than laid over another.
 */
export function placeLabels(
  boxes: readonly LabelBox[],
  room: LabelRoom,
): (readonly [dx: number, dy: number] | null)[] {
  const taken: LabelBox[] = [];
  return boxes.map((box) => {
    const home = {
      ...box,
      x: held(box.x, box.width, room.left, room.right),
      y: held(box.y, box.height, room.bottom, room.top),
    };
    for (const [dx, dy] of SHIFTS) {
      const tried = { ...home, x: home.x + dx, y: home.y + dy };
      if (!within(tried, room) || taken.some((other) => meet(tried, other))) continue;
      taken.push(tried);
      return [tried.x - box.x, tried.y - box.y];
    }
    return null;
  });
}

function held(at: number, size: number, low: number, high: number): number {
  return Math.min(Math.max(at, low + size / 2), Math.max(high - size / 2, low + size / 2));
}

function within({ x, y, width, height }: LabelBox, room: LabelRoom): boolean {
  const slack = 1e-6;
  return (
    x - width / 2 >= room.left - slack &&
    x + width / 2 <= room.right + slack &&
    y - height / 2 >= room.bottom - slack &&
    y + height / 2 <= room.top + slack
  );
}

function meet(a: LabelBox, b: LabelBox): boolean {
  return (
    Math.abs(a.x - b.x) < (a.width + b.width) / 2 + GAP &&
    Math.abs(a.y - b.y) < (a.height + b.height) / 2 + GAP
  );
}
