/**
 * A drawing (files/drawing/pen.ts) as SVG: the same items as on the printed sheet. Frame: millimetres on paper,
 * y up; shown at `pxPerMm`. The inks of the sheet become those of the theme; timbers keep their colours.
 */
import { useId } from 'react';
import * as ink from '../../files/drawing/ink.ts';
import { MM_PER_POINT, type Item, type PathStep, type Stroke } from '../../files/drawing/pen.ts';
import './drawing.css';

const THEMED: ReadonlyMap<string, string> = new Map([
  [ink.INK, 'var(--ink)'],
  [ink.INK_SOFT, 'var(--ink-2)'],
  [ink.INK_FAINT, 'var(--ink-3)'],
  [ink.RULE, 'var(--line)'],
  [ink.TINT, 'var(--sunk)'],
  [ink.PAPER, 'var(--raise)'],
  [ink.MARK, 'var(--mark)'],
  [ink.MARK_TINT, 'var(--mark-soft)'],
  [ink.WARN, 'var(--warn)'],
  [ink.WARN_TINT, 'var(--warn-soft)'],
]);

export interface DrawingSvgProps {
  readonly items: readonly Item[];
  readonly width_mm: number;
  readonly height_mm: number;
  readonly label: string;
}

export function DrawingSvg({ items, width_mm, height_mm, label }: DrawingSvgProps) {
  return (
    <svg
      className="drawing"
      role="img"
      aria-label={label}
      viewBox={`0 ${-height_mm} ${width_mm} ${height_mm}`}
      preserveAspectRatio="xMidYMid meet"
    >
      {items.map((item, i) => (
        <DrawnItem key={i} item={item} />
      ))}
    </svg>
  );
}

function DrawnItem({ item }: { item: Item }) {
  const id = useId();
  if (item.kind === 'path')
    return <path d={pathOf(item.steps)} style={{ fill: colourOf(item.fill), ...strokeOf(item.stroke) }} />;
  if (item.kind === 'clip')
    return (
      <g clipPath={`url(#${id})`}>
        <clipPath id={id}>
          <path d={pathOf(item.steps)} />
        </clipPath>
        {item.items.map((inner, i) => (
          <DrawnItem key={i} item={inner} />
        ))}
      </g>
    );
  const { at, text, style } = item;
  const { size_pt, weight, align = 'left', colour, angle_deg = 0, halo } = style;
  return (
    <text
      transform={`translate(${at[0]} ${-at[1]}) rotate(${-angle_deg})`}
      textAnchor={align === 'center' ? 'middle' : align === 'right' ? 'end' : 'start'}
      style={{
        fontSize: size_pt * MM_PER_POINT,
        fontWeight: weight === 'semibold' ? 600 : 400,
        fill: colourOf(colour ?? ink.INK),
        ...(halo === undefined ? {} : { paintOrder: 'stroke', stroke: colourOf(halo), strokeWidth: 0.9 }),
      }}
    >
      {text}
    </text>
  );
}

function colourOf(colour: string | undefined): string {
  if (colour === undefined) return 'none';
  return THEMED.get(colour) ?? colour;
}

function strokeOf(stroke: Stroke | undefined): React.CSSProperties {
  if (!stroke) return { stroke: 'none' };
  return {
    stroke: colourOf(stroke.colour),
    strokeWidth: stroke.width_mm,
    strokeDasharray: stroke.dash_mm?.join(' '),
    strokeLinecap: stroke.round ? 'round' : 'butt',
  };
}

function pathOf(steps: readonly PathStep[]): string {
  return steps
    .map((step) => {
      if (step[0] === 'close') return 'Z';
      const places = step.slice(1) as (readonly [number, number])[];
      const letter = step[0] === 'move' ? 'M' : step[0] === 'line' ? 'L' : 'C';
      return letter + places.map(([x, y]) => `${x.toFixed(3)} ${(-y).toFixed(3)}`).join(' ');
    })
    .join('');
}
