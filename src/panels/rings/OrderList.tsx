/**
 * The order of cutting as a list: drag a row, or move it with its buttons, or with the arrow keys on its grip. The
 * line below says which crossings a move turned over.
 */
import { ChevronDown, ChevronUp, GripVertical } from 'lucide-react';
import { useEffect, useMemo, useRef, useState, type KeyboardEvent, type PointerEvent } from 'react';
import type { Design, SlotId } from '../../design/document.ts';
import { moveInOrder, resetOrder } from '../../design/edits.ts';
import { defaultOrder } from '../../design/order.ts';
import { faceLetterAt, sectionGeometry } from '../../design/section.ts';
import { useBench } from '../bench.ts';
import { crossingsFor, slotsFor } from '../derived.ts';
import { newGesture } from '../gesture.ts';
import { StripChip } from '../fields/TimberPicker.tsx';

const ROW_PX = 44;

export function OrderList({ design }: { design: Design }) {
  const edit = useBench((bench) => bench.edit);
  const endGesture = useBench((bench) => bench.endGesture);
  const point = useBench((bench) => bench.point);
  const [news, setNews] = useState('');
  const slots = slotsFor(design);
  const section = sectionGeometry(design.blank.section);
  const isDefault = useMemo(
    () => defaultOrder(design.sets).every((id, i) => id === design.order[i]),
    [design.sets, design.order],
  );
  const drag = useRef<{ slot: SlotId; y: number; from: number; gesture: string; before: Design } | null>(
    null,
  );

  // Moving a row in the document takes the focus from its grip.
  const list = useRef<HTMLOListElement>(null);
  const focusAfter = useRef<SlotId | null>(null);
  useEffect(() => {
    if (focusAfter.current === null) return;
    list.current?.querySelector<HTMLElement>(`[data-grip="${focusAfter.current}"]`)?.focus();
    focusAfter.current = null;
  }, [design.order]);

  const move = (slot: SlotId, to: number, before: Design, gesture: string) => {
    let after = before;
    edit(
      `move ${slot} in the order`,
      (current) => {
        after = moveInOrder(current, slot, to);
        return after;
      },
      gesture,
    );
    setNews(turnedWords(before, after, slot));
  };
  const onKeyDown = (event: KeyboardEvent<HTMLElement>, slot: SlotId, index: number) => {
    if (event.key !== 'ArrowUp' && event.key !== 'ArrowDown') return;
    event.preventDefault();
    focusAfter.current = slot;
    move(slot, index + (event.key === 'ArrowUp' ? -1 : 1), design, newGesture());
    endGesture();
  };
  const startDrag = (event: PointerEvent<HTMLElement>, slot: SlotId, index: number) => {
    event.preventDefault();
    drag.current = { slot, y: event.clientY, from: index, gesture: newGesture(), before: design };
    event.currentTarget.setPointerCapture(event.pointerId);
  };
  const onDrag = (event: PointerEvent<HTMLElement>) => {
    const from = drag.current;
    if (from)
      move(from.slot, from.from + Math.round((event.clientY - from.y) / ROW_PX), from.before, from.gesture);
  };
  const stopDrag = () => {
    drag.current = null;
    endGesture();
  };

  return (
    <section className="group" aria-label="Order of cutting">
      <div className="group-head">
        <h2>Order of cutting</h2>
        {!isDefault && (
          <button type="button" className="button quiet" onClick={() => edit('reset the order', resetOrder)}>
            Set after set
          </button>
        )}
      </div>
      <p className="lede">A later cut goes through everything before it, so its strip lies on top.</p>
      <ol ref={list} className="order-list">
        {slots.map((slot, i) => (
          <li
            key={slot.id}
            onPointerEnter={() => point({ kind: 'ring', slot: slot.id })}
            onPointerLeave={() => point(null)}
          >
            <button
              type="button"
              className="grip"
              data-grip={slot.id}
              aria-label={`Move ${slot.id}, cut ${i + 1}: drag, or use the arrow keys`}
              onKeyDown={(event) => onKeyDown(event, slot.id, i)}
              onPointerDown={(event) => startDrag(event, slot.id, i)}
              onPointerMove={onDrag}
              onPointerUp={stopDrag}
              onPointerCancel={stopDrag}
            >
              <GripVertical />
            </button>
            <span className="order-number">{i + 1}</span>
            <StripChip layers={slot.layers} />
            <span className="order-name">
              <b>{slot.id}</b> {faceName(faceLetterAt(section, slot.fenceAzimuth_deg), slot.fenceAzimuth_deg)}
            </span>
            <button
              type="button"
              className="icon"
              aria-label={`Cut ${slot.id} earlier`}
              disabled={i === 0}
              onClick={() => {
                move(slot.id, i - 1, design, newGesture());
                endGesture();
              }}
            >
              <ChevronUp />
            </button>
            <button
              type="button"
              className="icon"
              aria-label={`Cut ${slot.id} later`}
              disabled={i === slots.length - 1}
              onClick={() => {
                move(slot.id, i + 1, design, newGesture());
                endGesture();
              }}
            >
              <ChevronDown />
            </button>
          </li>
        ))}
      </ol>
      <output className="lede">{news}</output>
    </section>
  );
}

function faceName(letter: string | null, azimuth_deg: number): string {
  return letter === null ? `${Math.round(azimuth_deg * 10) / 10}°` : `face ${letter}`;
}

/** Which crossings of the slot lie the other way round after the move. */
function turnedWords(before: Design, after: Design, slot: SlotId): string {
  if (before === after) return '';
  const crossings = crossingsFor(before);
  if (!crossings) return '';
  const slots = slotsFor(before);
  const place = new Map(after.order.map((id, i) => [id, i]));
  const turned = crossings.filter(
    ({ under, over }) => (place.get(slots[under].id) ?? 0) > (place.get(slots[over].id) ?? 0),
  );
  if (turned.length === 0) return `No crossing changes: ${slot} meets none of the strips that it passed.`;
  const others = new Set(turned.flatMap(({ under, over }) => [slots[under].id, slots[over].id]));
  others.delete(slot);
  return `${turned.length} ${turned.length === 1 ? 'crossing turns' : 'crossings turn'} over: ${slot} with ${[...others].join(', ')}.`;
}
