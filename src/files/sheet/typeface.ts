/**
 * The sheet's typeface as measured and set: Archivo in two weights, DejaVu Sans for the letters it lacks (SIL
 * Open Font License and the Bitstream Vera licence; both packages carry their licence). Sizes in points,
 * widths in millimetres.
 */
import * as fontkit from 'fontkit';
import type { Weight } from '../drawing/pen.ts';

/** Bytes of the font files (TrueType). */
export interface FontFiles {
  readonly regular: Uint8Array;
  readonly semibold: Uint8Array;
  readonly fallback: Uint8Array;
}

/** Which embedded font a run of text is set in; `fraction` sets digits round ⁄ small, as on a rule. */
export type Face = 'regular' | 'semibold' | 'regular-fraction' | 'semibold-fraction' | 'fallback';

export interface Run {
  readonly face: Face;
  readonly text: string;
}

/** Advances of the glyphs of a run, thousandths of the type size: with kerning, and as the font has them. */
export interface RunLayout {
  readonly advances: readonly number[];
  readonly natural: readonly number[];
}

export const MM_PER_PT = 25.4 / 72;

/** Stands for letters that neither font has. */
const UNKNOWN = '□';

const FRACTION = /(\d+⁄\d+)/;

export class Typeface {
  readonly #fonts: Readonly<Record<'regular' | 'semibold' | 'fallback', fontkit.Font>>;
  readonly #advances = new Map<string, number>();
  readonly #layouts = new Map<string, RunLayout>();

  constructor(files: FontFiles) {
    const open = (bytes: Uint8Array): fontkit.Font => {
      const font = fontkit.create(bytes as Buffer);
      if (!('layout' in font)) throw new Error('a collection of fonts where one font is expected');
      return font;
    };
    this.#fonts = {
      regular: open(files.regular),
      semibold: open(files.semibold),
      fallback: open(files.fallback),
    };
  }

  /** The text cut where the font changes; letters that no font has are replaced. */
  runs(text: string, weight: Weight): Run[] {
    const runs: { face: Face; text: string }[] = [];
    const add = (face: Face, letters: string) => {
      const last = runs[runs.length - 1];
      if (last?.face === face) last.text += letters;
      else runs.push({ face, text: letters });
    };
    for (const piece of text.split(FRACTION)) {
      if (FRACTION.test(piece)) {
        add(`${weight}-fraction`, piece);
        continue;
      }
      for (const letter of piece) {
        const code = letter.codePointAt(0) ?? 0;
        if (this.#fonts[weight].hasGlyphForCodePoint(code)) add(weight, letter);
        else add('fallback', this.#fonts.fallback.hasGlyphForCodePoint(code) ? letter : UNKNOWN);
      }
    }
    return runs;
  }

  layout(run: Run): RunLayout {
    const key = `${run.face} ${run.text}`;
    let layout = this.#layouts.get(key);
    if (!layout) {
      const font = this.#fontOf(run.face);
      const features = run.face.endsWith('-fraction') ? ['frac'] : [];
      const { glyphs, positions } = font.layout(run.text, features);
      const scale = 1000 / font.unitsPerEm;
      layout = {
        advances: positions.map((position) => position.xAdvance * scale),
        natural: glyphs.map((glyph) => glyph.advanceWidth * scale),
      };
      this.#layouts.set(key, layout);
    }
    return layout;
  }

  width_mm(text: string, size_pt: number, weight: Weight = 'regular'): number {
    const key = `${weight}${text}`;
    let advance = this.#advances.get(key);
    if (advance === undefined) {
      advance = this.runs(text, weight).reduce(
        (sum, run) => sum + this.layout(run).advances.reduce((a, b) => a + b, 0),
        0,
      );
      this.#advances.set(key, advance);
    }
    return (advance / 1000) * size_pt * MM_PER_PT;
  }

  /** Lines of at most `width_mm`; a word longer than a line is broken. */
  wrap(text: string, width_mm: number, size_pt: number, weight: Weight = 'regular'): string[] {
    const fits = (line: string) => this.width_mm(line, size_pt, weight) <= width_mm;
    const lines: string[] = [];
    for (const paragraph of text.split('\n')) {
      let line = '';
      for (const word of paragraph.split(/[ \t]+/)) {
        const longer = line === '' ? word : `${line} ${word}`;
        if (fits(longer)) {
          line = longer;
          continue;
        }
        if (line !== '') lines.push(line);
        line = '';
        for (const letter of word) {
          if (line !== '' && !fits(line + letter)) {
            lines.push(line);
            line = '';
          }
          line += letter;
        }
      }
      lines.push(line);
    }
    return lines;
  }

  /** The text, or as much of it as fits with an ellipsis. */
  fit(text: string, width_mm: number, size_pt: number, weight: Weight = 'regular'): string {
    if (this.width_mm(text, size_pt, weight) <= width_mm) return text;
    const letters = Array.from(text);
    let fits = 0;
    let tooLong = letters.length;
    while (tooLong - fits > 1) {
      const middle = (fits + tooLong) >> 1;
      if (this.width_mm(`${letters.slice(0, middle).join('')}…`, size_pt, weight) <= width_mm) fits = middle;
      else tooLong = middle;
    }
    return `${letters.slice(0, fits).join('').trimEnd()}…`;
  }

  #fontOf(face: Face): fontkit.Font {
    if (face === 'fallback') return this.#fonts.fallback;
    return this.#fonts[face.startsWith('regular') ? 'regular' : 'semibold'];
  }
}
