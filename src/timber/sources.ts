/**
 * Where each number of timber/timbers.ts was read, and what is odd about it. Only the plan's small print and
 * the tests load this. Many documents were read in copies: a status V means read at the place named here.
 */
import type { Timber } from './timbers.ts';

/** The fields of a timber that have a source, in the order of the rows below. */
export const SOURCED_FIELDS = [
  'basicGravity',
  'gravityAt12',
  'independentBasicGravity',
  'movementRadial',
  'movementTangential',
  'shrinkageRadial_pct',
  'shrinkageTangential_pct',
  'shrinkageVolumetric_pct',
  'lab',
] as const satisfies readonly (keyof Timber)[];

export type SourcedField = (typeof SOURCED_FIELDS)[number];

// prettier-ignore
const SOURCES: readonly string[] = [
  'FPL-GTR-282 (2021) Table 5-3b, transcription github mark-brannan/xylarium data/species.json @c2711377d830e5886b78546f5221a0d02795d746',
  'GWDD v.2 species estimate (Fischer et al. 2026, Zenodo 10.5281/zenodo.18262736) via github umr-amap/BIOMASS data/wsg_estimates.rda @abd33c2233aa1ab1bb1f51947fd29f8db1df37c2',
  'FPL-GTR-190 (2010) Table 13-5, https://issuhub.com/view/index/5801?pageIndex=307',
  'FPL-GTR-190 (2010) Table 4-3, https://issuhub.com/view/index/5801?pageIndex=85',
  'memory estimate, no measured table could be read; expect +-5 L*, +-3 a*, +-4 b*; let the user override',
  'https://engdatabase.com/data/wood-properties/maple-sugar (cites USDA Wood Handbook)',
  'memory, unverified',
  'FPL-GTR-282 (2021) Table 5-3b, transcription github mark-brannan/xylarium fixtures/species-fixtures.json (metric printing, Table 5-3a) @c2711377d830e5886b78546f5221a0d02795d746',
  'http://synthmind.com/Tree_Species_Strength_Properties.htm (Wood Handbook strength table)',
  'derived here: C = S/(3000 - 20 S), S = shrinkage %; matches 66 of 72 published values (all 36 species readable in both excerpts) within 1e-5, the 6 misfits being green ash, sweet birch, cedar elm; S taken from verified 4.6 %; memory of Table 13-5 agrees (0.00158)',
  'derived here: C = S/(3000 - 20 S), S = shrinkage %; matches 66 of 72 published values (all 36 species readable in both excerpts) within 1e-5, the 6 misfits being green ash, sweet birch, cedar elm; S taken from verified 8.2 %; memory of Table 13-5 agrees (0.00289)',
  'FPL-GTR-282 (2021) Table 5-5b, transcription github mark-brannan/xylarium data/species.json @c2711377d830e5886b78546f5221a0d02795d746',
  'derived G12 = Gb/(1-0.265*0.6*Gb) (relation from memory of the Handbook, M)',
  'memory of Table 13-5; agrees with a secondary text',
  'FPL-GTR-190 (2010) Table 4-4, https://fliphtml5.com/kbpub/hdrb/Wood_Handbook/87 (OCR column order reconstructed from location codes)',
  'memory, unverified (a secondary text prints 0.00100)',
  'secondary: https://flooringartists.com/dimensional-change and http://highwayflooring.com/hardwood-floor-relative-stability (cite Wood Handbook 1987)',
  'derived here: C = S/(3000 - 20 S), S = shrinkage %; matches 66 of 72 published values (all 36 species readable in both excerpts) within 1e-5, the 6 misfits being green ash, sweet birch, cedar elm; S taken from memory 3.2 %',
  'memory, unverified (6.1 is what the verified CT implies)',
  'derived here: C = S/(3000 - 20 S), S = shrinkage %; matches 66 of 72 published values (all 36 species readable in both excerpts) within 1e-5, the 6 misfits being green ash, sweet birch, cedar elm; S taken from memory 3.3 %',
  'memory, unverified (5.2 is what the verified CT implies)',
  'derived here: C = S/(3000 - 20 S), S = shrinkage %; matches 66 of 72 published values (all 36 species readable in both excerpts) within 1e-5, the 6 misfits being green ash, sweet birch, cedar elm; S taken from memory',
];

interface Provenance {
  /** Index into SOURCES per field. */
  readonly fields: readonly number[];
  /** Standard deviation of the independent basic gravity. */
  readonly independentDeviation: number;
  readonly notes: readonly string[];
}

