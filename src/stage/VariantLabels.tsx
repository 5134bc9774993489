/** The names of the variants over their parts of the canvas. */
import type { CSSProperties } from 'react';
import type { StageVariant, Theme } from './props.ts';
import { pieceAspectOf, viewportsOf } from './viewports.ts';

const LAYER: CSSProperties = { position: 'absolute', inset: 0, pointerEvents: 'none', overflow: 'hidden' };

interface VariantLabelsProps {
  readonly variants: readonly StageVariant[];
  readonly theme: Theme;
  readonly size: { readonly width: number; readonly height: number };
  readonly inset_px: number;
}

export function VariantLabels({ variants, theme, size, inset_px }: VariantLabelsProps) {
  const pieceAspect = pieceAspectOf(variants.map(({ design }) => design));
  const boxes =
    size.width > 0 ? viewportsOf(variants.length, size.width, size.height, pieceAspect, inset_px) : [];
  return (
    <div style={LAYER}>
      {boxes.map((box, i) => (
        <span
          key={variants[i].key}
          style={{
            position: 'absolute',
            left: box.x,
            top: size.height - box.y - box.height + 10,
            width: box.width,
            textAlign: 'center',
            font: '600 0.9375rem var(--sans, system-ui, sans-serif)',
            color: theme === 'dark' ? '#ece7df' : '#2e2b28',
          }}
        >
          {variants[i].label}
        </span>
      ))}
    </div>
  );
}
