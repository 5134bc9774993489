/** One cut at the saw: the drawing of the shop sheet, on screen. */
import { useMemo } from 'react';
import type { CutKind, Design } from '../../design/document.ts';
import { formatAngle, formatLength, formatThickness } from '../../design/lengthText.ts';
import type { Item } from '../../files/drawing/pen.ts';
import { Pen } from '../../files/drawing/pen.ts';
import { drawSetup } from '../../files/drawing/setup.ts';
import type { Setup } from '../../plan/setups.ts';
import { slotsFor } from '../derived.ts';
import { timberColour } from '../timberColour.ts';
import { DrawingSvg } from './DrawingSvg.tsx';

/** What the drawing shows, for those who do not see it. */
const SEEN: Readonly<Record<CutKind, string>> = {
  fence: 'seen from above: the blank against the fence, stop and blade',
  table: 'seen along the feed and down on the table: the blank at the ledge, blade and web',
};

const WIDTH_MM = 104;
const HEIGHT_MM = 66;

export function SetupFigure({ design, setup }: { design: Design; setup: Setup }) {
  const items = useMemo(() => figureOf(design, setup), [design, setup]);
  return (
    <DrawingSvg
      items={items}
      width_mm={WIDTH_MM}
      height_mm={HEIGHT_MM}
      label={`Cut ${setup.slot} ${SEEN[setup.cut]}`}
    />
  );
}

function figureOf(design: Design, setup: Setup): readonly Item[] {
  const slots = slotsFor(design);
  const index = slots.findIndex((slot) => slot.id === setup.slot);
  const colour = (id: string) => timberColour(design, id);
  const pen = new Pen();
  drawSetup(pen, WIDTH_MM, HEIGHT_MM, {
    design,
    setup,
    slot: slots[index],
    filled: slots.slice(0, index),
    colours: { body: colour(design.blank.timber), timber: colour },
    labels: {
      angle: formatAngle(setup.fence_angle_deg),
      stop: formatLength(setup.stop_to_kerf_center_mm, design.unit),
      web: `web ${formatThickness(setup.blade_stop_mm, design.unit)}`,
    },
  });
  return pen.items;
}
