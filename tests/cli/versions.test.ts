/**
 * The real command on files of both versions, and on drilled pieces and loops: volumes in closed form, models
 * read back by the tests' own readers.
 */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { validateBytes } from 'gltf-validator';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Design } from '../../src/design/document.ts';
import { CURRENT_VERSION } from '../../src/design/migrations.ts';
import type { Report } from '../../src/plan/report.ts';
import { cylinderForm, fourRings } from '../fixtures/designs.ts';
import { read3mf } from '../files/read3mf.ts';
import { solidFaults } from '../oracles/closed.ts';
import { signedVolume } from '../files/solids.ts';
import { kerfweave } from './kerfweave.ts';

const FROZEN = join(process.cwd(), 'tests/fixtures/designs');
let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'kerfweave-versions-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));
const at = (name: string) => join(folder, name);

function file(name: string, content: unknown): string {
  writeFileSync(at(name), JSON.stringify(content));
  return at(name);
}

/** A cylinder of radius 30 with a cup of radius 11, 25 deep, and a hole of radius 3 up the foot, off the axis, 40 deep. */
const DRILLED: Design = fourRings({
  form: {
    ...cylinderForm(203.2, 30),
    holes: [
      { from: 'head', diameter_mm: 22, depth_mm: 25 },
      { from: 'foot', diameter_mm: 6, depth_mm: 40, offset_mm: 15, azimuth_deg: 20 },
    ],
  },
});
const DRILLED_mm3 = Math.PI * (900 * 203.2 - 121 * 25 - 9 * 40);

const BANGLE: Design = fourRings({
  section: { shape: 'square', width_mm: 90 },
  length_mm: 30,
  // Short across, so the fibre runs across: a web that holds (docs/report.md, web-cross-grain).
  set: { center_mm: 15, angle_deg: 80, web_mm: 3.5 },
  form: {
    outline: [
      { z_mm: 5, r_mm: 36 },
      { z_mm: 25, r_mm: 36 },
      { z_mm: 25, r_mm: 30 },
      { z_mm: 5, r_mm: 30 },
    ],
    loop: true,
  },
});
/** Pappus: section times the path of its centroid. */
const BANGLE_mm3 = 20 * 6 * 2 * Math.PI * 33;

describe('files of every version', () => {
  it('are valid', async () => {
    const names = [
      'v1-everything',
      'v1-shortest',
      'v2-everything',
      'v2-bangle',
      'v3-everything',
      'v4-everything',
    ];
    const outcomes = await Promise.all(
      names.map((name) => kerfweave('check', join(FROZEN, `${name}.design.json`))),
    );
    for (const { exit, out, errors } of outcomes) {
      expect([exit, errors]).toEqual([0, []]);
      expect(out).toMatch(/^valid: /);
    }
  });

  it('an old one with a new field, and a newer one, are refused in a line per fault', async () => {
    const [old, newer] = await Promise.all([
      kerfweave('check', file('old.json', { ...DRILLED, version: 1 })),
      kerfweave('check', file('newer.json', { ...DRILLED, version: CURRENT_VERSION + 1, unit: 'ell' })),
    ]);
    expect(old).toEqual({
      exit: 1,
      out: '',
      errors: [
        'form.holes: is a field of version 2; this file says version 1',
        'saw.table_tilt_max_deg: is a field of version 3; this file says version 1',
      ],
    });
    expect(newer).toEqual({
      exit: 1,
      out: '',
      errors: [
        `version: ${CURRENT_VERSION + 1} is newer than ${CURRENT_VERSION}, the newest that this Kerfweave reads`,
      ],
    });
  });
});

describe.each([
  ['a drilled cylinder', DRILLED, DRILLED_mm3],
  ['a bangle', BANGLE, BANGLE_mm3],
])('%s', (name, design, whole_mm3) => {
  it('is reported with its wood alone', async () => {
    const { exit, out, errors } = await kerfweave('report', file(`${name}.json`, design));
    expect([exit, errors]).toEqual([0, []]);
    const { turned, rings, messages } = JSON.parse(out) as Report;
    expect((turned?.volume_mm3 ?? 0) / whole_mm3).toBeCloseTo(1, 8);
    const parts = Object.values(turned?.parts_mm3 ?? {});
    expect(parts.reduce((sum, part) => sum + part, 0) / whole_mm3).toBeCloseTo(1, 8);
    expect(messages).toEqual([]);
    // Rings are those of the outline's surface: the span is 2 r cot θ.
    const { angle_deg } = design.sets[0];
    const radius_mm = design.form?.outline[1].r_mm ?? 0;
    for (const ring of rings ?? [])
      expect(ring.span_mm).toBeCloseTo((2 * radius_mm) / Math.tan((angle_deg * Math.PI) / 180), 8);
  });

  it('is written as closed solids', async () => {
    const source = file(`${name}.json`, design);
    const outcomes = await Promise.all([
      kerfweave('model', source, '-o', at('piece.3mf')),
      kerfweave('model', source, '-o', at('piece.glb')),
    ]);
    expect(outcomes.map(({ exit, errors }) => [exit, errors])).toEqual([
      [0, []],
      [0, []],
    ]);
    const solids = read3mf(readFileSync(at('piece.3mf')))
      .objects.filter(({ triangles }) => triangles.length > 0)
      .map((object) => ({
        name: object.name,
        positions_mm: Float64Array.from(object.positions),
        triangles: Uint32Array.from(object.triangles),
        volume_mm3: signedVolume(object.positions, object.triangles),
      }));
    expect(solids.map((solid) => solid.name)).toEqual(['body', ...design.order]);
    expect(solids.flatMap((solid) => solidFaults(solid, whole_mm3))).toEqual([]);
    const sum = solids.reduce((total, { volume_mm3 }) => total + volume_mm3, 0);
    // 256 facets: low by 0.01 %.
    expect(Math.abs(sum / whole_mm3 - 1)).toBeLessThan(1.2e-4);
    const glb = Uint8Array.from(readFileSync(at('piece.glb')));
    expect((await validateBytes(glb)).issues.messages).toEqual([]);
  });
});
