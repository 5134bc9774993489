/**
 * The quote: one page for a client with the piece from the side and laid flat, what it is made of, its size and weight,
 * the price and what goes with it, and how to look after it. Nothing of the maker's rates. The same design and options
 * give the same bytes. Millimetres on paper, y up.
 */
import { holeCylinder } from '../../blank/holes.ts';
import { slotsOf, type Slot } from '../../blank/slots.ts';
import { sectionGeometry } from '../../blank/section.ts';
import { blockVolumes, turnedVolumes } from '../../blank/volumes.ts';
import { dateText } from '../../design/dates.ts';
import type { Design } from '../../design/document.ts';
import type { Profile } from '../../geometry/outline.ts';
import { careOf } from '../../plan/care.ts';
import { measuredProfile } from '../../plan/measures.ts';
import { madeOf, priceText, sizeText, termsOf } from '../../plan/offerText.ts';
import { massText } from '../../plan/wording.ts';
import { weightOf } from '../../plan/wood.ts';
import { flatsOf } from '../drawing/faces.ts';
import { INK, INK_FAINT, INK_SOFT, RULE } from '../drawing/ink.ts';
import { Pen, type Item } from '../drawing/pen.ts';
import {
  cylinderProfile,
  drawBlockSide,
  drawFlats,
  drawTurnedSide,
  drawUnrolled,
  outsideLength_mm,
  type PieceColours,
} from '../drawing/piece.ts';
import { looksOf } from '../look.ts';
import { MARGIN_MM, PAPERS, type PaperName } from '../sheet/frame.ts';
import { writePdf } from '../sheet/pdf.ts';
import { Typeface, type FontFiles } from '../sheet/typeface.ts';
import { inSentence } from '../../timber/names.ts';

export interface QuoteOptions {
  readonly paper: PaperName;
  /** Name and address of the maker, as it is to stand on the page; may be empty. */
  readonly maker: string;
  /** `YYYY-MM-DD`. */
  readonly made_on: string;
  /** Name of the choice where there are several. */
  readonly variant: string | null;
}

const LEAST_PICTURE_MM = 46;
const MOST_PICTURE_MM = 118;
const FACING_RAD = Math.PI / 4;
/** Wood of a heated room. */
const MOISTURE_PCT = 8;
const FINISHES = { raw: 'left bare', oiled: 'oiled', gloss: 'high gloss' } as const;

/** Bytes of the PDF; the design must be valid. */
export function quotePage(design: Design, options: QuoteOptions, fonts: FontFiles): Promise<Uint8Array> {
  const typeface = new Typeface(fonts);
  const { width_mm, height_mm } = PAPERS[options.paper];
  const title = design.name.trim() === '' ? 'Untitled' : design.name;
  const items: Item[] = [];
  new QuoteWriter(new Pen(items), typeface, width_mm, height_mm).write(design, title, options);
  return writePdf([{ width_mm, height_mm, items }], { title, subject: 'Quote' }, fonts, typeface);
}

class QuoteWriter {
  private readonly pen: Pen;
  private readonly typeface: Typeface;
  private readonly left = MARGIN_MM + 4;
  private readonly right: number;
  private readonly foot = MARGIN_MM + 6;
  private y: number;

  constructor(pen: Pen, typeface: Typeface, width_mm: number, height_mm: number) {
    this.pen = pen;
    this.typeface = typeface;
    this.right = width_mm - this.left;
    this.y = height_mm - MARGIN_MM - 4;
  }

  write(design: Design, title: string, { maker, made_on, variant }: QuoteOptions): void {
    const { pen, left, right } = this;
    const date = dateText(made_on);
    const room = right - left - this.typeface.width_mm(date, 10) - 8;
    pen.text([left, this.y], this.typeface.fit(maker, room, 10, 'semibold'), {
      size_pt: 10,
      weight: 'semibold',
      colour: INK,
    });
    pen.text([right, this.y], date, { size_pt: 10, align: 'right', colour: INK_SOFT });
    this.y -= 3.5;
    this.rule();
    this.y -= 11;
    this.words(title, 26, 'semibold', INK, 2);
    if (variant !== null) this.words(variant, 14, 'regular', INK_SOFT, 1);
    this.words(madeOf(design), 11, 'regular', INK_SOFT, 2);
    const below = this.belowLines(design);
    const height = Math.max(
      LEAST_PICTURE_MM,
      Math.min(MOST_PICTURE_MM, this.y - this.foot - 8 - below.height_mm),
    );
    this.pictures(design, height);
    below.write(this.y - this.foot - 4);
    this.footer();
  }

  private rule(): void {
    this.pen.line([this.left, this.y], [this.right, this.y], { colour: RULE, width_mm: 0.25 });
  }