// prettier-ignore
const PROVENANCE: ReadonlyMap<string, Provenance> = new Map([
  ['black-walnut', { fields: [0, 0, 1, 2, 2, 3, 3, 3, 4], independentDeviation: 0.0375, notes: [] }],
  ['sugar-maple', { fields: [0, 0, 1, 2, 2, 5, 5, 5, 4], independentDeviation: 0.0535, notes: ['shrinkage row: Table 4-3 right half 4.8/9.9/14.7 read from https://engdatabase.com/data/wood-properties/maple-sugar (cites the Handbook)'] }],
  ['red-maple', { fields: [0, 0, 1, 2, 2, 6, 6, 6, 4], independentDeviation: 0.0421, notes: ['shrinkage M, but 4.0/8.2 are exactly what the verified CR/CT imply'] }],
  ['black-cherry', { fields: [7, 7, 1, 2, 2, 3, 3, 3, 4], independentDeviation: 0.0579, notes: ['darkens markedly in light'] }],
  ['yellow-birch', { fields: [0, 8, 1, 2, 2, 3, 3, 3, 4], independentDeviation: 0.054, notes: ['SG 0.62 at 12% from http://synthmind.com/Tree_Species_Strength_Properties.htm (same table); green 0.55 from the transcription'] }],
  ['white-ash', { fields: [0, 0, 1, 2, 2, 3, 3, 3, 4], independentDeviation: 0.0428, notes: [] }],
  ['white-oak', { fields: [0, 0, 1, 2, 2, 3, 3, 3, 4], independentDeviation: 0.0385, notes: ['CR/CT row is "White Oak, commercial"; shrinkage row is species White'] }],
  ['red-oak', { fields: [0, 0, 1, 2, 2, 6, 6, 6, 4], independentDeviation: 0.0442, notes: ['CR/CT row is "Red Oak, commercial"; 4.0/8.6 also in a secondary file'] }],
  ['yellow-poplar', { fields: [0, 0, 1, 9, 10, 3, 3, 3, 4], independentDeviation: 0.0426, notes: ['heartwood often green, fades to brown'] }],
  ['american-beech', { fields: [0, 0, 1, 2, 2, 3, 3, 3, 4], independentDeviation: 0.0459, notes: [] }],
  ['american-basswood', { fields: [0, 0, 1, 2, 2, 3, 3, 3, 4], independentDeviation: 0.0463, notes: [] }],
  ['honduran-mahogany', { fields: [11, 12, 1, 13, 13, 14, 14, 14, 4], independentDeviation: 0.0755, notes: ['published CR/CT (Table 13-5) do NOT follow from the Table 4-4 shrinkages (they would give 0.00102/0.00141): the two tables use different samples; CITES App. II (M)'] }],
  ['teak', { fields: [11, 12, 1, 15, 16, 6, 6, 6, 4], independentDeviation: 0.0604, notes: ['CT 0.00186 implies S_T 5.4 %, not 5.8 %: tables differ'] }],
  ['purpleheart', { fields: [11, 12, 1, 17, 16, 18, 18, 18, 4], independentDeviation: 0.059, notes: ['GWDD row is P. venosa; turns purple then brown in light'] }],
  ['african-padauk', { fields: [1, 12, 1, 19, 16, 20, 20, 20, 4], independentDeviation: 0.0948, notes: ['Handbook row: absent from Tables 5-3b/5-5b (checked); GWDD v.2 value used', 'not in Handbook Table 5-5; red-orange fading to brown; dust stains neighbours when sanding'] }],
  ['bubinga', { fields: [11, 12, 1, 21, 21, 6, 6, 6, 4], independentDeviation: 0.064, notes: ['CITES App. II for the three species (M)'] }],
  ['wenge', { fields: [1, 12, 1, 21, 16, 6, 6, 6, 4], independentDeviation: 0.0545, notes: ['Handbook row: absent from Tables 5-3b/5-5b (checked); GWDD v.2 value used', 'conflict: CT 0.00201 implies S_T 5.8 %, memory says 8.1 % (CT 0.00285); use 0.00285 as the careful value'] }],
  ['african-ebony', { fields: [1, 12, 1, 21, 21, 6, 6, 6, 4], independentDeviation: 0.1272, notes: ['Handbook row: absent from Tables 5-3b/5-5b (checked); GWDD v.2 value used', 'not in Handbook Table 5-5'] }],
  ['bloodwood', { fields: [1, 12, 1, 21, 21, 6, 6, 6, 4], independentDeviation: 0.1427, notes: ['Handbook row: absent from Tables 5-3b/5-5b (checked); GWDD v.2 value used', 'trade timber is heavier (basic about 0.90, M)'] }],
  ['american-holly', { fields: [1, 12, 1, 21, 21, 6, 6, 6, 4], independentDeviation: 0.0363, notes: ['Handbook row: absent from Tables 5-3b/5-5b (checked); GWDD v.2 value used', 'not in Table 5-3b; older FPL tables give basic 0.50 (M)'] }],
  ['sapele', { fields: [11, 12, 1, 21, 21, 6, 6, 6, 4], independentDeviation: 0.0605, notes: [] }],
  ['indian-rosewood', { fields: [11, 12, 1, 21, 21, 6, 6, 6, 4], independentDeviation: 0.1052, notes: ['CITES App. II (M)'] }],
]);

function provenanceOf(timber: Timber): Provenance {
  const provenance = PROVENANCE.get(timber.id);
  if (!provenance) throw new Error(`no sources are recorded for ${timber.id}`);
  return provenance;
}

/** Where a number of a timber was read or how it was computed. */
export function sourceOf(timber: Timber, field: SourcedField): string {
  return SOURCES[provenanceOf(timber).fields[SOURCED_FIELDS.indexOf(field)]];
}

/** Conflicts between sources and habits of the timber worth knowing; may be empty. */
export function notesOn(timber: Timber): readonly string[] {
  return provenanceOf(timber).notes;
}

/** Standard deviation of the independent basic gravity, as its source gives it. */
export function independentDeviationOf(timber: Timber): number {
  return provenanceOf(timber).independentDeviation;
}
