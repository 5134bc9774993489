/** Choice of a timber by name and colour: a dialog of all timbers, ordered from light to dark. */
import { useId, useRef, useState, type CSSProperties } from 'react';
import { colorGiven } from '../../design/colors.ts';
import { clearColor, setColor } from '../../design/woodEdits.ts';
import { TIMBERS, timberById, type Timber } from '../../timber/timbers.ts';
import { useBench } from '../bench.ts';
import { newGesture } from '../gesture.ts';
import { useTimberColour } from '../timberColour.ts';
import { figurePlace } from './figure.ts';
import './figure.css';
import { inSentence, timberName } from '../../timber/names.ts';

const LIGHT_TO_DARK: readonly Timber[] = [...TIMBERS].sort((a, b) => b.lab[0] - a.lab[0]);

export interface TimberPickerProps {
  readonly label: string;
  readonly value: string;
  readonly onChange: (timber: string) => void;
  /** Leaves out the name beside the button, where the row says it already. */
  readonly bare?: boolean;
}

export function TimberPicker({ label, value, onChange, bare }: TimberPickerProps) {
  const id = useId();
  const dialog = useRef<HTMLDialogElement>(null);
  const chosen = timberById(value);
  const button = (
    <button
      type="button"
      className="timber-button"
      aria-haspopup="dialog"
      aria-label={`${label}: ${chosen?.name ?? value}`}
      onClick={() => dialog.current?.showModal()}
    >
      <Swatch timber={value} />
      <span>{chosen?.name ?? value}</span>
    </button>
  );
  return (
    <>
      {bare ? (
        button
      ) : (
        <div className="field timber-field">
          <span className="field-name">{label}</span>
          {button}
        </div>
      )}
      <dialog ref={dialog} className="timbers" aria-labelledby={`${id}-title`} closedby="any">
        <h2 id={`${id}-title`}>{label}</h2>
        <p className="lede">Colours are estimates of planed, unfinished heartwood.</p>
        <ul>
          {LIGHT_TO_DARK.map((timber) => (
            <li key={timber.id}>
              <button
                type="button"
                aria-pressed={timber.id === value}
                onClick={() => {
                  dialog.current?.close();
                  if (timber.id !== value) onChange(timber.id);
                }}
              >
                <Swatch timber={timber.id} />
                <span>
                  {timber.name}
                  <small>{timber.botanicalName}</small>
                </span>
              </button>
            </li>
          ))}
        </ul>
        <ShownColour timber={value} />
        <form method="dialog">
          <button type="submit" className="button">
            Keep {chosen?.name ?? value}
          </button>
        </form>
      </dialog>
    </>
  );
}

/** The colour that the design shows a timber in: a maker's own board is never quite the one in the book. */
function ShownColour({ timber }: { timber: string }) {
  const id = useId();
  const colourOf = useTimberColour();
  const own = useBench((bench) => colorGiven(bench.design, timber) !== undefined);
  const edit = useBench((bench) => bench.edit);
  const endGesture = useBench((bench) => bench.endGesture);
  const name = timberName(timber);
  const [gesture, setGesture] = useState(newGesture);
  return (
    <div className="shown-colour">
      <label htmlFor={id}>{name} is shown as</label>
      <input
        id={id}
        type="color"
        value={colourOf(timber)}
        onChange={(event) =>
          edit(
            `colour of ${inSentence(name)}`,
            (design) => setColor(design, timber, event.target.value),
            gesture,
          )
        }
        onBlur={() => {
          endGesture();
          setGesture(newGesture());
        }}
      />
      <button
        type="button"
        className="button quiet"
        disabled={!own}
        onClick={() => edit(`colour of ${inSentence(name)}`, (design) => clearColor(design, timber))}
      >
        Its usual colour
      </button>
    </div>
  );
}

/** A chip of a timber: its colour and its figure. */
export function Swatch({ timber }: { timber: string }) {
  const colourOf = useTimberColour();
  return <span className="swatch figured" aria-hidden="true" style={figured(timber, colourOf(timber))} />;
}

function figured(timber: string, colour: string): CSSProperties {
  const place = figurePlace(timber);
  // A timber that this version does not know has a colour at most.
  return {
    backgroundColor: colour,
    ...(place === null ? { backgroundImage: 'none' } : { backgroundPosition: place }),
  };
}

/** A strip's layers side by side, foot side at the left. */
export function StripChip({
  layers,
}: {
  layers: readonly { readonly timber: string; readonly thickness_mm: number }[];
}) {
  const colourOf = useTimberColour();
  return (
    <span className="strip-chip" aria-hidden="true">
      {layers.map((layer, i) => (
        <i
          key={i}
          className="figured"
          style={{ flexGrow: layer.thickness_mm, ...figured(layer.timber, colourOf(layer.timber)) }}
        />
      ))}
    </span>
  );
}
