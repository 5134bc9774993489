/** The real command on designs of closed-form volume, its files read back by the tests' own readers. */
import { mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { validateBytes } from 'gltf-validator';
import { STLLoader } from 'three/examples/jsm/loaders/STLLoader.js';
import { afterAll, beforeAll, describe, expect, it, vi } from 'vitest';
import { run } from '../../src/cli/model.ts';
import type { Design } from '../../src/design/document.ts';
import { cylinderForm, fourRings } from '../fixtures/designs.ts';
import { MODEL_ENDINGS, modelFile } from '../../src/files/model.ts';
import { starterDesigns } from '../fixtures/starters.ts';
import { read3mf } from '../files/read3mf.ts';
import { signedVolume } from '../files/solids.ts';
import { kerfweave, type Outcome } from './kerfweave.ts';

let folder = '';
const at = (name: string) => join(folder, name);

async function inThisProcess(args: readonly string[]): Promise<Outcome> {
  const errors: string[] = [];
  const spy = vi.spyOn(console, 'error').mockImplementation((line: string) => {
    errors.push(line);
  });
  try {
    return { exit: await run(args), out: '', errors };
  } finally {
    spy.mockRestore();
  }
}

const good: Outcome = { exit: 0, out: '', errors: [] };

// Square blank 80 × 80 × 200, kerf 2, web 4, 60°, as a cylinder of radius 30 from end to end.
const CYLINDER: Design = fourRings({
  name: 'Test cylinder',
  section: { shape: 'square', width_mm: 80 },
  length_mm: 200,
  set: {
    angle_deg: 60,
    center_mm: 100,
    kerf_mm: 2,
    web_mm: 4,
    fence_azimuths_deg: [0, 90],
    strip: {
      layers: [
        { timber: 'hard-maple', thickness_mm: 0.5 },
        { timber: 'wenge', thickness_mm: 1.5 },
      ],
    },
  },
  form: cylinderForm(200, 30),
});
const BLOCK_mm3 = 80 * 80 * 200;
/** Cavalieri: width × kerf × (depth across − web) / sin θ (sources: G8, cut short by the web). */
const SLOT_mm3 = (80 * 2 * (80 - 4)) / Math.sin(Math.PI / 3);

beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'kerfweave-model-'));
  writeFileSync(at('cylinder.json'), JSON.stringify(CYLINDER));
  writeFileSync(at('left-square.json'), JSON.stringify({ ...CYLINDER, form: null }));
  writeFileSync(
    at('wrong.json'),
    JSON.stringify({ ...CYLINDER, sets: [{ ...CYLINDER.sets[0], angle_deg: 95, kerf_mm: -1 }] }),
  );
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Volume of each named part of a 3MF file, mm³. */
function volumes(name: string): Record<string, number> {
  const { objects } = read3mf(readFileSync(at(name)));
  return Object.fromEntries(
    objects
      .filter(({ triangles }) => triangles.length > 0)
      .map((object) => [object.name, signedVolume(object.positions, object.triangles)]),
  );
}

function stlVolume(name: string): number {
  const geometry = new STLLoader().parse(Uint8Array.from(readFileSync(at(name))).buffer);
  const corners = geometry.getAttribute('position').array;
  return signedVolume(
    corners,
    Array.from({ length: corners.length / 3 }, (_, i) => i),
  );
}

const near = (value: number | undefined, expected: number, relative = 1e-6) =>
  expect(Math.abs((value ?? NaN) / expected - 1)).toBeLessThan(relative);

describe('model --step', () => {
  it('gives the sawn block, the open cut and the glued strip', async () => {
    const file = at('cylinder.json');
    expect(
      await Promise.all(
        ['0', '1', '2', '4'].map((n) => kerfweave('model', file, '-o', at(`step${n}.3mf`), '--step', n)),
      ),
    ).toEqual([good, good, good, good]);
    const block = volumes('step0.3mf');
    expect(Object.keys(block)).toEqual(['body']);
    near(block.body, BLOCK_mm3);
    const open = volumes('step1.3mf');
    expect(Object.keys(open)).toEqual(['body']);
    near(open.body, BLOCK_mm3 - SLOT_mm3);
    const glued = volumes('step2.3mf');
    expect(Object.keys(glued)).toEqual(['body', 'S1.1/1', 'S1.1/2']);
    near(glued.body, BLOCK_mm3 - SLOT_mm3);
    near(glued['S1.1/1'], SLOT_mm3 / 4);
    near(glued['S1.1/2'], (SLOT_mm3 * 3) / 4);
    const both = volumes('step4.3mf');
    expect(Object.keys(both)).toEqual(['body', 'S1.1/1', 'S1.1/2', 'S1.2/1', 'S1.2/2']);
    // The last cut is whole, the one before it is cut through.
    near(both['S1.2/1'] + both['S1.2/2'], SLOT_mm3);
    expect(both['S1.1/1'] + both['S1.1/2']).toBeLessThan(SLOT_mm3 - 1);
    near(
      Object.values(both).reduce((sum, volume) => sum + volume, 0),
      BLOCK_mm3,
    );
  });
});

