/** Inside the canvas: owns the scene and the camera, and decides when a frame is drawn and how well. */
import { useFrame, useThree } from '@react-three/fiber';
import { useEffect, useImperativeHandle, useLayoutEffect, useRef, useState } from 'react';
import { CameraControl } from './cameraControl.ts';
import { FrameLoop } from './frameLoop.ts';
import { inspection } from './inspection.ts';
import { takePicture } from './picture.ts';
import { PointerControl } from './pointer.ts';
import { StageScene } from './stageScene.ts';
import type { StageHandle, StageProps } from './props.ts';

interface StageDriverProps {
  readonly stage: StageProps;
  readonly onLost: (lost: boolean) => void;
  readonly ref?: React.Ref<StageHandle>;
}

interface Running {
  readonly scene: StageScene;
  readonly camera: CameraControl;
  readonly loop: FrameLoop;
}

export function StageDriver({ stage, onLost, ref }: StageDriverProps) {
  const gl = useThree((state) => state.gl);
  const size = useThree((state) => state.size);
  const invalidate = useThree((state) => state.invalidate);
  const [running, setRunning] = useState<Running | null>(null);
  const latest = useRef(stage);

  useLayoutEffect(() => {
    latest.current = stage;
  });

  // Made in an effect and not in a memo: what React makes twice in strict mode is also taken down twice.
  useEffect(() => {
    const scene = new StageScene(() => loop.changed());
    const camera = new CameraControl(gl.domElement, () => loop.changed());
    const loop = new FrameLoop(
      gl,
      scene,
      camera,
      () => invalidate(),
      () => latest.current.onSettled?.(),
    );
    const pointer = new PointerControl(gl.domElement, scene, camera, () => latest.current);
    const lost = (event: Event): void => {
      event.preventDefault();
      onLost(true);
    };
    const restored = (): void => {
      onLost(false);
      scene.restore();
    };
    gl.domElement.addEventListener('webglcontextlost', lost);
    gl.domElement.addEventListener('webglcontextrestored', restored);
    setRunning({ scene, camera, loop });
    return () => {
      gl.domElement.removeEventListener('webglcontextlost', lost);
      gl.domElement.removeEventListener('webglcontextrestored', restored);
      pointer.dispose();
      loop.dispose();
      camera.dispose();
      scene.dispose();
      setRunning(null);
    };
  }, [gl, invalidate, onLost]);

  useLayoutEffect(() => {
    if (!running) return;
    running.loop.resize(size.width, size.height);
  }, [running, size.width, size.height]);

  useLayoutEffect(() => {
    if (!running) return;
    running.scene.update(stage);
    running.camera.follow(stage, running.scene, size.width, size.height);
  }, [running, stage, size.width, size.height]);

  useFrame(() => {
    running?.loop.frame();
  }, 1);

  useImperativeHandle(
    ref,
    () => ({
      capture: (request) =>
        running
          ? takePicture(gl, running.scene, running.camera, request)
          : Promise.reject(new Error('The stage is not ready yet.')),
      orbit: (azimuth_deg, elevation_deg) => running?.camera.orbit(azimuth_deg, elevation_deg),
      zoom: (factor) => running?.camera.zoom(factor),
      inspect: () => (running ? inspection(gl, running.scene, running.camera, running.loop) : null),
    }),
    [gl, running],
  );
  return null;
}
