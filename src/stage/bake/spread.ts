/**
 * Fills what the islands of a picture leave free: next to an island with the colours at its border, so that none but its
 * own are mixed in where the picture is seen small or at a slant, and the rest with one middling colour. RGBA, in place.
 */

/** How far an island's colours reach beyond it, as a share of the picture's side (8 pixels of 2048). */
const REACH = 1 / 256;
const NEIGHBOURS = [
  [-1, 0],
  [1, 0],
  [0, -1],
  [0, 1],
  [-1, -1],
  [1, -1],
  [-1, 1],
  [1, 1],
] as const;

export function spreadColours(data: Uint8ClampedArray, size_px: number): void {
  const mean = meanOf(data);
  const drawn = (x: number, y: number): boolean =>
    x >= 0 && y >= 0 && x < size_px && y < size_px && data[4 * (y * size_px + x) + 3] > 0;
  let front: number[] = [];
  for (let y = 0; y < size_px; y++)
    for (let x = 0; x < size_px; x++)
      if (!drawn(x, y) && NEIGHBOURS.some(([dx, dy]) => drawn(x + dx, y + dy))) front.push(y * size_px + x);
  for (let step = 0; step < Math.round(size_px * REACH) && front.length > 0; step++) {
    const colours = front.map((pixel) => around(pixel));
    front.forEach((pixel, i) => {
      data.set(colours[i], 4 * pixel);
      data[4 * pixel + 3] = 255;
    });
    const next = new Set<number>();
    for (const pixel of front) {
      const x = pixel % size_px;
      const y = (pixel - x) / size_px;
      for (const [dx, dy] of NEIGHBOURS) {
        const inside = x + dx >= 0 && y + dy >= 0 && x + dx < size_px && y + dy < size_px;
        if (inside && !drawn(x + dx, y + dy)) next.add((y + dy) * size_px + x + dx);
      }
    }
    front = [...next];
  }
  for (let at = 0; at < data.length; at += 4) {
    if (data[at + 3] > 0) continue;
    data.set(mean, at);
    data[at + 3] = 255;
  }

  /** Mean colour of the neighbours that are drawn. */
  function around(pixel: number): [number, number, number] {
    const x = pixel % size_px;
    const y = (pixel - x) / size_px;
    const sum: [number, number, number] = [0, 0, 0];
    let count = 0;
    for (const [dx, dy] of NEIGHBOURS) {
      if (!drawn(x + dx, y + dy)) continue;
      const at = 4 * ((y + dy) * size_px + x + dx);
      for (let k = 0; k < 3; k++) sum[k] += data[at + k];
      count++;
    }
    return [sum[0] / count, sum[1] / count, sum[2] / count];
  }
}

function meanOf(data: Uint8ClampedArray): [number, number, number] {
  const sum: [number, number, number] = [0, 0, 0];
  let count = 0;
  for (let at = 0; at < data.length; at += 4) {
    if (data[at + 3] === 0) continue;
    for (let k = 0; k < 3; k++) sum[k] += data[at + k];
    count++;
  }
  if (count === 0) throw new Error('Nothing of the wood was drawn.');
  return [sum[0] / count, sum[1] / count, sum[2] / count];
}
