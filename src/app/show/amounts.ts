/** How number fields read and write amounts, hours and percentages. */
import { MM_PER_INCH } from '../../design/units.ts';
import { currencySign, moneyText } from '../../plan/money.ts';
import type { Quantity } from '../../panels/fields/quantity.ts';

/** A number typed with a point or a comma, and thousands set apart if there is a point too. */
function plainNumber(text: string): number | null {
  const bare = text.trim().replace(/\s/g, '');
  const plain = /^\d{1,3}(,\d{3})+(\.\d+)?$/.test(bare)
    ? bare.replaceAll(',', '')
    : bare.replace(/^(\d+),(\d+)$/, '$1.$2');
  return /^(\d+\.?\d*|\.\d+)$/.test(plain) ? Number(plain) : null;
}

const needed = { ok: false, reason: 'a number is needed' } as const;

/** Amounts of a currency: `240.5`, `240,50`, `€240.50`. */
export function amountQuantity(currency: string): Quantity {
  return {
    parse: (text) => {
      const value = plainNumber(withoutSigns(text, currency));
      return value === null ? needed : { ok: true, value };
    },
    format: (value) => moneyText(value, currency),
    step: 1,
  };
}

/** A price that need not be said: 0 is none. */
export function priceQuantity(currency: string): Quantity {
  const amount = amountQuantity(currency);
  return {
    parse: (text) => (/^(none)?$/i.test(text.trim()) ? { ok: true, value: 0 } : amount.parse(text)),
    format: (value) => (value === 0 ? 'none' : amount.format(value)),
    step: amount.step,
  };
}

function withoutSigns(text: string, currency: string): string {
  return text.replaceAll(currency, '').replaceAll(currencySign(currency), '');
}

function numberWith(unit: string, step: number): Quantity {
  return {
    parse: (text) => {
      const value = plainNumber(text.replace(unit, ''));
      return value === null ? needed : { ok: true, value };
    },
    format: (value) => `${Number(value.toFixed(2))} ${unit}`,
    step,
  };
}

export const HOURS: Quantity = numberWith('h', 0.25);
export const PERCENT: Quantity = numberWith('%', 1);

/** A board foot: 144 cubic inches. */
export const BOARD_FEET_PER_M3 = 1e9 / (144 * MM_PER_INCH ** 3);