  /** Lines from the present place down, as many as there may be, the last one cut short if there are more. */
  private words(
    text: string,
    size_pt: number,
    weight: 'regular' | 'semibold',
    colour: string,
    most: number,
  ): void {
    const step = size_pt * 0.46;
    for (const line of this.wrapped(text, size_pt, weight, most, this.right - this.left)) {
      this.pen.text([this.left, this.y], line, { size_pt, weight, colour });
      this.y -= step;
    }
    // What follows is set smaller.
    this.y += Math.max(0, step - 7.5);
  }

  private wrapped(
    text: string,
    size_pt: number,
    weight: 'regular' | 'semibold',
    most: number,
    width: number,
  ): string[] {
    const lines = this.typeface.wrap(text, width, size_pt, weight);
    if (lines.length <= most) return lines;
    return [...lines.slice(0, most - 1), this.typeface.fit(`${lines[most - 1]} …`, width, size_pt, weight)];
  }

  /** Everything under the pictures, measured before it is written, so that the pictures take what is left. */
  private belowLines(design: Design): {
    readonly height_mm: number;
    readonly write: (room_mm: number) => void;
  } {
    const { offer, choice } = design;
    const facts = factsOf(design);
    const price = priceText(offer);
    const terms = termsOf(offer);
    const parts: { readonly title: string; readonly text: string }[] = [
      ...(offer?.note === undefined ? [] : [{ title: 'About it', text: offer.note }]),
      { title: 'Care', text: careOf(design) },
      ...(choice === undefined
        ? []
        : [
            {
              title: 'Chosen',
              text: `on ${dateText(choice.made_on)}${choice.by === undefined ? '' : ` by ${choice.by}`}`,
            },
          ]),
    ];
    const width = this.right - this.left - TEXT_INDENT_MM;
    const lines = parts.map(({ text }) => this.wrapped(text, 9.5, 'regular', MOST_LINES, width));
    const priced = price === null ? 0 : 16;
    const height_mm =
      facts.length * ROW_MM +
      lines.reduce((sum, one) => sum + one.length * ROW_MM + 2, 0) +
      Math.max(priced, terms.length * ROW_MM + 4) +
      8;
    const write = (room_mm: number): void => {
      const last = this.y - room_mm;
      for (const [name, value] of facts) this.row(name, [value]);
      this.y -= 2;
      this.rule();
      this.y -= 6;
      this.price(price, terms);
      this.rule();
      this.y -= 6;
      parts.forEach(({ title }, i) => {
        const later = lines
          .slice(i + 1)
          .reduce((sum, one) => sum + Math.min(one.length, KEPT_LINES) + 0.5, 0);
        const fitting = Math.max(1, Math.floor((this.y - last) / ROW_MM - later));
        const shown = lines[i].slice(0, fitting);
        if (shown.length < lines[i].length)
          shown[shown.length - 1] = this.typeface.fit(`${shown[shown.length - 1]} …`, width, 9.5);
        this.row(title, shown);
        this.y -= 2;
      });
    };
    return { height_mm, write };
  }

  private row(name: string, lines: readonly string[]): void {
    this.pen.text([this.left, this.y], name, { size_pt: 9.5, weight: 'semibold', colour: INK });
    for (const line of lines) {
      this.pen.text([this.left + TEXT_INDENT_MM, this.y], line, { size_pt: 9.5, colour: INK });
      this.y -= ROW_MM;
    }
  }

  private price(price: string | null, terms: readonly string[]): void {
    const top = this.y;
    if (price !== null) {
      this.pen.text([this.left, top - 6], price, { size_pt: 24, weight: 'semibold', colour: INK });
      this.y -= 12;
    }
    const room =
      this.right - this.left - (price === null ? 0 : this.typeface.width_mm(price, 24, 'semibold') + 10);
    terms.forEach((term, i) =>
      this.pen.text([this.right, top - 2 - i * ROW_MM], this.typeface.fit(term, room, 9.5), {
        size_pt: 9.5,
        align: 'right',
        colour: INK_SOFT,
      }),
    );
    this.y = Math.min(this.y, top - terms.length * ROW_MM) + (price === null && terms.length === 0 ? 4 : 0);
  }

  private footer(): void {
    const text =
      'Drawn from the design itself. Wood is grown: colour and figure of the piece will be its own.';
    this.pen.text([this.left, MARGIN_MM], text, { size_pt: 7.5, colour: INK_FAINT });
  }

