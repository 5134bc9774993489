/**
 * What is inside the outline: wood, a hollow with a wall and a floor, or nothing at all (a ring bored right
 * through, as a bangle or a sleeve). Lengths mm.
 */
import { useMemo, useState } from 'react';
import type { Design, Form, OutlinePoint } from '../../design/document.ts';
import { setForm, setLoop } from '../../design/formEdits.ts';
import { filled, hollowed, isHollow } from '../../design/hollowing.ts';
import { insideSizes, type InsideSizes } from '../../design/insideSizes.ts';
import { useBench } from '../bench.ts';
import { NumberField } from '../fields/NumberField.tsx';
import { Reason } from '../fields/Reason.tsx';
import { lengthQuantity } from '../fields/quantity.ts';
import { Segmented } from '../fields/Segmented.tsx';

type Kind = 'solid' | 'hollow' | 'ring';

const CHOICES: readonly { value: Kind; name: string }[] = [
  { value: 'solid', name: 'Solid' },
  { value: 'hollow', name: 'Hollow' },
  { value: 'ring', name: 'Bored through' },
];

export function Inside({ design, form }: { design: Design; form: Form }) {
  const edit = useBench((bench) => bench.edit);
  const endGesture = useBench((bench) => bench.endGesture);
  const kind: Kind = form.loop ? 'ring' : isHollow(form.outline) ? 'hollow' : 'solid';
  const largest_mm = Math.max(...form.outline.map((point) => point.r_mm));
  // What was asked for holds for the inside that it made (to 2 %); any other inside is measured.
  const [asked, setAsked] = useState<(InsideSizes & { readonly made: string }) | null>(null);
  const { wall_mm, floor_mm } = useMemo(
    () =>
      asked?.made === JSON.stringify(form.outline) ? asked : sizesOf(form.outline, design.blank.length_mm),
    [asked, form.outline, design.blank.length_mm],
  );
  const [reason, setReason] = useState<string | null>(null);
  const change = (label: string, make: (design: Design) => Design, gesture?: string) =>
    setReason(edit(label, make, gesture));
  const hollowTo = (wall: number, floor: number, gesture?: string) =>
    change(
      'hollow',
      (current) => {
        const next = hollowedDesign(current, wall, floor);
        setAsked({ wall_mm: wall, floor_mm: floor, made: JSON.stringify(next.form?.outline) });
        return next;
      },
      gesture,
    );
  const choose = (choice: Kind) => {
    if (choice === 'ring') change('bore it through', (current) => setLoop(solidDesign(current), true));
    else if (choice === 'hollow') hollowTo(wall_mm, floor_mm);
    else change('fill the inside', solidDesign);
  };
  return (
    <section className="group" aria-label="Inside">
      <Segmented label="Inside" field value={kind} choices={CHOICES} onChange={choose} />
      {kind === 'hollow' && (
        <>
          <NumberField
            label="Wall"
            value={wall_mm}
            quantity={lengthQuantity(design.unit)}
            min={0.5}
            max={Math.max(largest_mm * 0.9, 1)}
            onChange={(value, gesture) => hollowTo(value, floor_mm, gesture)}
            onSettle={endGesture}
          />
          <NumberField
            label="Floor"
            value={floor_mm}
            quantity={lengthQuantity(design.unit)}
            min={0.5}
            max={design.blank.length_mm * 0.95}
            onChange={(value, gesture) => hollowTo(wall_mm, value, gesture)}
            onSettle={endGesture}
          />
          <p className="lede">Wall and floor draw the inside anew; its points can be moved afterwards.</p>
        </>
      )}
      <Reason reason={reason} />
    </section>
  );
}

/** Wall and floor of the inside that is there, or a usual one for a form that has none. */
function sizesOf(outline: readonly OutlinePoint[], length_mm: number): InsideSizes {
  const measured = insideSizes(outline);
  const largest_mm = Math.max(...outline.map((point) => point.r_mm));
  return {
    wall_mm: hundredths(measured?.wall_mm ?? largest_mm * 0.12),
    floor_mm: hundredths(measured?.floor_mm ?? length_mm * 0.1),
  };
}

/** The design with its form filled in: no hollow, no bore. */
function solidDesign(design: Design): Design {
  const closed = setLoop(design, false);
  return closed.form ? setForm(closed, { ...closed.form, outline: filled(closed.form.outline) }) : closed;
}

function hollowedDesign(design: Design, wall_mm: number, floor_mm: number): Design {
  const closed = setLoop(design, false);
  if (!closed.form) return closed;
  const outline = hollowed(closed.form.outline, wall_mm, floor_mm).map(({ z_mm, r_mm, smooth }) => ({
    z_mm: hundredths(z_mm),
    r_mm: hundredths(r_mm),
    ...(smooth ? { smooth } : {}),
  }));
  return setForm(closed, { ...closed.form, outline });
}

function hundredths(value: number): number {
  return Math.round(value * 100) / 100;
}
