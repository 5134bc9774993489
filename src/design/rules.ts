/**
 * What the fields of a design mean for one another. Each rule looks only at parts whose own shape is sound, so
 * that one wrong field does not hide what is wrong elsewhere.
 */
import { cutOf, WEB_PLACES } from './cuts.ts';
import { DEFAULT_CUT, DEFAULT_SAW } from './defaults.ts';
import type { OutlinePoint } from './document.ts';
import { type Fault, pathText, quoted } from './faults.ts';
import { MAX_SLOTS } from './limits.ts';
import { slotIdsOf } from './order.ts';
import { courseFault } from './outlineCourse.ts';
import { isJsonObject, type JsonObject } from './places.ts';
import type { ShapedDesign } from './schema.ts';
import { sectionGeometry, support_mm } from './section.ts';

type Path = readonly PropertyKey[];
type Report = (path: Path, code: string, message: string) => void;

/**
 * Faults between the fields of a document that has the shape of a design wherever `isSound(path)` says so:
 * neither the value at the path nor anything in it or around it is wrong.
 */
export function ruleFaults(document: ShapedDesign, isSound: (path: Path) => boolean): Fault[] {
  const faults: Fault[] = [];
  const report: Report = (path, code, message) => faults.push({ path: pathText(path), code, message });
  depthRule(document, isSound, report);
  grainRule(document, isSound, report);
  idRule(document, isSound, report);
  webRule(document, isSound, report);
  webSideRule(document, isSound, report);
  orderRules(document, isSound, report);
  formRules(document, isSound, report);
  sawRule(document, isSound, report);
  workRule(document, isSound, report);
  priceRule(document, isSound, report);
  return faults;
}

function depthRule({ blank }: ShapedDesign, isSound: (path: Path) => boolean, report: Report): void {
  if (!isSound(['blank', 'section'])) return;
  const { shape, depth_mm } = blank.section;
  const path = ['blank', 'section', 'depth_mm'];
  if (shape === 'rectangle' && depth_mm === undefined)
    report(path, 'missing', 'is missing: a rectangle has a width and a depth');
  if (shape !== 'rectangle' && depth_mm !== undefined)
    report(path, 'depth-not-used', `only a rectangle has a depth, not a ${shape} blank`);
}

function grainRule({ blank }: ShapedDesign, isSound: (path: Path) => boolean, report: Report): void {
  if (!isSound(['blank', 'grain']) || blank.grain?.along !== 'axis') return;
  if (blank.grain.azimuth_deg !== undefined)
    report(
      ['blank', 'grain', 'azimuth_deg'],
      'azimuth-not-used',
      'only a fibre that runs across has a direction, not one along the axis',
    );
}

function idRule({ sets }: ShapedDesign, isSound: (path: Path) => boolean, report: Report): void {
  if (!Array.isArray(sets)) return;
  const firstWith = new Map<string, number>();
  sets.forEach((set, i) => {
    const path = ['sets', i, 'id'];
    if (!isSound(path)) return;
    const first = firstWith.get(set.id);
    if (first === undefined) firstWith.set(set.id, i);
    else report(path, 'id-taken', `${quoted(set.id)} is the id of sets[${first}] already`);
  });
}

function webRule({ blank, sets }: ShapedDesign, isSound: (path: Path) => boolean, report: Report): void {
  if (!isSound(['blank', 'section']) || !Array.isArray(sets)) return;
  const section = sectionGeometry(blank.section);
  sets.forEach((set, i) => {
    const path = ['sets', i, 'web_mm'];
    if (!isSound(path) || !isSound(['sets', i, 'fence_azimuths_deg'])) return;
    const { turn_deg } = WEB_PLACES[isSound(['sets', i, 'cut']) ? cutOf(set) : DEFAULT_CUT];
    const across_mm = (azimuth: number): number => 2 * support_mm(section, azimuth + turn_deg);
    const tooThin = set.fence_azimuths_deg.find((azimuth) => set.web_mm >= across_mm(azimuth));
    if (tooThin === undefined) return;
    const depth_mm = across_mm(tooThin);
    report(
      path,
      'web-too-wide',
      `${set.web_mm} is not below the depth across, ${depth_mm} at azimuth ${tooThin}`,
    );
  });
}

function webSideRule({ sets }: ShapedDesign, isSound: (path: Path) => boolean, report: Report): void {
  if (!Array.isArray(sets)) return;
  sets.forEach((set, i) => {
    const path = ['sets', i, 'web_side'];
    if (!isSound(path) || !isSound(['sets', i, 'cut'])) return;
    if (set.web_side !== undefined && !WEB_PLACES[cutOf(set)].hasSides)
      report(path, 'web-side-not-used', 'only a cut with the table tilted chooses the side of its web');
  });
}

