/**
 * The date of every entry of a zip that is written: the oldest that a zip can hold, because the bytes must not tell when.
 * Zips hold local time, so it is made anew each time: the zone of the machine may have changed since.
 */
export function zipDate(): Date {
  return new Date('1980-01-01T00:00:00');
}