  private pictures(design: Design, height: number): void {
    const slots = slotsOf(design);
    const looks = looksOf(design);
    const timber = (id: string) => looks(id).srgb;
    const colours: PieceColours = { body: timber(design.blank.timber), timber };
    const profile = profileOf(design);
    const { side, map } = profile
      ? turnedPictures(slots, profile, colours)
      : squarePictures(design, slots, colours);
    const width = this.right - this.left;
    const gap = 12;
    const scale = Math.min(
      (width - gap) / (side.wide + map.wide),
      (height - 8) / Math.max(side.tall, map.tall),
    );
    const spare = (width - gap - (side.wide + map.wide) * scale) / 2;
    const tallest = Math.max(side.tall, map.tall) * scale;
    const bottom = this.y - tallest;
    const rise = (tall: number) => bottom + (tallest - tall * scale) / 2;
    side.draw(this.pen.within([this.left + spare + (side.wide / 2) * scale, rise(side.tall)], scale));
    const mapLeft = this.right - spare - map.wide * scale;
    map.draw(this.pen.within([mapLeft, rise(map.tall)], scale));
    const caption = { size_pt: 7, colour: INK_FAINT, align: 'center' } as const;
    this.pen.text([this.left + spare + (side.wide / 2) * scale, bottom - 4], 'From the side', caption);
    const words = profile ? 'Its outside laid flat' : 'Its faces side by side';
    this.pen.text([mapLeft + (map.wide / 2) * scale, bottom - 4], words, caption);
    this.y = bottom - 13;
  }
}

const ROW_MM = 4.8;
const TEXT_INDENT_MM = 26;
const MOST_LINES = 22;
/** Lines of a text that the one before it leaves room for. */
const KEPT_LINES = 4;

interface Picture {
  readonly wide: number;
  readonly tall: number;
  /** Side view: about its axis, from its foot; laid flat: from its lower left corner. */
  readonly draw: (pen: Pen) => void;
}

function turnedPictures(
  slots: readonly Slot[],
  profile: Profile,
  colours: PieceColours,
): { side: Picture; map: Picture } {
  const outside = profile.r_mm.slice(profile.outsideStart, profile.outsideEnd + 1);
  const radius = Math.max(...outside);
  const foot = profile.z_mm[profile.outsideStart];
  const around = 2 * Math.PI * radius;
  return {
    side: {
      wide: 2 * radius,
      tall: profile.z_mm[profile.outsideEnd] - foot,
      draw: (pen) => drawTurnedSide(pen.within([0, -foot]), slots, profile, colours, FACING_RAD),
    },
    map: {
      wide: around,
      tall: outsideLength_mm(profile),
      draw: (pen) => drawUnrolled(pen, slots, profile, colours, FACING_RAD - Math.PI, around),
    },
  };
}

function squarePictures(
  design: Design,
  slots: readonly Slot[],
  colours: PieceColours,
): { side: Picture; map: Picture } {
  const section = sectionGeometry(design.blank.section);
  const { length_mm } = design.blank;
  const around = flatsOf(section).reduce((sum, flat) => sum + flat.to_mm - flat.from_mm, 0);
  return {
    side: {
      wide: 2 * section.circumscribedRadius_mm,
      tall: length_mm,
      draw: (pen) => drawBlockSide(pen, slots, section, length_mm, colours, 25),
    },
    map: {
      wide: around,
      tall: length_mm,
      draw: (pen) => void drawFlats(pen, slots, section, length_mm, colours),
    },
  };
}

/** The profile that is drawn: the form's, or a round blank's own. */
function profileOf({ form, blank }: Design): Profile | null {
  if (form) return measuredProfile(form);
  return blank.section.shape === 'round'
    ? cylinderProfile(blank.section.width_mm / 2, blank.length_mm)
    : null;
}

function factsOf(design: Design): [name: string, value: string][] {
  const looks = looksOf(design);
  const strips = [
    ...new Set(design.sets.flatMap((set) => set.strip.layers.map(({ timber }) => looks(timber).name))),
  ];
  const facts: [string, string][] = [['Body', looks(design.blank.timber).name]];
  if (strips.length > 0)
    facts.push(['Rings', `${design.order.length}, of ${strips.map(inSentence).join(', ')}`]);
  facts.push(['Size', sizeText(design)]);
  facts.push(['Weight', `about ${massText(massOf_g(design), design.unit)}`]);
  if (design.form) facts.push(['Finish', FINISHES[design.form.finish ?? 'oiled']]);
  return facts;
}

function massOf_g(design: Design): number {
  const slots = slotsOf(design);
  const section = sectionGeometry(design.blank.section);
  const { form, blank } = design;
  if (!form)
    return weightOf(design, slots, blockVolumes(slots, section, blank.length_mm), MOISTURE_PCT).mass_g;
  const profile = measuredProfile(form);
  const holes = (form.holes ?? []).map((hole) => holeCylinder(hole, form, profile));
  const volumes = turnedVolumes(slots, profile, section, blank.length_mm, holes);
  return weightOf(design, slots, volumes, MOISTURE_PCT).mass_g;
}