describe('the finished piece', () => {
  it('is turned where there is a form, in every format', async () => {
    const file = at('cylinder.json');
    expect(await kerfweave('model', file, '-o', at('piece.glb'))).toEqual(good);
    // The rest by the command's own entry: a process each is slow.
    for (const args of [
      [file, '-o', at('again.GLB')],
      [file, '-o', at('piece.3mf')],
      [file, '-o', at('piece.stl')],
      [file, '-o', at('slot.stl'), '--part', 'S1.2'],
      [file, '-o', at('layer.stl'), '--part', 'S1.2/2'],
      [at('left-square.json'), '-o', at('square.stl')],
    ])
      expect(await inThisProcess(args), args.join(' ')).toEqual(good);
    // Facets stand inside the round: low by 2π² / (3 n²), 0.01 % at 256.
    const whole_mm3 = Math.PI * 30 * 30 * 200;
    near(stlVolume('piece.stl'), whole_mm3, 1.2e-4);
    const parts = volumes('piece.3mf');
    expect(Object.keys(parts)).toEqual(['body', 'S1.1/1', 'S1.1/2', 'S1.2/1', 'S1.2/2']);
    near(
      Object.values(parts).reduce((sum, volume) => sum + volume, 0),
      whole_mm3,
      1.2e-4,
    );
    // The web of 4 mm lies outside radius 30: the last ring is the whole oblique slab, π r² k / sin θ (G8).
    const ring_mm3 = (Math.PI * 30 * 30 * 2) / Math.sin(Math.PI / 3);
    near(stlVolume('slot.stl'), ring_mm3, 1.2e-4);
    near(stlVolume('layer.stl'), (ring_mm3 * 3) / 4, 1.2e-4);
    near(stlVolume('square.stl'), BLOCK_mm3);

    const glb = Uint8Array.from(readFileSync(at('piece.glb')));
    expect(Uint8Array.from(readFileSync(at('again.GLB')))).toEqual(glb);
    expect((await validateBytes(glb)).issues.messages).toEqual([]);
  });
});

describe('a starter design', () => {
  it('gives the bytes that the app gives, in every format', async () => {
    // The pen: of the starters the one with the least to carve.
    const design = starterDesigns()[3];
    const file = join(process.cwd(), 'assets/designs/04-quayside-pen.json');
    for (const ending of MODEL_ENDINGS) {
      // One through the whole command line, which loads the writers as the others do.
      const args = [file, '-o', at(`starter.${ending}`)];
      expect(await (ending === '3mf' ? kerfweave('model', ...args) : inThisProcess(args))).toEqual(good);
      const result = modelFile(design, { ending });
      expect('bytes' in result && Buffer.compare(readFileSync(at(`starter.${ending}`)), result.bytes)).toBe(
        0,
      );
    }
  });
});

describe('a wrong call', () => {
  it('ends with 2, one line, and nothing written', async () => {
    const file = at('cylinder.json');
    writeFileSync(at('kept.stl'), 'kept');
    const before = readdirSync(folder).toSorted();
    const calls: [RegExp, string[]][] = [
      [/ends in none of \.glb, \.3mf, \.stl/, [file, '-o', at('kept.obj')]],
      [/needs -o/, [file]],
      [/takes one design file/, ['-o', at('kept.stl')]],
      [/takes one design file/, [file, file, '-o', at('kept.stl')]],
      [/Unknown option '--speed'/, [file, '-o', at('kept.stl'), '--speed', '3']],
      [/whole number/, [file, '-o', at('kept.stl'), '--step', '1.5']],
      [/'--step'/, [file, '-o', at('kept.stl'), '--step', '-1']],
      [/whole number/, [file, '-o', at('kept.stl'), '--step=-1']],
      [/step 5 is not one of 0 to 4/, [file, '-o', at('kept.stl'), '--step', '5']],
      [/no part called S2\.1/, [file, '-o', at('kept.stl'), '--part', 'S2.1']],
      [/no part called S1\.1\/3/, [file, '-o', at('kept.stl'), '--part', 'S1.1/3']],
      [/S1\.2 is not in the piece at step 3/, [file, '-o', at('kept.stl'), '--step', '3', '--part', 'S1.2']],
      [/no such folder/, [file, '-o', at('no/such/kept.stl')]],
      [/cannot read/, [at('not-there.json'), '-o', at('kept.stl')]],
    ];
    // Three through the whole command line, the rest by the command's own entry (a process each is slow).
    const outcomes = await Promise.all(
      calls.map(([, args], i) => (i % 6 === 0 ? kerfweave('model', ...args) : inThisProcess(args))),
    );
    outcomes.forEach(({ exit, out, errors }, i) => {
      expect([exit, out, errors.length], calls[i][1].join(' ')).toEqual([2, '', 1]);
      expect(errors[0]).toMatch(calls[i][0]);
    });
    expect(readdirSync(folder).toSorted()).toEqual(before);
    expect(readFileSync(at('kept.stl'), 'utf8')).toBe('kept');
  });

  it('ends with 1 and a line per fault when the design is wrong', async () => {
    const { exit, out, errors } = await kerfweave('model', at('wrong.json'), '-o', at('wrong.stl'));
    expect([exit, out]).toEqual([1, '']);
    expect(errors.map((line) => line.split(':')[0])).toEqual(
      expect.arrayContaining(['sets[0].angle_deg', 'sets[0].kerf_mm']),
    );
    expect(readdirSync(folder)).not.toContain('wrong.stl');
  });
});
