/** `report` as it is called: the real command in a process of its own, its output read back as JSON. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { cylinderForm, fourRings } from '../fixtures/designs.ts';
import type { Report } from '../../src/plan/report.ts';
import { kerfweave } from './kerfweave.ts';

let folder = '';
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'kerfweave-report-'));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function file(name: string, content: unknown): string {
  const path = join(folder, name);
  writeFileSync(path, typeof content === 'string' ? content : JSON.stringify(content));
  return path;
}

describe('report FILE', () => {
  it('prints one JSON object with the numbers of the design', async () => {
    const design = fourRings({ form: cylinderForm(203.2, 30) });
    const { exit, out, errors } = await kerfweave('report', file('good.json', design));
    expect([exit, errors]).toEqual([0, []]);
    const report = JSON.parse(out) as Report;
    expect(report.format).toBe('kerfweave-report');
    expect(report.slots).toEqual(['S1.1', 'S1.2', 'S1.3', 'S1.4']);
    // Square prism; elementary. A ring of span 2 r cot 45° (list of check values).
    expect(report.block.volume_mm3).toBeCloseTo(76.2 * 76.2 * 203.2, 6);
    expect(report.rings?.[0].span_mm).toBeCloseTo(60, 9);
    expect(report.setups[0].stop_to_kerf_center_mm).toBeCloseTo(139.7, 9);
    expect(out.endsWith('}\n')).toBe(true);
  });

  it('fills in what the file leaves out: saw, order, high side', async () => {
    const { saw: _saw, order: _order, sets, ...rest } = fourRings();
    const { high_side: _high, ...set } = sets[0];
    const { exit, out } = await kerfweave('report', file('short.json', { ...rest, sets: [set] }));
    expect(exit).toBe(0);
    const report = JSON.parse(out) as Report;
    expect(report.sessions).toEqual([['S1.1'], ['S1.2'], ['S1.3'], ['S1.4']]);
    expect(report.setups[0].stop_end).toBe('foot');
  });

  it('warnings leave the exit code at 0', async () => {
    const { exit, out } = await kerfweave('report', file('warned.json', fourRings({ set: { web_mm: 1 } })));
    expect(exit).toBe(0);
    expect((JSON.parse(out) as Report).messages[0].code).toBe('web-thin');
  });

  it('a wrong design: exit 1, the faults with their paths on standard error, nothing printed', async () => {
    const wrong = fourRings({ set: { angle_deg: 95 } });
    const { exit, out, errors } = await kerfweave('report', file('wrong.json', wrong));
    expect([exit, out]).toEqual([1, '']);
    expect(errors[0]).toContain('sets[0].angle_deg');
  });

  it('a wrong call: exit 2', async () => {
    const good = file('call.json', fourRings());
    const calls = [[], [good, 'more'], ['--all', good], [join(folder, 'none.json')]];
    const outcomes = await Promise.all(calls.map((args) => kerfweave('report', ...args)));
    for (const { exit, out, errors } of outcomes) {
      expect([exit, out]).toEqual([2, '']);
      expect(errors.length).toBe(1);
    }
  });
});
