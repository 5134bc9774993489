/** How a number field reads, writes and steps each kind of number. Values are mm, degrees or plain numbers. */
import type { DisplayUnit } from '../../design/document.ts';
import { formatAngle, formatLength, formatThickness } from '../../design/lengthText.ts';
import { MM_PER_INCH, parseAngle, parseLength, type Typed } from '../../design/units.ts';

export interface Quantity {
  /** Value of a typed text, or the reason why it is none. */
  readonly parse: (text: string) => Typed;
  readonly format: (value: number) => string;
  /** Step of an arrow key and of a drag. */
  readonly step: number;
}

/** Places and sizes of the blank and the form: sixteenths of an inch or half millimetres. */
export function lengthQuantity(unit: DisplayUnit): Quantity {
  return {
    parse: (text) => parseLength(text, unit),
    format: (value) => formatLength(value, unit),
    step: unit === 'in' ? MM_PER_INCH / 16 : 0.5,
  };
}

/** Kerfs, webs and strips: thousandths of an inch or hundredths of a millimetre. */
export function thicknessQuantity(unit: DisplayUnit): Quantity {
  return {
    parse: (text) => parseLength(text, unit),
    format: (value) => formatThickness(value, unit),
    step: unit === 'in' ? MM_PER_INCH / 1000 : 0.02,
  };
}

export const ANGLE: Quantity = { parse: parseAngle, format: formatAngle, step: 0.5 };

export const COUNT: Quantity = {
  parse: (text) => {
    const value = Number(text.trim());
    if (text.trim() === '' || !Number.isInteger(value))
      return { ok: false, reason: 'a whole number is needed' };
    return { ok: true, value };
  },
  format: String,
  step: 1,
};

/** A whole number of things, each with its name: `1 slot`, `20 min`; typed with or without it. */
export function counted(one: string, many = `${one}s`): Quantity {
  const named = new RegExp(`\\s*(${many}|${one})$`, 'i');
  return {
    parse: (text) => COUNT.parse(text.trim().replace(named, '')),
    format: (value) => `${value} ${value === 1 ? one : many}`,
    step: 1,
  };
}

export const MINUTES = counted('min', 'min');

/** What need not be known: 0 stands for it, shown and typed in words or as an empty field. */
export function unlessUnknown(quantity: Quantity): Quantity {
  return {
    ...quantity,
    parse: (text) => (/^(|not known)$/i.test(text.trim()) ? { ok: true, value: 0 } : quantity.parse(text)),
    format: (value) => (value === 0 ? 'not known' : quantity.format(value)),
  };
}
