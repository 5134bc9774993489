/**
 * Lathe speed for a diameter: a rule of thumb, not a limit of any machine. Diameter in inches × rpm between
 * 6,000 and 9,000, the low end for rough or unbalanced stock (quoted as "numerous recommendations" in a
 * woodturners' forum, https://aawforum.org/community/index.php?threads/speed.17020/; no primary standard
 * found). It is a rim speed of 8.0 to 12.0 m/s (π · D · n).
 */

import { MM_PER_INCH } from '../design/units.ts';

const LOW_INCH_RPM = 6000;
const HIGH_INCH_RPM = 9000;

export interface SpeedRange {
  /** Where to start, and for rough or unbalanced stock. */
  readonly low_rpm: number;
  readonly high_rpm: number;
}

/** Range of speed for a diameter, not rounded. */
export function latheSpeed(diameter_mm: number): SpeedRange {
  const inches = diameter_mm / MM_PER_INCH;
  return { low_rpm: LOW_INCH_RPM / inches, high_rpm: HIGH_INCH_RPM / inches };
}
