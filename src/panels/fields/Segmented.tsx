/** One of a few choices, all in view. */
import type { ReactNode } from 'react';

export interface SegmentedProps<T extends string | number> {
  readonly label: string;
  readonly value: T;
  readonly choices: readonly { readonly value: T; readonly name: ReactNode; readonly title?: string }[];
  readonly onChange: (value: T) => void;
  /** Shows the label beside the choices as a field. */
  readonly field?: boolean;
}

export function Segmented<T extends string | number>(props: SegmentedProps<T>) {
  const group = (
    <fieldset className="segmented wide" aria-label={props.label}>
      {props.choices.map((choice) => (
        <button
          key={choice.value}
          type="button"
          aria-pressed={choice.value === props.value}
          aria-label={choice.title}
          title={choice.title}
          onClick={() => {
            if (choice.value !== props.value) props.onChange(choice.value);
          }}
        >
          {choice.name}
        </button>
      ))}
    </fieldset>
  );
  if (!props.field) return group;
  return (
    <div className="field stacked">
      <span className="field-name" aria-hidden="true">
        {props.label}
      </span>
      {group}
    </div>
  );
}
