/**
 * Amounts of money: how many decimals a currency has, and how an amount is written. Both come from the data of the
 * platform (Intl, which follows ISO 4217 and Unicode CLDR). Amounts in whole units of the currency.
 */

/** Decimals of a currency: 2 for EUR, 0 for JPY; 2 for letters that are no known currency. */
export function decimalsOf(currency: string): number {
  return formatOf(currency).resolvedOptions().maximumFractionDigits ?? 2;
}

/** `€240.50`, `CA$95.00`, `¥12,000`; letters that are no known currency stand before the amount. */
export function moneyText(amount: number, currency: string): string {
  return formatOf(currency).format(amount);
}

const formats = new Map<string, Intl.NumberFormat>();

function formatOf(currency: string): Intl.NumberFormat {
  let format = formats.get(currency);
  if (!format) formats.set(currency, (format = new Intl.NumberFormat('en', { style: 'currency', currency })));
  return format;
}

/** The amount in the smallest parts of the currency, rounded to the nearest, half of one up. */
export function inSmallest(amount: number, currency: string): number {
  // Twelve digits: 1.005 is meant, not the 1.00499999999999989… that a double holds.
  return Math.round(Number((amount * 10 ** decimalsOf(currency)).toPrecision(12)));
}

/** Back from smallest parts. */
export function fromSmallest(smallest: number, currency: string): number {
  return Number((smallest / 10 ** decimalsOf(currency)).toPrecision(15));
}

/** The sign that stands for the currency in an amount: `€`, `CA$`, or its letters. */
export function currencySign(currency: string): string {
  const parts = formatOf(currency).formatToParts(0);
  return parts.find(({ type }) => type === 'currency')?.value ?? currency;
}