function orderRules({ sets, order }: ShapedDesign, isSound: (path: Path) => boolean, report: Report): void {
  const missing = slotsIn(sets, isSound);
  if (!missing) return;
  const slots = sets.reduce((sum, set) => sum + set.fence_azimuths_deg.length, 0);
  if (slots > MAX_SLOTS) report(['sets'], 'too-many-slots', `have ${slots} slots; at most ${MAX_SLOTS}`);
  if (order === undefined || !isSound(['order'])) return;
  const known = new Set(missing);
  const firstAt = new Map<string, number>();
  order.forEach((id, i) => {
    const first = firstAt.get(id);
    if (first !== undefined)
      report(['order', i], 'order-repeats', `${quoted(id)} stands at order[${first}] already`);
    else if (!known.has(id)) report(['order', i], 'order-unknown', `${quoted(id)} is no slot of this design`);
    firstAt.set(id, first ?? i);
    missing.delete(id);
  });
  for (const id of missing) report(['order'], 'order-lacks', `${quoted(id)} is missing`);
}

/** Ids of all slots, or null when the sets do not tell them. */
function slotsIn(sets: ShapedDesign['sets'], isSound: (path: Path) => boolean): Set<string> | null {
  if (!Array.isArray(sets)) return null;
  const readable = sets.every(
    (_, i) => isSound(['sets', i, 'id']) && isSound(['sets', i, 'fence_azimuths_deg']),
  );
  return readable ? new Set(sets.flatMap(slotIdsOf)) : null;
}

/** Measures of slots that are not there; read from the file itself, because a key may be any text. */
export function madeFaults(document: JsonObject, isSound: (path: Path) => boolean): Fault[] {
  const { made, sets } = document;
  const slots = slotsIn(sets as ShapedDesign['sets'], isSound);
  if (!slots || !isJsonObject(made)) return [];
  return Object.keys(made)
    .filter((id) => !slots.has(id) && isSound(['made', id]))
    .map((id) => ({
      path: pathText(['made', id]),
      code: 'made-unknown',
      message: `${quoted(id)} is no slot of this design`,
    }));
}

function workRule({ sets, work }: ShapedDesign, isSound: (path: Path) => boolean, report: Report): void {
  if (!work || !Array.isArray(work.done)) return;
  const slots = slotsIn(sets, isSound);
  const firstAt = new Map<string, number>();
  work.done.forEach((step, i) => {
    const path = ['work', 'done', i];
    if (!isSound(path)) return;
    const first = firstAt.get(step);
    const slot = step.includes(':') ? step.slice(0, step.indexOf(':')) : null;
    if (first !== undefined)
      report(path, 'work-repeats', `${quoted(step)} stands at work.done[${first}] already`);
    else if (slots && slot !== null && !slots.has(slot))
      report(path, 'work-unknown', `${quoted(slot)} is no slot of this design`);
    firstAt.set(step, first ?? i);
  });
}

function priceRule({ offer }: ShapedDesign, isSound: (path: Path) => boolean, report: Report): void {
  if (offer === undefined || !isSound(['offer'])) return;
  if (offer.price !== undefined && offer.currency === undefined)
    report(['offer', 'currency'], 'missing', 'is missing: a price has a currency');
}

function formRules({ form }: ShapedDesign, isSound: (path: Path) => boolean, report: Report): void {
  if (!form) return;
  const outline = ['form', 'outline'];
  if (isSound(outline) && isSound(['form', 'loop'])) outlineRules(form.outline, form.loop === true, report);
  if (!Array.isArray(form.holes)) return;
  form.holes.forEach((hole, i) => {
    const path = ['form', 'holes', i];
    if (!isSound(path)) return;
    if (hole.from === 'side' && hole.z_mm === undefined)
      report([...path, 'z_mm'], 'missing', 'is missing: a hole from the side has a height');
    if (hole.from !== 'side' && hole.z_mm !== undefined)
      report(
        [...path, 'z_mm'],
        'z-not-used',
        `only a hole from the side has a height, not one from the ${hole.from}`,
      );
  });
}

function outlineRules(outline: readonly OutlinePoint[], loop: boolean, report: Report): void {
  const last = outline.length - 1;
  const off = (i: number, code: string, message: string): void =>
    report(['form', 'outline', i, 'r_mm'], code, `${outline[i].r_mm} ${message}`);
  if (loop)
    outline.forEach(({ r_mm }, i) => {
      if (r_mm === 0) off(i, 'outline-on-axis', 'is not above 0: a loop keeps off the axis');
    });
  else
    for (const i of [0, last])
      if (outline[i].r_mm !== 0)
        off(i, 'outline-off-axis', `is not 0: the outline ${i === 0 ? 'starts' : 'ends'} on the axis`);
  const misplaced = loop
    ? outline.some(({ r_mm }) => r_mm === 0)
    : outline[0].r_mm !== 0 || outline[last].r_mm !== 0;
  if (misplaced) return;
  const fault = courseFault(outline, loop);
  if (fault) report(['form', 'outline'], fault.code, fault.message);
}

function sawRule(document: ShapedDesign, isSound: (path: Path) => boolean, report: Report): void {
  if (!isSound(['saw'])) return;
  const saw = { ...DEFAULT_SAW, ...document.saw };
  if (saw.fence_min_deg <= saw.fence_max_deg) return;
  report(
    ['saw', 'fence_max_deg'],
    'fence-range',
    `${saw.fence_max_deg} is below fence_min_deg, ${saw.fence_min_deg}`,
  );
}
