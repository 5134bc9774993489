/** A labelled text, in one line or several. What is typed goes to `onChange` at every key. */
import { useId } from 'react';

export interface TextRowProps {
  readonly label: string;
  readonly value: string;
  readonly maxLength: number;
  readonly lines?: number;
  readonly type?: 'text' | 'date';
  readonly placeholder?: string;
  readonly autoComplete?: 'name';
  readonly onChange: (text: string) => void;
  readonly onSettle?: () => void;
}

export function TextRow({ label, value, maxLength, lines = 1, type = 'text', ...rest }: TextRowProps) {
  const id = useId();
  const common = {
    id,
    value,
    maxLength,
    placeholder: rest.placeholder,
    autoComplete: rest.autoComplete,
    onBlur: rest.onSettle,
  };
  return (
    <div className="text-row">
      <label htmlFor={id}>{label}</label>
      {lines > 1 ? (
        <textarea {...common} rows={lines} onChange={(event) => rest.onChange(event.target.value)} />
      ) : (
        <input {...common} type={type} onChange={(event) => rest.onChange(event.target.value)} />
      )}
    </div>
  );
}
