/**
 * The stage: one canvas, kept mounted, that shows the variants as the properties say. Load it lazily: three comes with it.
 * With the focus on it, the arrow keys turn the piece, + and − zoom.
 */
import { Canvas } from '@react-three/fiber';
import { useImperativeHandle, useRef, useState, type CSSProperties } from 'react';
import { StageDriver } from './StageDriver.tsx';
import { VariantLabels } from './VariantLabels.tsx';
import type { StageHandle, StageProps } from './props.ts';

export interface StageComponentProps extends StageProps {
  readonly ref?: React.Ref<StageHandle>;
}

const FRAME: CSSProperties = { position: 'relative', width: '100%', height: '100%' };
const LOST: CSSProperties = {
  position: 'absolute',
  inset: 0,
  display: 'grid',
  placeItems: 'center',
  padding: '1rem',
  textAlign: 'center',
};

export default function Stage({ ref, ...props }: StageComponentProps) {
  const [lost, setLost] = useState(false);
  const handle = useRef<StageHandle>(null);
  useImperativeHandle(
    ref,
    (): StageHandle => ({
      capture: (request) =>
        handle.current?.capture(request) ?? Promise.reject(new Error('The stage is not ready yet.')),
      orbit: (azimuth_deg, elevation_deg) => handle.current?.orbit(azimuth_deg, elevation_deg),
      zoom: (factor) => handle.current?.zoom(factor),
      inspect: () => handle.current?.inspect() ?? null,
    }),
    [],
  );
  return (
    <div style={FRAME}>
      <Canvas
        frameloop="demand"
        flat
        dpr={1}
        gl={{ antialias: true, alpha: false, stencil: false, powerPreference: 'high-performance' }}
        style={{ touchAction: 'none' }}
      >
        <StageDriver ref={handle} stage={props} onLost={setLost} />
      </Canvas>
      {props.variants.length > 1 && <VariantLabels variants={props.variants} theme={props.theme} />}
      {lost && <output style={LOST}>The graphics card was reset; the picture comes back by itself.</output>}
    </div>
  );
}
