/** An address as a QR code (ISO/IEC 18004), as one SVG path of dark squares. */
import { encode } from 'uqr';

export interface QrCode {
  /** Modules across, quiet zone included. */
  readonly size: number;
  /** Dark modules, one unit each. */
  readonly path: string;
}

/** Characters that still make a code which a phone reads off a wall; the standard's own end is 2953. */
export const MAX_QR_CHARACTERS = 1_200;

/** The quiet zone that the standard asks for. */
const QUIET = 4;

/** null: too long for a code that can be read. */
export function qrCodeOf(address: string): QrCode | null {
  if (address.length > MAX_QR_CHARACTERS) return null;
  const { data, size } = encode(address, { ecc: 'M', border: QUIET, boostEcc: true });
  const runs = data.flatMap((row, y) => {
    const parts: string[] = [];
    for (let x = 0; x < row.length; x++) {
      if (!row[x]) continue;
      const from = x;
      while (row[x + 1]) x++;
      parts.push(`M${from} ${y}h${x + 1 - from}v1H${from}z`);
    }
    return parts;
  });
  return { size, path: runs.join('') };
}
