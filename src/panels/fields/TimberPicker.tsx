/** Choice of a timber by name and colour: a dialog of all timbers, ordered from light to dark. */
import { useId, useRef, type CSSProperties } from 'react';
import { TIMBERS, timberById, type Timber } from '../../timber/timbers.ts';

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
        <form method="dialog">
          <button type="submit" className="button">
            Keep {chosen?.name ?? value}
          </button>
        </form>
      </dialog>
    </>
  );
}

/** A chip of a timber's colour. */
export function Swatch({ timber }: { timber: string }) {
  return (
    <span
      className="swatch"
      aria-hidden="true"
      style={{ '--timber': timberById(timber)?.srgb ?? 'transparent' } as CSSProperties}
    />
  );
}

/** A strip's layers side by side, foot side at the left. */
export function StripChip({
  layers,
}: {
  layers: readonly { readonly timber: string; readonly thickness_mm: number }[];
}) {
  return (
    <span className="strip-chip" aria-hidden="true">
      {layers.map((layer, i) => (
        <i key={i} style={{ flexGrow: layer.thickness_mm, background: timberById(layer.timber)?.srgb }} />
      ))}
    </span>
  );
}
