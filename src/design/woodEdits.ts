/**
 * Edits of how the wood looks: grain, colours, finish. Pure functions from a document to the next, as in edits.ts.
 */
import type { Design, Finish, Grain, StripGrain, StripLayer } from './document.ts';
import { updateSet } from './edits.ts';
import { timberById } from '../timber/timbers.ts';

/** Says how the blank's wood grew; null leaves it to grain.ts. A fibre along the axis has no azimuth. */
export function setGrain(design: Design, grain: Grain | null): Design {
  const { grain: _, ...blank } = design.blank;
  return { ...design, blank: grain ? { ...blank, grain: canonicalGrain(grain) } : blank };
}

function canonicalGrain({ along, azimuth_deg, pith_mm }: Grain): Grain {
  return {
    along,
    ...(along === 'across' && azimuth_deg !== undefined ? { azimuth_deg } : {}),
    ...(pith_mm ? { pith_mm } : {}),
  };
}

/** Shows a timber in a colour `#rrggbb`. A colour that it had under another of its names goes. */
export function setColor(design: Design, timber: string, color: string): Design {
  return withColors(design, { ...otherColors(design, timber), [timber]: color.toLowerCase() });
}

/** Shows a timber in its own colour again. */
export function clearColor(design: Design, timber: string): Design {
  const others = otherColors(design, timber);
  const before = Object.keys(design.colors ?? {}).length;
  return Object.keys(others).length === before ? design : withColors(design, others);
}

function otherColors({ colors = {} }: Design, timber: string): Record<string, string> {
  const id = timberById(timber)?.id;
  return Object.fromEntries(
    Object.entries(colors).filter(([name]) => name !== timber && timberById(name)?.id !== id),
  );
}

function withColors(design: Design, colors: Record<string, string>): Design {
  const { colors: _, ...rest } = design;
  return Object.keys(colors).length === 0 ? rest : { ...rest, colors };
}

/** Says how the fibre of a layer of a set's strips runs; null: along the strip's length, as where nothing is said. */
export function setStripGrain(design: Design, id: string, layer: number, grain: StripGrain | null): Design {
  const layers = design.sets.find((set) => set.id === id)?.strip.layers;
  if (!layers?.[layer]) return design;
  const changed = layerWithGrain(layers[layer], grain);
  return updateSet(design, id, { strip: { layers: layers.with(layer, changed) } });
}

/** A layer whose fibre runs so; along the strip's length is what a layer that says nothing means. */
function layerWithGrain({ timber, thickness_mm }: StripLayer, grain: StripGrain | null): StripLayer {
  return grain === null || grain === 'length' ? { timber, thickness_mm } : { timber, thickness_mm, grain };
}

/** Gives the turned piece a finish; null: oiled, as where nothing is said. */
export function setFinish(design: Design, finish: Finish | null): Design {
  if (!design.form) return design;
  const { finish: _, ...form } = design.form;
  return { ...design, form: finish ? { ...form, finish } : form };
}
