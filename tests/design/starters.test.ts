/**
 * The starter designs of assets/designs: each a valid file as the app would write it, each makeable: every ring
 * whole, no warning from the plan.
 */
import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { ringsOf } from '../../src/blank/rings.ts';
import { slotsOf } from '../../src/blank/slots.ts';
import type { Design } from '../../src/design/document.ts';
import { parseDesign } from '../../src/design/parse.ts';
import { serializeDesign } from '../../src/design/serialize.ts';
import { flattenOutline } from '../../src/geometry/outline.ts';
import { messagesOf } from '../../src/plan/messages.ts';
import { colourDifference, LOW_CONTRAST_DE00 } from '../../src/timber/colour.ts';
import { timberById } from '../../src/timber/timbers.ts';

const FOLDER = new URL('../../assets/designs/', import.meta.url);
const NAMES = readdirSync(FOLDER).toSorted();

function opened(name: string): { text: string; design: Design } {
  const text = readFileSync(new URL(name, FOLDER), 'utf8');
  const result = parseDesign(text);
  if (!result.ok) throw new Error(`${name}: ${JSON.stringify(result.faults)}`);
  return { text, design: result.design };
}

const design = (stem: string): Design => opened(NAMES.find((name) => name.includes(stem)) ?? stem).design;

describe('the starter designs', () => {
  it('are ten: pen, stopper, handle, candle stick, vase, goblet, box, two bowls and a column', () => {
    expect(NAMES.map((name) => name.replace(/^\d+-.*?-?(\w+)\.json$/, '$1'))).toEqual([
      'stick',
      'bowl',
      'column',
      'pen',
      'stopper',
      'handle',
      'vase',
      'goblet',
      'box',
      'bowl',
    ]);
  });

  it('have the rings that they are there for', () => {
    expect(design('candle-stick').order).toHaveLength(4);
    expect(design('tide-bowl').order).toHaveLength(8);
    expect(design('column').order).toHaveLength(24);
    // Hollow: the outline comes back inside, over a rim.
    for (const hollow of ['tide-bowl', 'orchard-bowl', 'vase', 'goblet', 'box']) {
      const { form, blank } = design(hollow);
      expect(form?.outline.at(-1)?.z_mm, hollow).toBeLessThan(0.6 * blank.length_mm);
    }
  });

  it('are drilled where they are used: cup of the candle stick, bore of the pen, tang of the handle', () => {
    const holes = (stem: string) => design(stem).form?.holes?.map(({ from, depth_mm }) => [from, depth_mm]);
    expect(holes('candle-stick')).toEqual([['head', 25.4]]);
    expect(holes('pen')).toEqual([
      ['foot', null],
      ['head', 100],
    ]);
    expect(holes('handle')).toEqual([['foot', 45]]);
    for (const name of ['tide-bowl', 'orchard-bowl']) expect(design(name).blank.grain?.along).toBe('across');
  });

  it('show something of every section but the ones nobody starts with', () => {
    const shapes = new Set(NAMES.map((name) => opened(name).design.blank.section.shape));
    expect(shapes).toEqual(new Set(['square', 'hexagon', 'octagon']));
  });

  it.each(NAMES)('%s is written as the app writes it, under its own name', (name) => {
    const { text, design: starter } = opened(name);
    // A file of an older version stays as it is; the app would write its number anew, and what it fills in.
    const anew = text
      .replace(/"version": [12],/, '"version": 4,')
      .replace(/("clamp_minutes": \d+)\n/, '$1,\n    "table_tilt_max_deg": 45\n');
    expect(serializeDesign(starter)).toBe(anew);
    const words = name.replace(/^\d+-|\.json$/g, '').replaceAll('-', ' ');
    expect(starter.name).toBe(words.charAt(0).toUpperCase() + words.slice(1));
  });

  it.each(NAMES)('%s has only whole rings and nothing to warn of', (name) => {
    const { design: starter } = opened(name);
    const rings = ringsOf(slotsOf(starter), flattenOutline(starter.form!.outline));
    expect(rings).toHaveLength(starter.order.length);
    for (const ring of rings)
      expect(ring, ring.slot).toMatchObject({ whole: true, missing_mm: 0, runsOff: [] });
    expect(messagesOf(starter).filter((message) => message.level === 'warning')).toEqual([]);
  });

  it.each(NAMES)('%s has strips that stand out from their ground', (name) => {
    const { design: starter } = opened(name);
    const ground = timberById(starter.blank.timber)!;
    for (const set of starter.sets)
      for (const edge of [set.strip.layers[0], set.strip.layers.at(-1)!])
        expect(colourDifference(ground.lab, timberById(edge.timber)!.lab)).toBeGreaterThan(LOW_CONTRAST_DE00);
  });
});
