/** The date of every entry of a zip that is written: the oldest that a zip can hold, because the bytes must not tell when. */
export const ZIP_DATE = new Date('1980-01-01T00:00:00');
