/** Variants share the canvas without gap or overlap. */
import { expect, test } from 'vitest';
import { viewportsOf } from '../../src/stage/viewports.ts';

test.each([
  [1, 801, 600],
  [2, 801, 600],
  [2, 500, 901],
  [3, 1000, 701],
  [4, 900, 601],
  [4, 1600, 401],
])('%s variants in %s × %s', (count, width, height) => {
  const boxes = viewportsOf(count, width, height);
  expect(boxes).toHaveLength(count);
  for (const box of boxes) {
    expect(box.x).toBeGreaterThanOrEqual(0);
    expect(box.y).toBeGreaterThanOrEqual(0);
    expect(box.x + box.width).toBeLessThanOrEqual(width);
    expect(box.y + box.height).toBeLessThanOrEqual(height);
  }
  const overlap = (i: number, j: number) => {
    const [a, b] = [boxes[i], boxes[j]];
    return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
  };
  for (let i = 0; i < count; i++) for (let j = 0; j < i; j++) expect(overlap(i, j)).toBe(false);
  const area = boxes.reduce((sum, box) => sum + box.drawnWidth * box.height, 0);
  expect(area).toBe(width * height);
});

/** Rows and columns by hand: the layout in which one piece is drawn largest. */
test.each([
  ['two tall pieces on an upright stage: side by side', 2, 700, 800, 0.4, 2],
  ['two flat bowls on an upright stage: one above the other', 2, 700, 800, 2, 1],
  ['two round pieces on a wide stage: side by side', 2, 1200, 600, 1, 2],
  ['four round pieces on a square stage: two by two', 4, 800, 800, 1, 2],
  ['four tall pieces on a wide stage: in a row', 4, 1200, 700, 0.4, 4],
])('%s', (_name, count, width, height, pieceAspect, columns) => {
  const boxes = viewportsOf(count, width, height, pieceAspect);
  expect(new Set(boxes.map((box) => box.x)).size).toBe(columns);
});

test('beside what stands over the right edge the pieces are in an even row, and the last is drawn on under it', () => {
  // 1000 wide, 100 taken: three columns of 300, and 100 more of the picture in the last.
  const boxes = viewportsOf(3, 1000, 700, 0.4, 100);
  expect(boxes.map(({ x, width, drawnWidth }) => [x, width, drawnWidth])).toEqual([
    [0, 300, 300],
    [300, 300, 300],
    [600, 300, 400],
  ]);
  // One alone, or one above the other, keeps the whole width.
  expect(viewportsOf(1, 1000, 700, 0.4, 100)[0].width).toBe(1000);
  expect(viewportsOf(2, 700, 800, 2, 100).map(({ width }) => width)).toEqual([700, 700]);
});
