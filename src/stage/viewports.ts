/** How variants share the canvas: side by side where it is wide, stacked where it is tall, two by two for four. */
export interface Viewport {
  /** From the lower left, in the unit of the size given. */
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

export function viewportsOf(count: number, width: number, height: number): Viewport[] {
  if (count === 0) return [];
  const columns = columnsOf(count, width / height);
  const rows = Math.ceil(count / columns);
  return Array.from({ length: count }, (_, i) => {
    const column = i % columns;
    const row = Math.floor(i / columns);
    // A row that is not full is centred.
    const inRow = row === rows - 1 ? count - row * columns : columns;
    const shift = ((columns - inRow) * width) / columns / 2;
    const left = Math.round(shift + (column * width) / columns);
    const right = Math.round(shift + ((column + 1) * width) / columns);
    const bottom = Math.round(((rows - 1 - row) * height) / rows);
    const top = Math.round(((rows - row) * height) / rows);
    return { x: left, y: bottom, width: right - left, height: top - bottom };
  });
}

function columnsOf(count: number, aspect: number): number {
  if (count === 4) return aspect > 2.2 ? 4 : aspect < 0.45 ? 1 : 2;
  if (aspect >= 1) return count;
  return count === 3 && aspect > 0.8 ? 2 : 1;
}
