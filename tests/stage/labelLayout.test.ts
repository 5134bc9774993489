/** Labels of the stage: none over another, all in the picture, none moved without need. Rectangles compared by hand. */
import { describe, expect, test } from 'vitest';
import { placeLabels, type LabelBox, type LabelRoom } from '../../src/stage/labelLayout.ts';
import { seededRandom } from '../fixtures/random.ts';

const room: LabelRoom = { left: 4, bottom: 4, right: 596, top: 396 };

function rectangle(box: LabelBox, shift: readonly [number, number]) {
  const [x, y] = [box.x + shift[0], box.y + shift[1]];
  return {
    left: x - box.width / 2,
    right: x + box.width / 2,
    bottom: y - box.height / 2,
    top: y + box.height / 2,
  };
}

test('labels with room of their own stay where they are', () => {
  const boxes = [100, 200, 300].map((y) => ({ x: 300, y, width: 120, height: 20 }));
  expect(placeLabels(boxes, room)).toEqual([
    [0, 0],
    [0, 0],
    [0, 0],
  ]);
});

test('the first has the first choice; the next goes just clear of it', () => {
  const box = { x: 300, y: 200, width: 120, height: 20 };
  const [first, second] = placeLabels([box, box], room);
  expect(first).toEqual([0, 0]);
  // A line up or down, not half a label's breadth aside.
  expect(second?.[0]).toBe(0);
  expect(Math.abs(second?.[1] ?? 0)).toBeGreaterThanOrEqual(20);
  expect(Math.abs(second?.[1] ?? 0)).toBeLessThanOrEqual(30);
});

test('a label at the edge comes into the picture', () => {
  const [shift] = placeLabels([{ x: 590, y: 2, width: 120, height: 20 }], room);
  expect(rectangle({ x: 590, y: 2, width: 120, height: 20 }, shift ?? [0, 0])).toMatchObject({
    right: 596,
    bottom: 4,
  });
});

test('where there is no room a label is left out, not laid over another', () => {
  const tight: LabelRoom = { left: 0, bottom: 0, right: 130, top: 24 };
  const box = { x: 65, y: 12, width: 120, height: 20 };
  expect(placeLabels([box, box], tight)).toEqual([[0, 0], null]);
});

describe.each(Array.from({ length: 40 }, (_, i) => 4100 + i))('crowd of seed %i', (seed) => {
  test('no two labels meet and all are in the picture', () => {
    const random = seededRandom(seed);
    const boxes = Array.from({ length: 14 }, () => ({
      x: random.between(150, 450),
      y: random.between(100, 300),
      width: random.between(24, 190),
      height: random.between(18, 28),
    }));
    const shifts = placeLabels(boxes, room);
    expect(shifts).not.toContain(null);
    const placed = boxes.map((box, i) => rectangle(box, shifts[i] ?? [0, 0]));
    placed.forEach((a, i) => {
      expect(a.left).toBeGreaterThanOrEqual(room.left - 1e-6);
      expect(a.right).toBeLessThanOrEqual(room.right + 1e-6);
      expect(a.bottom).toBeGreaterThanOrEqual(room.bottom - 1e-6);
      expect(a.top).toBeLessThanOrEqual(room.top + 1e-6);
      for (const b of placed.slice(i + 1))
        expect(a.right <= b.left || b.right <= a.left || a.top <= b.bottom || b.top <= a.bottom).toBe(true);
    });
  });
});
