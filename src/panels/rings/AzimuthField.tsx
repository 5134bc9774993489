/**
 * From which sides a set is cut: two to eight azimuths spread evenly, one alone, or free ones. An azimuth is
 * that of the face at the fence, counter-clockwise seen from the head, degrees.
 */
import { Plus, X } from 'lucide-react';
import { useState } from 'react';
import type { Design, SlotSet } from '../../design/document.ts';
import { addSlot, removeSlot, updateSet } from '../../design/edits.ts';
import { faceLetterAt, sectionGeometry } from '../../design/section.ts';
import { normalizeDegrees } from '../../geometry/angle.ts';
import { NumberField } from '../fields/NumberField.tsx';
import { ANGLE } from '../fields/quantity.ts';
import { Segmented } from '../fields/Segmented.tsx';
import type { SetAct } from './SetEditor.tsx';

const COUNTS = [1, 2, 3, 4, 6, 8] as const;

export interface AzimuthFieldProps {
  readonly design: Design;
  readonly set: SlotSet;
  readonly onAct: SetAct;
  readonly onSettle: () => void;
}

export function AzimuthField({ design, set, onAct, onSettle }: AzimuthFieldProps) {
  const azimuths = set.fence_azimuths_deg;
  // Free is a way to set azimuths: evenly spread ones stay where they are until one of them is changed.
  const [freeSet, setFreeSet] = useState<string | null>(null);
  const even = freeSet === set.id ? null : evenCount(azimuths);
  const section = sectionGeometry(design.blank.section);
  const change = (next: readonly number[], gesture?: string) =>
    onAct('faces', (current) => updateSet(current, set.id, { fence_azimuths_deg: next }), gesture);
  return (
    <>
      <Segmented
        label="Cuts around the blank"
        field
        value={even ?? 0}
        choices={[
          ...COUNTS.map((n) => ({ value: n as number, name: String(n), title: `${n} around` })),
          { value: 0, name: 'Free', title: 'Free azimuths' },
        ]}
        onChange={(n) => {
          setFreeSet(n === 0 ? set.id : null);
          if (n > 0) change(evenAzimuths(n, azimuths[0] ?? 0));
        }}
      />
      {even !== null ? (
        <NumberField
          label={firstName(faceLetterAt(section, azimuths[0]))}
          value={azimuths[0]}
          quantity={ANGLE}
          min={0}
          max={359.99}
          onChange={(azimuth, gesture) => change(evenAzimuths(even, azimuth), gesture)}
          onSettle={onSettle}
        />
      ) : (
        <div className="free-azimuths">
          {azimuths.map((azimuth, i) => (
            <div key={i} className="removable">
              <NumberField
                label={`${set.id}.${i + 1} ${faceWords(faceLetterAt(section, azimuth))}`}
                value={azimuth}
                quantity={ANGLE}
                min={0}
                max={359.99}
                onChange={(value, gesture) => change(azimuths.with(i, value), gesture)}
                onSettle={onSettle}
              />
              <button
                type="button"
                className="icon"
                aria-label={`Remove cut ${set.id}.${i + 1}`}
                disabled={azimuths.length === 1}
                onClick={() =>
                  onAct(`remove cut ${i + 1}`, (current) => removeSlot(current, `${set.id}.${i + 1}`))
                }
              >
                <X />
              </button>
            </div>
          ))}
          <button
            type="button"
            className="button quiet"
            onClick={() => onAct('one more cut', (current) => addSlot(current, set.id, nextFree(azimuths)))}
          >
            <Plus /> Add a cut
          </button>
        </div>
      )}
    </>
  );
}

function firstName(letter: string | null): string {
  return letter === null ? 'Starts on no face' : `Starts at face ${letter}`;
}

function faceWords(letter: string | null): string {
  return letter === null ? 'on no face' : `face ${letter}`;
}

export function evenAzimuths(n: number, first_deg: number): number[] {
  return Array.from({ length: n }, (_, i) => normalizeDegrees(first_deg + (i * 360) / n));
}

/** How many evenly spread azimuths these are, when their number is one of the choices and they go around in order. */
export function evenCount(azimuths_deg: readonly number[]): number | null {
  const n = azimuths_deg.length;
  if (!COUNTS.some((count) => count === n)) return null;
  const expected = evenAzimuths(n, azimuths_deg[0]);
  return expected.every((azimuth, i) => Math.abs(azimuth - normalizeDegrees(azimuths_deg[i])) < 1e-6)
    ? n
    : null;
}

/** The middle of the widest gap. */
function nextFree(azimuths_deg: readonly number[]): number {
  const sorted = azimuths_deg.map(normalizeDegrees).sort((a, b) => a - b);
  let best = 0;
  let widest = -1;
  sorted.forEach((azimuth, i) => {
    const next = i + 1 < sorted.length ? sorted[i + 1] : sorted[0] + 360;
    if (next - azimuth > widest) {
      widest = next - azimuth;
      best = normalizeDegrees(azimuth + widest / 2);
    }
  });
  return best;
}
