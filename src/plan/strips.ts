/**
 * The strips to prepare: what to cut, from what stock. Millimetres.
 *
 * A strip is a plate: its thickness across the kerf, its depth down the slope of the slot, its length along the
 * blade; its fibre runs along one of the two. Pieces are sawn off a billet one after the other, each followed by
 * one saw cut; strips of one timber, thickness and direction of the fibre come from one billet. A strip of several
 * layers needs one piece per layer.
 */
import type { Design, SlotId, StripGrain } from '../design/document.ts';
import { stripGrainOf } from '../design/grain.ts';
import { slotsOf } from '../blank/slots.ts';
import { asMadeOf } from './made.ts';
import { stripThickness_mm } from './setups.ts';

export interface StripPiece {
  /** Down the slope, overhang included. */
  readonly depth_mm: number;
  /** Along the blade, overhang included. */
  readonly length_mm: number;
  /** Slots that take a piece of this size, in cutting order; one twice where two layers are alike. */
  readonly slots: readonly SlotId[];
}

export interface StripGroup {
  readonly timber: string;
  readonly thickness_mm: number;
  /** Which way the fibre of its pieces runs. */
  readonly grain: StripGrain;
  /** Pieces of one size together, the largest first. */
  readonly pieces: readonly StripPiece[];
  /** Pieces that the work takes. */
  readonly count: number;
  /** Pieces to cut beyond that. */
  readonly spare: number;
  readonly stock: Stock;
}

/** A billet that yields the pieces of a group, all cut to the largest size of it. */
export interface Stock {
  /** The largest depth of a piece. */
  readonly depth_mm: number;
  /** The largest length of a piece. */
  readonly length_mm: number;
  /** Sum of the slices and of the cuts between them. */
  readonly thickness_mm: number;
  /** Part of the billet that becomes dust. */
  readonly kerfLoss_mm3: number;
}

/** A thin blade, 0.040 in (common practice). */
const USUAL_SLICE_KERF_MM = 1.016;

/** Kerf of the saw that slices the strips: that of the test cut, where it is known. */
export function sliceKerfOf_mm({ saw }: Pick<Design, 'saw'>): number {
  return saw.blade_kerf_mm ?? USUAL_SLICE_KERF_MM;
}

export interface StockOptions {
  /** Kerf of the saw that slices the strips. */
  readonly sliceKerf_mm: number;
  /** Spare pieces for a number of pieces; one for every four by default (common practice). */
  readonly spareFor?: (count: number) => number;
}

/** Thicknesses closer than this are the same; far below what a strip is held to. */
const SAME_MM = 1e-6;

/** Strips of a valid design, to fit what was measured, by timber, thickness and grain, in the order in which they are first needed. */
export function stripGroups(design: Design, options: StockOptions): StripGroup[] {
  const made = asMadeOf(design);
  const spareFor = options.spareFor ?? ((count) => Math.ceil(count / 4));
  const groups: { timber: string; thickness_mm: number; grain: StripGrain; pieces: StripPiece[] }[] = [];
  slotsOf(design).forEach((slot, n) => {
    const { strip_depth_mm: depth_mm, strip_length_mm: length_mm, strip_mm } = made[n];
    const planned_mm = stripThickness_mm(slot);
    for (const layer of slot.layers) {
      const { timber } = layer;
      const thickness_mm =
        strip_mm === planned_mm ? layer.thickness_mm : (layer.thickness_mm * strip_mm) / planned_mm;
      const grain = stripGrainOf(layer);
      let group = groups.find(
        (g) => g.timber === timber && same(g.thickness_mm, thickness_mm) && g.grain === grain,
      );
      if (!group) groups.push((group = { timber, thickness_mm, grain, pieces: [] }));
      const alike = group.pieces.findIndex((p) => same(p.depth_mm, depth_mm) && same(p.length_mm, length_mm));
      if (alike < 0) group.pieces.push({ depth_mm, length_mm, slots: [slot.id] });
      else group.pieces[alike] = { ...group.pieces[alike], slots: [...group.pieces[alike].slots, slot.id] };
    }
  });
  return groups.map(({ timber, thickness_mm, grain, pieces }) => {
    const sorted = [...pieces].sort((a, b) => b.depth_mm * b.length_mm - a.depth_mm * a.length_mm);
    const count = pieces.reduce((sum, piece) => sum + piece.slots.length, 0);
    const spare = spareFor(count);
    return {
      timber,
      thickness_mm,
      grain,
      pieces: sorted,
      count,
      spare,
      stock: billet(sorted, thickness_mm, count + spare, options.sliceKerf_mm),
    };
  });
}

function billet(pieces: readonly StripPiece[], thickness_mm: number, slices: number, kerf_mm: number): Stock {
  const depth_mm = Math.max(...pieces.map((piece) => piece.depth_mm));
  const length_mm = Math.max(...pieces.map((piece) => piece.length_mm));
  const cuts_mm = (slices - 1) * kerf_mm;
  return {
    depth_mm,
    length_mm,
    thickness_mm: slices * thickness_mm + cuts_mm,
    kerfLoss_mm3: cuts_mm * depth_mm * length_mm,
  };
}

export interface Board {
  readonly length_mm: number;
  readonly width_mm: number;
  readonly thickness_mm: number;
}

/**
 * Pieces that one board yields, its grain along its length: cut to billets end to end and side by side (each
 * cut costs a kerf), every billet sliced through its thickness.
 */
export function piecesFromBoard(group: StripGroup, board: Board, sliceKerf_mm: number): number {
  const fit = (whole_mm: number, piece_mm: number) =>
    Math.floor((whole_mm + sliceKerf_mm) / (piece_mm + sliceKerf_mm) + 1e-9);
  const { depth_mm, length_mm } = group.stock;
  const [along_mm, across_mm] = group.grain === 'depth' ? [depth_mm, length_mm] : [length_mm, depth_mm];
  return (
    fit(board.length_mm, along_mm) *
    fit(board.width_mm, across_mm) *
    fit(board.thickness_mm, group.thickness_mm)
  );
}

/** Boards of one size that a group takes, spare pieces included; null when a board yields no piece at all. */
export function boardsFor(group: StripGroup, board: Board, sliceKerf_mm: number): number | null {
  const each = piecesFromBoard(group, board, sliceKerf_mm);
  return each === 0 ? null : Math.ceil((group.count + group.spare) / each);
}

function same(a_mm: number, b_mm: number): boolean {
  return Math.abs(a_mm - b_mm) < SAME_MM;
}
