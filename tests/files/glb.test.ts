import { converter } from 'culori';
import { validateBytes } from 'gltf-validator';
import * as THREE from 'three';
import { GLTFLoader } from 'three/examples/jsm/loaders/GLTFLoader.js';
import { describe, expect, it } from 'vitest';
import type { Part } from '../../src/blank/parts.ts';
import { writeGlb } from '../../src/files/glb.ts';
import { LOOKS, shaving, sliverCube, touchingBody, turnedCylinder } from './awkwardParts.ts';
import { box, part, signedVolume } from './solids.ts';

/** The file as three's own loader reads it. */
async function load(
  bytes: Uint8Array,
): Promise<THREE.Mesh<THREE.BufferGeometry, THREE.MeshStandardMaterial>[]> {
  const { scene } = await new GLTFLoader().parseAsync(Uint8Array.from(bytes).buffer, '');
  const meshes: THREE.Mesh<THREE.BufferGeometry, THREE.MeshStandardMaterial>[] = [];
  scene.traverse((node) => {
    if (node instanceof THREE.Mesh)
      meshes.push(node as THREE.Mesh<THREE.BufferGeometry, THREE.MeshStandardMaterial>);
  });
  return meshes;
}

/** three replaces what it cannot use in a path ("." and "/") but keeps the file's name beside it. */
function nameInFile(node: THREE.Object3D): string {
  const { name } = node.userData as { name?: string };
  return name ?? node.name;
}

/** Issues that the Khronos validator counts, hints included. */
async function validatorIssues(bytes: Uint8Array): Promise<string[]> {
  const report = await validateBytes(bytes);
  return report.issues.messages.map((issue) => `${issue.code} ${issue.pointer}: ${issue.message}`);
}

describe('glTF', () => {
  it('passes the Khronos validator without an error, a warning or a hint', async () => {
    const designs: Part[][] = [await turnedCylinder(), [touchingBody()], [sliverCube(), shaving()]];
    for (const parts of designs)
      expect(await validatorIssues(writeGlb('Kerf & “weave” ½″', parts, LOOKS))).toEqual([]);
  });

  it('names nodes and meshes by part, in the order given, and leaves empty parts out', async () => {
    const meshes = await load(writeGlb('Test', [...(await turnedCylinder()), shaving()], LOOKS));
    expect(meshes.map((mesh) => nameInFile(mesh))).toEqual(['body', 'S1.1', 'S1.2/1', 'S1.2/2']);
  });

  it('stands on its foot in metres: (x, y, z) mm becomes (x, z, −y) / 1000', async () => {
    const { positions, triangles } = box([1, 2, 3], [11, 22, 33]);
    const [mesh] = await load(writeGlb('Test', [part('body', positions, triangles)], LOOKS));
    mesh.geometry.computeBoundingBox();
    const { min, max } = mesh.geometry.boundingBox!;
    const near = (v: THREE.Vector3, x: number, y: number, z: number) =>
      expect(v.distanceTo(new THREE.Vector3(x, y, z))).toBeLessThan(1e-8);
    near(min, 0.001, 0.003, -0.022);
    near(max, 0.011, 0.033, -0.002);
    const index = mesh.geometry.getIndex()!.array;
    expect(signedVolume(mesh.geometry.getAttribute('position').array, index)).toBeCloseTo(6e-6, 12);
  });

  it('keeps each part closed and its volume', async () => {
    const parts = await turnedCylinder();
    const meshes = await load(writeGlb('Test', parts, LOOKS));
    meshes.forEach((mesh, i) => {
      const positions = mesh.geometry.getAttribute('position').array;
      const index = mesh.geometry.getIndex()!.array;
      // By position, since shading doubles vertices: every directed edge has its opposite.
      const balance = new Map<string, number>();
      const point = (v: number) => `${positions[v * 3]} ${positions[v * 3 + 1]} ${positions[v * 3 + 2]}`;
      for (let t = 0; t < index.length; t += 3)
        for (let k = 0; k < 3; k++) {
          const from = point(index[t + k]);
          const to = point(index[t + ((k + 1) % 3)]);
          const [key, sign] = from < to ? [`${from}|${to}`, 1] : [`${to}|${from}`, -1];
          balance.set(key, (balance.get(key) ?? 0) + sign);
        }
      expect([...balance.values()].filter((value) => value !== 0)).toEqual([]);
      expect(Math.abs((signedVolume(positions, index) * 1e9) / parts[i].volume_mm3 - 1)).toBeLessThan(1e-6);
    });
  });

  it('shades the round as round and keeps edges sharp', async () => {
    const [body] = await load(writeGlb('Test', await turnedCylinder(), LOOKS));
    const position = body.geometry.getAttribute('position');
    const normal = body.geometry.getAttribute('normal');
    let round = 0;
    for (let v = 0; v < position.count; v++) {
      const n = new THREE.Vector3().fromBufferAttribute(normal, v);
      expect(Math.abs(n.length() - 1)).toBeLessThan(1e-5);
      const across = new THREE.Vector3(position.getX(v), 0, position.getZ(v));
      if (Math.abs(across.length() - 0.03) > 1e-6) continue;
      // On the outside a normal is radial, square to the ends, or that of a slot's face (50° to the axis).
      const radial = n.dot(across.normalize());
      const steep = Math.abs(n.y);
      if (steep < 0.05) {
        round++;
        expect(radial).toBeGreaterThan(Math.cos((360 / 96) * (Math.PI / 180)));
      } else expect([1, Math.cos((50 * Math.PI) / 180)].some((y) => Math.abs(steep - y) < 1e-3)).toBe(true);
    }
    expect(round).toBeGreaterThan(100);
  });

  it('gives each timber its colour in linear light', async () => {
    const [body, strip] = await load(writeGlb('Test', await turnedCylinder(), LOOKS));
    const toLinear = converter('lrgb');
    for (const [mesh, srgb] of [
      [body, '#826854'],
      [strip, '#dabc9c'],
    ] as const) {
      const expected = toLinear(srgb)!;
      expect(mesh.material.color.r).toBeCloseTo(expected.r, 5);
      expect(mesh.material.color.g).toBeCloseTo(expected.g, 5);
      expect(mesh.material.color.b).toBeCloseTo(expected.b, 5);
    }
    expect(body.material.name).toBe('Black walnut');
    expect(strip.material.metalness).toBe(0);
  });

  it('writes the same bytes for the same parts', async () => {
    expect(writeGlb('Test', await turnedCylinder(), LOOKS)).toEqual(
      writeGlb('Test', await turnedCylinder(), LOOKS),
    );
  });

  it('refuses to write a file with nothing in it', () => {
    expect(() => writeGlb('Test', [shaving()], LOOKS)).toThrow('no part');
  });
});
