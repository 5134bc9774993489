/** Labels of the line of moments: the end is always named, and no two labels touch, at any width and length. */
import { expect, test } from 'vitest';
import { momentsOf } from '../../src/blank/moments.ts';
import { markLabels } from '../../src/panels/moments/markLabels.ts';
import { fourRings, slotSet } from '../fixtures/designs.ts';

const designs = [1, 4, 8, 24, 96].map((cuts) =>
  fourRings({
    sets: [slotSet({ fence_azimuths_deg: Array.from({ length: cuts }, (_, i) => (i * 90) % 360) })],
  }),
);

test.each(
  designs.flatMap((design) =>
    [250, 360, 600, 1400].map((width) => [design.order.length, width, design] as const),
  ),
)('%d cuts on %d px', (_cuts, width, design) => {
  const moments = momentsOf(design);
  const labels = markLabels(moments, width);
  expect(labels.get(moments.length - 1)).toBe('Finished');
  const spans = [...labels]
    .map(([index, text]) => {
      const half = (text.length * 7) / 2;
      const centre = (index / (moments.length - 1)) * width;
      return { left: Math.max(Math.min(centre, width + 8 - half) - half, -8), text };
    })
    .sort((a, b) => a.left - b.left);
  for (let i = 1; i < spans.length; i++)
    expect(spans[i].left - spans[i - 1].left).toBeGreaterThanOrEqual(spans[i - 1].text.length * 7);
  expect(labels.size).toBeGreaterThan(1);
});
