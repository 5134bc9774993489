/**
 * A text of several lines that goes with the design, such as the maker's notes. It grows with what is in it; all that
 * is typed until the field is left is one undo step.
 */
import { useId, useState } from 'react';
import { MAX_NOTES_CHARACTERS } from '../../design/limits.ts';
import { newGesture } from '../gesture.ts';

export interface NotesFieldProps {
  readonly label: string;
  readonly value: string;
  readonly placeholder?: string;
  readonly onChange: (text: string, gesture: string) => void;
  readonly onSettle: () => void;
}

export function NotesField({ label, value, placeholder, onChange, onSettle }: NotesFieldProps) {
  const id = useId();
  const [gesture, setGesture] = useState(newGesture);
  return (
    <div className="field stacked notes">
      <label className="field-name" htmlFor={id}>
        {label}
      </label>
      <textarea
        id={id}
        rows={1}
        value={value}
        placeholder={placeholder}
        maxLength={MAX_NOTES_CHARACTERS}
        onChange={(event) => onChange(event.target.value, gesture)}
        onBlur={() => {
          onSettle();
          setGesture(newGesture());
        }}
      />
    </div>
  );
}
