/**
 * The timbers: what is known of each, and how well. Every number carries its status letter:
 *
 *   V   read in a published document     D   computed from V values
 *   DM  computed, an input or the relation is from memory     M   from memory, unverified
 *
 * Where each number was read stands in timber/sources.ts (kept apart: the stage does not need it). Gravities
 * are dimensionless (oven-dry mass over volume, water = 1), movement is the fraction of a dimension per
 * percentage point of moisture content between 6 and 14 %, shrinkage is in % from green to oven-dry, colour
 * is CIELAB (D65, 2°) of planed, unfinished, fresh heartwood: an estimate of about ±5 L*, ±3 a*, ±4 b*.
 */

export type Status = 'V' | 'D' | 'DM' | 'M';

export interface Known {
  readonly value: number;
  readonly status: Status;
}

export type Lab = readonly [L: number, a: number, b: number];

export interface Timber {
  readonly id: string;
  readonly name: string;
  readonly botanicalName: string;
  /** Oven-dry mass over green volume. */
  readonly basicGravity: Known;
  /** Oven-dry mass over volume at 12 % moisture content. */
  readonly gravityAt12: Known;
  /** Basic gravity by a second, independent collection; shows how far a species spreads. */
  readonly independentBasicGravity: Known;
  readonly movementRadial: Known;
  readonly movementTangential: Known;
  readonly shrinkageRadial_pct: Known;
  readonly shrinkageTangential_pct: Known;
  readonly shrinkageVolumetric_pct: Known;
  /** Status M for every timber. */
  readonly lab: Lab;
  /** The same colour as #rrggbb. */
  readonly srgb: string;
}

/** `values`: gravities (basic, at 12 %, independent), movement (radial, tangential), shrinkage (R, T, V). */
function row(
  id: string,
  name: string,
  botanicalName: string,
  values: string,
  lab: Lab,
  srgb: string,
): Timber {
  const known = values.split(' ').map((cell): Known => {
    const status = cell.replace(/^[0-9.]+/, '');
    return { value: Number.parseFloat(cell), status: status as Status };
  });
  return {
    id,
    name,
    botanicalName,
    basicGravity: known[0],
    gravityAt12: known[1],
    independentBasicGravity: known[2],
    movementRadial: known[3],
    movementTangential: known[4],
    shrinkageRadial_pct: known[5],
    shrinkageTangential_pct: known[6],
    shrinkageVolumetric_pct: known[7],
    lab,
    srgb,
  };
}

