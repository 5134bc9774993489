/** The paper that a PDF is printed on. */
import type { PaperName } from '../../files/sheet/frame.ts';
import { Segmented } from './Segmented.tsx';
import './paper.css';

interface PaperChoiceProps {
  readonly paper: PaperName;
  readonly onChange: (paper: PaperName) => void;
}

export function PaperChoice({ paper, onChange }: PaperChoiceProps) {
  return (
    <Segmented
      label="Paper"
      value={paper}
      choices={[
        { value: 'letter', name: 'Letter' },
        { value: 'a4', name: 'A4' },
      ]}
      onChange={onChange}
    />
  );
}
