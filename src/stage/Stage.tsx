/**
 * The stage: one canvas, kept mounted, that shows the variants as the properties say. Load it lazily: three comes with it.
 * With the focus on it, the arrow keys turn the piece, + and − zoom.
 *
 * The root is made here and not by fiber's own canvas component, which would bring all of three into the bundle; each mount
 * has a canvas of its own, because fiber gives up the context of an unmounted one after a while, and strict mode
 * mounts twice.
 */
import { createRoot, type ReconcilerRoot } from '@react-three/fiber';
import { useImperativeHandle, useLayoutEffect, useRef, useState, type CSSProperties } from 'react';
import { StageDriver } from './StageDriver.tsx';
import { VariantLabels } from './VariantLabels.tsx';
import type { StageHandle, StageProps } from './props.ts';

export interface StageComponentProps extends StageProps {
  readonly ref?: React.Ref<StageHandle>;
}

interface Size {
  readonly width: number;
  readonly height: number;
}

const FRAME: CSSProperties = { position: 'relative', width: '100%', height: '100%' };
const HOST: CSSProperties = { position: 'absolute', inset: 0, overflow: 'hidden' };
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
  const [size, setSize] = useState<Size>({ width: 0, height: 0 });
  const [failure, setFailure] = useState<Error | null>(null);
  const host = useRef<HTMLDivElement>(null);
  const root = useRef<ReconcilerRoot<HTMLCanvasElement> | null>(null);
  const handle = useRef<StageHandle>(null);

  useLayoutEffect(() => {
    const element = host.current;
    if (!element) return undefined;
    const canvas = document.createElement('canvas');
    element.append(canvas);
    const made = createRoot(canvas);
    made
      .configure({
        frameloop: 'demand',
        flat: true,
        dpr: 1,
        // The stage sizes the canvas itself (frameLoop.ts).
        size: { width: 1, height: 1, top: 0, left: 0 },
        gl: { antialias: true, alpha: false, stencil: false, powerPreference: 'high-performance' },
      })
      .catch((error: unknown) => setFailure(error instanceof Error ? error : new Error(String(error))));
    canvas.style.cssText = 'display: block; width: 100%; height: 100%; touch-action: none;';
    root.current = made;
    const observer = new ResizeObserver(() =>
      setSize({ width: element.clientWidth, height: element.clientHeight }),
    );
    observer.observe(element);
    return () => {
      observer.disconnect();
      root.current = null;
      made.unmount();
      canvas.remove();
    };
  }, []);

  useLayoutEffect(() => {
    if (failure || size.width === 0) return;
    root.current?.render(<StageDriver ref={handle} stage={props} size={size} onLost={setLost} />);
  }, [failure, props, size]);

  useImperativeHandle(
    ref,
    (): StageHandle => ({
      capture: (request) =>
        handle.current?.capture(request) ?? Promise.reject(new Error('The stage is not ready yet.')),
      openTurn: (request) =>
        handle.current?.openTurn(request) ?? Promise.reject(new Error('The stage is not ready yet.')),
      orbit: (azimuth_deg, elevation_deg) => handle.current?.orbit(azimuth_deg, elevation_deg),
      zoom: (factor) => handle.current?.zoom(factor),
      inspect: () => handle.current?.inspect() ?? null,
    }),
    [],
  );

  if (failure) throw failure;
  return (
    <div style={FRAME}>
      <div ref={host} style={HOST} />
      {props.variants.length > 1 && (
        <VariantLabels
          variants={props.variants}
          chosen={props.chosen}
          onChoose={props.onChoose}
          theme={props.theme}
          size={size}
          inset_px={props.inset_px ?? 0}
        />
      )}
      {lost && <output style={LOST}>The graphics card was reset; the picture comes back by itself.</output>}
    </div>
  );
}
