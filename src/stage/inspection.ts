/** What tests and benches ask of the stage; see StageInspection in props.ts. */
import {
  LinearSRGBColorSpace,
  Raycaster,
  Vector2,
  Vector3,
  WebGLRenderTarget,
  type WebGLRenderer,
} from 'three';
import type { Vec3 } from '../geometry/vector.ts';
import { toDrawn } from '../meshes/mesh.ts';
import type { CameraControl } from './cameraControl.ts';
import type { FrameLoop } from './frameLoop.ts';
import { MODE } from './material.ts';
import type { StageInspection } from './props.ts';
import type { StageScene } from './stageScene.ts';
import type { VariantScene } from './variantScene.ts';

/** How far in front of a point something may be hit and the point still count as seen, mm: the facets' own error. */
const SEEN_MM = 0.3;

export function inspection(
  renderer: WebGLRenderer,
  scene: StageScene,
  camera: CameraControl,
  loop: FrameLoop,
): StageInspection {
  const raycaster = new Raycaster();
  const first = (): VariantScene => {
    const [entry] = scene.viewports(1, 1);
    if (!entry) throw new Error('the stage shows nothing');
    return entry[1];
  };
  const placeOf = (point: Vec3, width_px: number, height_px: number) => {
    const [[, variant, box]] = scene.viewports(width_px, height_px);
    scene.aimCamera(camera.camera, box.width / box.height);
    camera.prepare();
    variant.root.updateMatrixWorld(true);
    const world = new Vector3(...toDrawn(point)).applyMatrix4(variant.root.matrixWorld);
    const projected = world.clone().project(camera.camera);
    return {
      world,
      at: new Vector2(projected.x, projected.y),
      x_px: box.x + ((projected.x + 1) / 2) * box.width,
      y_px: height_px - box.y - ((projected.y + 1) / 2) * box.height,
    };
  };
  return {
    materials(width_px, height_px) {
      const upward = readNumbers(renderer, scene, camera, width_px, height_px);
      const out = new Int16Array(width_px * height_px);
      for (let y = 0; y < height_px; y++)
        for (let x = 0; x < width_px; x++) {
          const from = 4 * ((height_px - 1 - y) * width_px + x);
          out[y * width_px + x] = upward[from + 3] === 0 ? -2 : upward[from] - 1;
        }
      return out;
    },
    see(point, width_px, height_px) {
      const { world, at, x_px, y_px } = placeOf(point, width_px, height_px);
      raycaster.setFromCamera(at, camera.camera);
      const [hit] = raycaster.intersectObject(first().main.object, false);
      const inPicture = x_px > 1 && y_px > 1 && x_px < width_px - 1 && y_px < height_px - 1;
      return inPicture && hit && hit.point.distanceTo(world) <= SEEN_MM ? [x_px, y_px] : null;
    },
    place(point, width_px, height_px) {
      const { x_px, y_px } = placeOf(point, width_px, height_px);
      return [x_px, y_px];
    },
    time(kind, width_px, height_px) {
      const target = new WebGLRenderTarget(width_px, height_px, {
        samples: 4,
        colorSpace: LinearSRGBColorSpace,
      });
      const pixel = new Uint8Array(4);
      const before = renderer.getRenderTarget();
      renderer.setRenderTarget(target);
      camera.prepare();
      const started = performance.now();
      scene.draw(renderer, camera.camera, camera.target, width_px, height_px, MODE[kind]);
      renderer.readRenderTargetPixels(target, 0, 0, 1, 1, pixel);
      const ended = performance.now();
      renderer.setRenderTarget(before);
      target.dispose();
      return ended - started;
    },
    memory() {
      const { memory, programs } = renderer.info;
      return { geometries: memory.geometries, textures: memory.textures, programs: programs?.length ?? 0 };
    },
    frames: () => loop.frames,
  };
}

/** The stage's own view in numbers of materials, rows from the bottom. */
function readNumbers(
  renderer: WebGLRenderer,
  scene: StageScene,
  camera: CameraControl,
  width: number,
  height: number,
): Uint8Array {
  const target = new WebGLRenderTarget(width, height, { colorSpace: LinearSRGBColorSpace });
  const before = renderer.getRenderTarget();
  const upward = new Uint8Array(4 * width * height);
  try {
    renderer.setRenderTarget(target);
    renderer.setClearColor(0x000000, 0);
    camera.prepare();
    scene.draw(renderer, camera.camera, camera.target, width, height, MODE.number, {});
    renderer.readRenderTargetPixels(target, 0, 0, width, height, upward);
  } finally {
    renderer.setRenderTarget(before);
    target.dispose();
  }
  return upward;
}
