/**
 * The sheet's typeface as measured and set: Archivo in two weights, DejaVu Sans for the letters it lacks (SIL
 * Open Font License and the Bitstream Vera licence; both packages carry their licence). Sizes in points,
 * widths in millimetres.
 */
import * as fontkit from 'fontkit';
import { MM_PER_POINT, type Weight } from '../drawing/pen.ts';
import { stretchesOf } from './direction.ts';

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

/** Stands for letters that neither font has. */
const UNKNOWN = '□';

/** More than the kerning at the spaces of a line adds up to. */
const AT_THE_EDGE_MM = 1.5;

const FRACTION = /(\d+⁄\d+)/;

/** The font of a file; the same text with the same features is shaped once. */
function shapingOnce(bytes: Uint8Array): fontkit.Font {
  const font = fontkit.create(bytes as Buffer);
  if (!('layout' in font)) throw new Error('a collection of fonts where one font is expected');
  const shape = font.layout.bind(font);
  const shaped = new Map<string, ReturnType<fontkit.Font['layout']>>();
  font.layout = (text, features) => {
    const key = `${JSON.stringify(features ?? {})} ${text}`;
    let run = shaped.get(key);
    if (run === undefined) {
      run = shape(text, features);
      shaped.set(key, run);
    }
    return run;
  };
  return font;
}

export class Typeface {
  readonly #fonts: Readonly<Record<'regular' | 'semibold' | 'fallback', fontkit.Font>>;
  readonly #advances = new Map<string, number>();
  readonly #layouts = new Map<string, RunLayout>();

  /**
   * Opens the same files for embedding. A font shapes each run once, whether it is measured or set: shaping is most of
   * the work that text makes.
   */
  readonly fontkit: { readonly create: (bytes: Uint8Array) => fontkit.Font };

  constructor(files: FontFiles) {
    const opened = new Map<Uint8Array, fontkit.Font>();
    const open = (bytes: Uint8Array): fontkit.Font => {
      let font = opened.get(bytes);
      if (font === undefined) {
        font = shapingOnce(bytes);
        opened.set(bytes, font);
      }
      return font;
    };
    this.fontkit = { create: open };
    this.#fonts = {
      regular: open(files.regular),
      semibold: open(files.semibold),
      fallback: open(files.fallback),
    };
  }

  /**
   * The line cut where the font or the direction changes, from left to right; letters that no font has are replaced. Marks
   * are joined to their letters first (NFC), because the fonts have letters with their marks.
   */
  runs(text: string, weight: Weight): Run[] {
    const runs: { face: Face; text: string }[] = [];
    for (const stretch of stretchesOf(text.normalize('NFC'))) {
      // The letters of a stretch from the right are shaped together, spaces and all; only the fallback has them.
      if (stretch.rightToLeft) runs.push({ face: 'fallback', text: this.#known(stretch.text, 'fallback') });
      else this.#addRuns(runs, stretch.text, weight);
    }
    return runs;
  }

  #addRuns(runs: { face: Face; text: string }[], text: string, weight: Weight): void {
    const first = runs.length;
    const add = (face: Face, letters: string) => {
      const last = runs[runs.length - 1];
      if (runs.length > first && last.face === face) last.text += letters;
      else runs.push({ face, text: letters });
    };
    for (const piece of text.split(FRACTION)) {
      if (FRACTION.test(piece)) {
        add(`${weight}-fraction`, piece);
        continue;
      }
      for (const letter of piece) {
        if (this.#has(weight, letter)) add(weight, letter);
        else add('fallback', this.#known(letter, 'fallback'));
      }
    }
  }

  #has(font: Weight | 'fallback', letter: string): boolean {
    return this.#fonts[font].hasGlyphForCodePoint(letter.codePointAt(0) ?? 0);
  }

  #known(text: string, font: Weight | 'fallback'): string {
    return Array.from(text, (letter) => (this.#has(font, letter) ? letter : UNKNOWN)).join('');
  }

  layout(run: Run): RunLayout {
    const key = `${run.face} ${run.text}`;
    let layout = this.#layouts.get(key);
    if (!layout) {
      const font = this.#fontOf(run.face);
      const features: Record<string, boolean> = run.face.endsWith('-fraction') ? { frac: true } : {};
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
    return (advance / 1000) * size_pt * MM_PER_POINT;
  }

  /** Lines of at most `width_mm`; a word longer than a line is broken. */
  wrap(text: string, width_mm: number, size_pt: number, weight: Weight = 'regular'): string[] {
    const width = (line: string) => this.width_mm(line, size_pt, weight);
    const space = width(' ');
    const lines: string[] = [];
    for (const paragraph of text.split('\n')) {
      let line = '';
      // The line's width without kerning at its spaces: near the edge it is measured as it is set.
      let about = 0;
      const fits = (longer: string, wide: number) =>
        Math.abs(wide - width_mm) > AT_THE_EDGE_MM ? wide < width_mm : width(longer) <= width_mm;
      for (const word of paragraph.split(/[ \t]+/)) {
        const longer = line === '' ? word : `${line} ${word}`;
        const wide = (line === '' ? 0 : about + space) + width(word);
        if (fits(longer, wide)) {
          line = longer;
          about = wide;
          continue;
        }
        if (line !== '') lines.push(line);
        line = word;
        about = width(word);
        if (about <= width_mm) continue;
        line = '';
        for (const letter of word) {
          if (line !== '' && width(line + letter) > width_mm) {
            lines.push(line);
            line = '';
          }
          line += letter;
        }
        about = width(line);
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
