/** Calendar dates as texts: `YYYY-MM-DD` (ISO 8601), years 1900 to 9999. */

/** Whether the text is a day that the calendar has. */
export function isCalendarDate(text: string): boolean {
  const parts = /^(19|[2-9]\d)\d\d-\d\d-\d\d$/.exec(text);
  if (!parts) return false;
  const time_ms = Date.parse(`${text}T00:00:00Z`);
  return Number.isFinite(time_ms) && new Date(time_ms).toISOString().startsWith(text);
}

/** The day that a moment falls on where the device is. */
export function dateOf(moment: Date): string {
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${moment.getFullYear()}-${two(moment.getMonth() + 1)}-${two(moment.getDate())}`;
}

/** `3 March 2027`: a date as it is read, from its text; `text` itself where it is no date. */
export function dateText(text: string): string {
  if (!isCalendarDate(text)) return text;
  const [year, month, day] = text.split('-').map(Number);
  return `${day} ${MONTHS[month - 1]} ${year}`;
}

const MONTHS = [
  'January',
  'February',
  'March',
  'April',
  'May',
  'June',
  'July',
  'August',
  'September',
  'October',
  'November',
  'December',
] as const;
