/**
 * The frame of the lights. Upright it is a turn about the vertical by the camera's azimuth (elementary); at a cut with the
 * table tilted, what is up in the picture is up for the lights, too, whichever end of the blank is down.
 */
import { Matrix4, Vector3 } from 'three';
import { expect, test } from 'vitest';
import { SharedLook } from '../../src/stage/light.ts';
import type { StudioLight } from '../../src/stage/props.ts';
import { worldToRig } from '../../src/stage/rig.ts';
import { sawViewOf } from '../../src/stage/sawView.ts';
import { shapeAt } from '../../src/stage/shape.ts';
import { fourRings, slotSet } from '../fixtures/designs.ts';

const UP = new Vector3(0, 1, 0);
const LIGHTS: readonly StudioLight[] = ['studio', 'window', 'overcast', 'evening'];

test.each([0, 40, 135, 180, 271])('upright it turns with the camera: %s°', (azimuth_deg) => {
  const a = (azimuth_deg * Math.PI) / 180;
  for (const elevation of [-1.2, 0, 0.9]) {
    const flat = Math.cos(elevation);
    const toward = new Vector3(Math.sin(a) * flat, Math.sin(elevation), Math.cos(a) * flat);
    const expected = new Matrix4().makeRotationY(-a);
    worldToRig(UP, toward.multiplyScalar(300)).elements.forEach((value, i) =>
      expect(value).toBeCloseTo(expected.elements[i], 12),
    );
  }
});

test('straight from above it still is a frame', () => {
  for (const up of [UP, new Vector3(0.6, -0.8, 0)]) {
    const rig = worldToRig(up, up.clone().multiplyScalar(200));
    expect(rig.determinant()).toBeCloseTo(1, 12);
    expect(up.clone().applyMatrix4(rig).distanceTo(UP)).toBeLessThan(1e-12);
  }
});

test.each(['fence', 'entry'] as const)(
  'table tilted, high side at the %s: every light is above',
  (high_side) => {
    const look = new SharedLook();
    const design = fourRings({ sets: [slotSet({ cut: 'table', angle_deg: 40, high_side })] });
    const view = sawViewOf(shapeAt(design, 1));
    if (!view) throw new Error('the table is not tilted');
    const toWorld = worldToRig(view.up, view.toward).transpose();
    for (const light of LIGHTS) {
      look.setLight('light', light);
      const key = look.keyTo.clone().transformDirection(toWorld);
      expect(key.dot(view.up), light).toBeGreaterThan(0.3);
    }
    look.dispose();
  },
);
