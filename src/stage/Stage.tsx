/**
 * The stage: one canvas, kept mounted, that shows the variants as the properties say. Load it lazily: three comes with it.
 */
import { Canvas } from '@react-three/fiber';
import { useState } from 'react';
import { StageDriver } from './StageDriver.tsx';
import type { StageHandle, StageProps } from './props.ts';

export interface StageComponentProps extends StageProps {
  readonly ref?: React.Ref<StageHandle>;
}

export default function Stage({ ref, ...props }: StageComponentProps) {
  const [lost, setLost] = useState(false);
  return (
    <Canvas
      frameloop="demand"
      flat
      dpr={1}
      gl={{ antialias: true, alpha: false, stencil: false, powerPreference: 'high-performance' }}
      camera={{ fov: 26, near: 1, far: 10000 }}
      style={{ touchAction: 'none' }}
      data-lost={lost}
    >
      <StageDriver ref={ref} stage={props} onLost={setLost} />
    </Canvas>
  );
}
