/** Inside the canvas: owns the scene and the camera, and decides when a frame is drawn and how well. */
import { useFrame, useThree } from '@react-three/fiber';
import { useImperativeHandle, useLayoutEffect, useRef } from 'react';
import { CameraControl } from './cameraControl.ts';
import { FrameLoop } from './frameLoop.ts';
import { inspection } from './inspection.ts';
import { listenForStageKeys } from './keyControl.ts';
import { PointerControl } from './pointer.ts';
import { StageScene } from './stageScene.ts';
import type { Standpoint } from './studio.ts';
import type { StageHandle, StageProps } from './props.ts';

interface StageDriverProps {
  readonly stage: StageProps;
  /** Of the canvas, CSS pixels. */
  readonly size: { readonly width: number; readonly height: number };
  readonly onLost: (lost: boolean) => void;
  readonly ref?: React.Ref<StageHandle>;
}

interface Running {
  readonly scene: StageScene;
  readonly camera: CameraControl;
  readonly loop: FrameLoop;
}

export function StageDriver({ stage, size, onLost, ref }: StageDriverProps) {
  const { width, height } = size;
  const gl = useThree((state) => state.gl);
  const invalidate = useThree((state) => state.invalidate);
  const latest = useRef(stage);
  const running = useRef<Running | null>(null);

  // What strict mode makes twice is also taken down twice; the effects below run again after it, in this order.
  useLayoutEffect(() => {
    const scene: StageScene = new StageScene(() => loop.changed());
    const camera: CameraControl = new CameraControl(gl.domElement, () => loop.changed());
    const loop = new FrameLoop(gl, scene, camera, {
      requestFrame: () => invalidate(),
      settled: () => latest.current.onSettled?.(),
    });
    const pointer = new PointerControl(gl.domElement, scene, camera, () => latest.current);
    const dropKeys = listenForStageKeys(gl.domElement, camera);
    const lost = (event: Event): void => {
      event.preventDefault();
      onLost(true);
      scene.forget();
    };
    const restored = (): void => {
      onLost(false);
      loop.changed();
    };
    gl.domElement.addEventListener('webglcontextlost', lost);
    gl.domElement.addEventListener('webglcontextrestored', restored);
    running.current = { scene, camera, loop };
    return () => {
      running.current = null;
      gl.domElement.removeEventListener('webglcontextlost', lost);
      gl.domElement.removeEventListener('webglcontextrestored', restored);
      dropKeys();
      pointer.dispose();
      loop.dispose();
      camera.dispose();
      scene.dispose();
    };
  }, [gl, invalidate, onLost]);

  useLayoutEffect(() => {
    running.current?.loop.resize(width, height);
  }, [gl, width, height]);

  useLayoutEffect(() => {
    latest.current = stage;
    if (!running.current) return;
    const { scene, camera, loop } = running.current;
    scene.update(stage);
    loop.turn(stage.view.turntable);
    camera.follow(stage, scene, width, height);
  }, [gl, stage, width, height]);

  useFrame(() => {
    running.current?.loop.frame();
  }, 1);

  useImperativeHandle(
    ref,
    (): StageHandle => ({
      capture: async (request) => {
        const { props, from } = shownBy(running.current, latest.current);
        const { takePicture } = await import('./picture.ts');
        return takePicture(gl, props, from, request);
      },
      openTurn: async (request) => {
        const { props, from } = shownBy(running.current, latest.current);
        const { openTurn } = await import('./picture.ts');
        return openTurn(gl, props, from, request);
      },
      orbit: (azimuth_deg, elevation_deg) => running.current?.camera.orbit(azimuth_deg, elevation_deg),
      zoom: (factor) => running.current?.camera.zoom(factor),
      inspect: () =>
        running.current
          ? inspection(gl, running.current.scene, running.current.camera, running.current.loop)
          : null,
    }),
    [gl],
  );
  return null;
}

/** What a picture is taken of: all of it as it is now, whatever is done before the picture is drawn. */
function shownBy(running: Running | null, props: StageProps): { props: StageProps; from: Standpoint } {
  if (!running) throw new Error('The stage is not ready yet.');
  running.camera.prepare();
  const { camera, target } = running.camera;
  return { props, from: { camera: camera.clone(), target: target.clone() } };
}