// prettier-ignore
export const TIMBERS: readonly Timber[] = [
  row('black-walnut', 'Black walnut', 'Juglans nigra', '0.51V 0.55V 0.5317V 0.0019V 0.00274V 5.5V 7.8V 12.8V', [46, 7.5, 15], '#826854'),
  row('sugar-maple', 'Hard (sugar) maple', 'Acer saccharum', '0.56V 0.63V 0.62V 0.00165V 0.00353V 4.8V 9.9V 14.7V', [78, 6, 20], '#dabc9c'),
  row('red-maple', 'Soft (red) maple', 'Acer rubrum', '0.49V 0.54V 0.5012V 0.00137V 0.00289V 4.0M 8.2M 12.6M', [74, 7, 19], '#d0b094'),
  row('black-cherry', 'Black cherry', 'Prunus serotina', '0.47V 0.5V 0.5654V 0.00126V 0.00248V 3.7V 7.1V 11.5V', [62, 11, 22], '#b68e6f'),
  row('yellow-birch', 'Yellow birch', 'Betula alleghaniensis', '0.55V 0.62V 0.5622V 0.00256V 0.00338V 7.3V 9.5V 16.8V', [76, 6.5, 20], '#d5b697'),
  row('white-ash', 'White ash', 'Fraxinus americana', '0.55V 0.6V 0.5954V 0.00169V 0.00274V 4.9V 7.8V 13.3V', [77, 5, 19], '#d5ba9b'),
  row('white-oak', 'White oak', 'Quercus alba', '0.6V 0.68V 0.6597V 0.0018V 0.00365V 5.6V 10.5V 16.3V', [66, 6.5, 20], '#b99b7d'),
  row('red-oak', 'Northern red oak', 'Quercus rubra', '0.56V 0.63V 0.6102V 0.00158V 0.00369V 4.0M 8.6M 13.7M', [67, 8.5, 21], '#bf9d7e'),
  row('yellow-poplar', 'Yellow-poplar', 'Liriodendron tulipifera', '0.4V 0.42V 0.4397V 0.00158D 0.00289D 4.6V 8.2V 12.7V', [69, 0.5, 22], '#b8a781'),
  row('american-beech', 'American beech', 'Fagus grandifolia', '0.56V 0.64V 0.6105V 0.0019V 0.00431V 5.5V 11.9V 17.2V', [69, 8.5, 19], '#c4a287'),
  row('american-basswood', 'American basswood', 'Tilia americana', '0.32V 0.37V 0.3273V 0.0023V 0.0033V 6.6V 9.3V 15.8V', [80, 4, 19], '#dcc3a3'),
  row('honduran-mahogany', 'Honduran (genuine) mahogany', 'Swietenia macrophylla', '0.45V 0.48DM 0.4859V 0.00172M 0.00238M 3.0V 4.1V 7.8V', [53, 14, 22], '#a17559'),
  row('teak', 'Teak', 'Tectona grandis', '0.55V 0.6DM 0.5683V 0.00101M 0.00186V 2.5M 5.8M 7.0M', [57, 9, 25], '#a6825e'),
  row('purpleheart', 'Purpleheart', 'Peltogyne spp.', '0.67V 0.75DM 0.7125V 0.00109DM 0.00212V 3.2M 6.1M 9.9M', [43, 16, 5], '#825c5e'),
  row('african-padauk', 'African padauk', 'Pterocarpus soyauxii', '0.6131V 0.68DM 0.6131V 0.00112DM 0.0018V 3.3M 5.2M 7.6M', [46, 29, 31], '#a5583a'),
  row('bubinga', 'Bubinga', 'Guibourtia spp. (tessmannii, demeusei, pellegriniana)', '0.71V 0.8DM 0.7569V 0.00201DM 0.00297DM 5.8M 8.4M 14.2M', [47, 16, 17], '#926554'),
  row('wenge', 'Wenge', 'Millettia laurentii', '0.7039V 0.79DM 0.7039V 0.00165DM 0.00201V 4.8M 8.1M 12.9M', [36, 5.5, 9], '#635147'),
  row('african-ebony', 'African (Gaboon) ebony', 'Diospyros crassiflora', '0.7866V 0.9DM 0.7866V 0.00327DM 0.00388DM 9.2M 10.8M 19.6M', [27, 1.5, 2], '#433f3d'),
  row('bloodwood', 'Bloodwood', 'Brosimum rubescens', '0.7733V 0.88DM 0.7733V 0.00158DM 0.00245DM 4.6M 7.0M 11.7M', [41, 27, 22], '#924e3e'),
  row('american-holly', 'American holly', 'Ilex opaca', '0.5527V 0.61DM 0.5527V 0.00165DM 0.00353DM 4.8M 9.9M 16.9M', [86, 1, 12], '#e3d6c1'),
  row('sapele', 'Sapele', 'Entandrophragma cylindricum', '0.55V 0.6DM 0.5795V 0.00158DM 0.00259DM 4.6M 7.4M 14.0M', [50, 14, 20], '#986d56'),
  row('indian-rosewood', 'Indian rosewood', 'Dalbergia latifolia', '0.75V 0.85DM 0.6685V 0.00092DM 0.00201DM 2.7M 5.8M 8.5M', [38, 9, 11], '#6e5448'),
];

/** Names that a design may use for a timber of the list. The design keeps the name that it uses. */
export const TIMBER_ALIASES: ReadonlyMap<string, string> = new Map([
  ['hard-maple', 'sugar-maple'],
  ['soft-maple', 'red-maple'],
]);

const BY_ID: ReadonlyMap<string, Timber> = new Map(TIMBERS.map((timber) => [timber.id, timber]));

/** The timber of an id or alias, or undefined. */
export function timberById(id: string): Timber | undefined {
  return BY_ID.get(TIMBER_ALIASES.get(id) ?? id);
}
