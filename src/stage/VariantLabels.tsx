/** The names of the variants over their parts of the canvas; where one can be chosen they are buttons. */
import type { CSSProperties } from 'react';
import type { StageVariant, Theme } from './props.ts';
import { pieceAspectOf, viewportsOf } from './viewports.ts';

const LAYER: CSSProperties = { position: 'absolute', inset: 0, pointerEvents: 'none', overflow: 'hidden' };

/** A target for a finger (WCAG 2.2, 2.5.5); the line under it marks the one that is edited. */
const BUTTON: CSSProperties = {
  pointerEvents: 'auto',
  minWidth: 44,
  minHeight: 44,
  maxWidth: '100%',
  padding: '0 4px',
  overflow: 'hidden',
  border: 0,
  borderBottom: '2px solid transparent',
  background: 'none',
  color: 'inherit',
  font: 'inherit',
  textOverflow: 'ellipsis',
  whiteSpace: 'nowrap',
  cursor: 'pointer',
};

interface VariantLabelsProps {
  readonly variants: readonly StageVariant[];
  readonly chosen?: string | undefined;
  readonly onChoose?: ((key: string) => void) | undefined;
  readonly theme: Theme;
  readonly size: { readonly width: number; readonly height: number };
  readonly inset_px: number;
}

export function VariantLabels(props: VariantLabelsProps) {
  const { variants, chosen, onChoose, theme, size, inset_px } = props;
  const pieceAspect = pieceAspectOf(variants.map(({ design }) => design));
  const boxes =
    size.width > 0 ? viewportsOf(variants.length, size.width, size.height, pieceAspect, inset_px) : [];
  return (
    <div style={LAYER}>
      {boxes.map((box, i) => {
        const { key, label } = variants[i];
        const place: CSSProperties = {
          position: 'absolute',
          left: box.x,
          top: size.height - box.y - box.height + (onChoose ? 0 : 10),
          width: box.width,
          textAlign: 'center',
          font: '600 0.9375rem var(--sans, system-ui, sans-serif)',
          color: theme === 'dark' ? '#ece7df' : '#2e2b28',
        };
        return onChoose ? (
          <div key={key} style={place}>
            <button
              type="button"
              aria-pressed={key === chosen}
              title={key === chosen ? `${label}: being edited` : `${label}: edit this one`}
              style={{ ...BUTTON, borderBottomColor: key === chosen ? 'currentColor' : 'transparent' }}
              onClick={() => onChoose(key)}
            >
              {label}
            </button>
          </div>
        ) : (
          <span key={key} style={place}>
            {label}
          </span>
        );
      })}
    </div>
  );
}
