/** The names of the variants over their parts of the canvas. */
import { useEffect, useRef, useState, type CSSProperties } from 'react';
import type { StageVariant, Theme } from './props.ts';
import { viewportsOf } from './viewports.ts';

const LAYER: CSSProperties = { position: 'absolute', inset: 0, pointerEvents: 'none', overflow: 'hidden' };

export function VariantLabels({ variants, theme }: { variants: readonly StageVariant[]; theme: Theme }) {
  const layer = useRef<HTMLDivElement>(null);
  const [size, setSize] = useState({ width: 0, height: 0 });
  useEffect(() => {
    const element = layer.current;
    if (!element) return undefined;
    const observer = new ResizeObserver(() =>
      setSize({ width: element.clientWidth, height: element.clientHeight }),
    );
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  const boxes = size.width > 0 ? viewportsOf(variants.length, size.width, size.height) : [];
  return (
    <div ref={layer} style={LAYER}>
      {boxes.map((box, i) => (
        <span
          key={variants[i].key}
          style={{
            position: 'absolute',
            left: box.x,
            top: size.height - box.y - box.height + 10,
            width: box.width,
            textAlign: 'center',
            font: '500 0.9rem system-ui, sans-serif',
            color: theme === 'dark' ? '#ece7df' : '#2e2b28',
          }}
        >
          {variants[i].label}
        </span>
      ))}
    </div>
  );
}
