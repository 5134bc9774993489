/** One line about a starter design: its rings, its timbers, the blank that it takes. Sizes in the display unit. */
import type { Design, DisplayUnit } from '../design/document.ts';
import { formatLength, ruleReading } from '../design/lengthText.ts';
import { inSentence, shortTimberName } from '../timber/names.ts';

/** `4 rings, hard maple in black walnut, 3 × 3 × 9 in`. The size stays on one line. */
export function starterLine(design: Design, unit: DisplayUnit): string {
  const count = design.order.length;
  const strips = design.sets.flatMap(({ strip }) =>
    strip.layers.map(({ timber }) => inSentence(shortTimberName(timber))),
  );
  const timbers = `${listed([...new Set(strips)])} in ${inSentence(shortTimberName(design.blank.timber))}`;
  const size = blankSize(design, unit).replaceAll(' ', '\u00a0');
  return `${count} ${count === 1 ? 'ring' : 'rings'}, ${timbers}, ${size}`;
}

function listed(words: readonly string[]): string {
  return words.length < 2
    ? words.join('')
    : `${words.slice(0, -1).join(', ')} and ${words[words.length - 1]}`;
}

/** Width, depth where it has one of its own or is square, and length: as the blank is found on the rack. */
function blankSize({ blank: { section, length_mm } }: Design, unit: DisplayUnit): string {
  const square = section.shape === 'square' ? section.width_mm : undefined;
  const depth_mm = section.depth_mm ?? square;
  const sizes = [section.width_mm, ...(depth_mm === undefined ? [] : [depth_mm]), length_mm];
  return `${sizes.map((size) => plainSize(size, unit)).join(' × ')} ${unit}`;
}

/** As a rule shows it where a rule shows it exactly. */
function plainSize(size_mm: number, unit: DisplayUnit): string {
  const rule = ruleReading(size_mm);
  if (unit === 'in' && Math.abs(rule.residual_mm) < 0.005) return rule.text;
  return formatLength(size_mm, unit).replace(/ (in|mm)$/, '');
}
