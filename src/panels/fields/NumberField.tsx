/**
 * One number with its unit: typed (any unit the quantity reads), dragged by its name, or stepped with the
 * arrow keys (shift: ten steps, alt: a tenth). What is typed is checked at every key and enters the design on
 * Enter or when the field is left; a number that cannot be is kept in the field beside the reason until the
 * design changes.
 */
import {
  useId,
  useRef,
  useState,
  type KeyboardEvent,
  type MouseEvent,
  type PointerEvent,
  type ReactNode,
} from 'react';
import { useBench } from '../bench.ts';
import { newGesture } from '../gesture.ts';
import type { Quantity } from './quantity.ts';

export interface NumberFieldProps {
  readonly label: string;
  /** What the number is of, for those who hear the name without seeing where it stands. */
  readonly of?: string;
  readonly value: number;
  readonly quantity: Quantity;
  readonly min: number;
  readonly max: number;
  /** Why a number within min and max cannot be, or null. */
  readonly check?: (value: number) => string | null;
  /** Shows a slider over this range below the field. */
  readonly slider?: { readonly min: number; readonly max: number };
  readonly disabled?: boolean;
  readonly note?: ReactNode;
  /** `gesture` is the same for all changes of one drag or one run of key presses. */
  readonly onChange: (value: number, gesture: string) => void;
  readonly onSettle: () => void;
}

export function NumberField(props: NumberFieldProps) {
  const { label, value, quantity, min, max, disabled } = props;
  const id = useId();
  // What is typed was meant for the design as it then was: it does not outlive that design.
  const design = useBench((bench) => bench.design);
  const [typed, setTyped] = useState<{ text: string; into: typeof design } | null>(null);
  const draft = typed !== null && typed.into === design ? typed.text : null;
  const setDraft = (text: string | null) => setTyped(text === null ? null : { text, into: design });
  const input = useRef<HTMLInputElement>(null);
  const steps = useRef<{ gesture: string; until: number } | null>(null);
  const read = draft === null ? null : readDraft(draft, props);
  const reason = read !== null && !read.ok ? read.reason : null;

  const commit = () => {
    if (draft === null || read === null || !read.ok) return;
    setDraft(null);
    if (quantity.format(read.value) !== quantity.format(value)) {
      props.onChange(read.value, newGesture());
      props.onSettle();
    }
  };
  const step = (direction: number, event: KeyboardEvent<HTMLInputElement>) => {
    const size = quantity.step * (event.shiftKey ? 10 : event.altKey ? 0.1 : 1);
    const from = read?.ok ? read.value : value;
    const now = event.timeStamp;
    if (!steps.current || now > steps.current.until) steps.current = { gesture: newGesture(), until: 0 };
    steps.current.until = now + 800;
    setDraft(null);
    const grid = Math.min(size, quantity.step);
    props.onChange(held(onGrid(from + direction * size, grid), min, max), steps.current.gesture);
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>) => {
    if (event.key === 'ArrowUp' || event.key === 'ArrowDown') {
      event.preventDefault();
      step(event.key === 'ArrowUp' ? 1 : -1, event);
    } else if (event.key === 'Enter') {
      event.preventDefault();
      commit();
      input.current?.select();
    } else if (event.key === 'Escape' && draft !== null) {
      event.preventDefault();
      setDraft(null);
    }
  };
  const drag = useValueDrag(props, () => setDraft(null));

  return (
    <div className="field">
      <label
        htmlFor={id}
        className={disabled ? 'field-name' : 'field-name drags'}
        title={disabled ? undefined : 'Drag to change'}
        {...(disabled ? {} : drag)}
      >
        {label}
      </label>
      <div className="field-value">
        <input
          ref={input}
          id={id}
          type="text"
          role="spinbutton"
          inputMode="text"
          autoComplete="off"
          spellCheck={false}
          aria-label={props.of === undefined ? undefined : `${label}, ${props.of}`}
          disabled={disabled}
          value={draft ?? quantity.format(value)}
          aria-valuenow={round(value)}
          aria-valuemin={round(min)}
          aria-valuemax={Number.isFinite(max) ? round(max) : undefined}
          aria-valuetext={quantity.format(value)}
          data-typed={draft !== null}
          aria-invalid={reason !== null}
          aria-describedby={reason === null ? undefined : `${id}-reason`}
          onFocus={(event) => event.target.select()}
          onChange={(event) => setDraft(event.target.value)}
          onBlur={() => {
            commit();
            props.onSettle();
          }}
          onKeyDown={onKeyDown}
        />
      </div>
      {reason !== null && (
        <p className="field-reason" id={`${id}-reason`} role="alert">
          {reason}
        </p>
      )}
      {props.note}
      {props.slider && <FieldSlider {...props} slider={props.slider} />}
    </div>
  );
}

function FieldSlider(props: NumberFieldProps & { slider: { min: number; max: number } }) {
  const { label, value, quantity, slider } = props;
  const gesture = useRef<string | null>(null);
  return (
    <input
      type="range"
      aria-label={`${label}, slider`}
      aria-valuetext={quantity.format(value)}
      min={slider.min}
      max={slider.max}
      step={quantity.step}
      value={value}
      disabled={props.disabled}
      onChange={(event) => {
        gesture.current ??= newGesture();
        props.onChange(held(event.target.valueAsNumber, props.min, props.max), gesture.current);
      }}
      onPointerUp={() => {
        gesture.current = null;
        props.onSettle();
      }}
      onKeyUp={() => {
        gesture.current = null;
      }}
      onBlur={props.onSettle}
    />
  );
}

type Read = { readonly ok: true; readonly value: number } | { readonly ok: false; readonly reason: string };

function readDraft(draft: string, props: NumberFieldProps): Read {
  const { quantity, min, max, check } = props;
  const parsed = quantity.parse(draft);
  if (!parsed.ok) return parsed;
  const { value } = parsed;
  if (value < min) return { ok: false, reason: `At least ${quantity.format(min)}` };
  if (value > max) return { ok: false, reason: `At most ${quantity.format(max)}` };
  const reason = check?.(value) ?? null;
  return reason === null ? parsed : { ok: false, reason };
}

/** Pixels of a drag that make one step. */
const PIXELS_PER_STEP = 4;

function useValueDrag(props: NumberFieldProps, onStart: () => void) {
  const drag = useRef<{ x: number; value: number; gesture: string; moved: boolean } | null>(null);
  const dragged = useRef(false);
  return {
    onPointerDown: (event: PointerEvent<HTMLElement>) => {
      if (event.button !== 0) return;
      drag.current = { x: event.clientX, value: props.value, gesture: newGesture(), moved: false };
      event.currentTarget.setPointerCapture(event.pointerId);
    },
    onPointerMove: (event: PointerEvent<HTMLElement>) => {
      const from = drag.current;
      if (!from) return;
      const dx = event.clientX - from.x;
      if (!from.moved && Math.abs(dx) < 4) return;
      if (!from.moved) onStart();
      from.moved = true;
      const size = props.quantity.step * (event.shiftKey ? 10 : event.altKey ? 0.1 : 1);
      const grid = Math.min(size, props.quantity.step);
      const value = onGrid(from.value + Math.round(dx / PIXELS_PER_STEP) * size, grid);
      props.onChange(held(value, props.min, props.max), from.gesture);
    },
    onPointerUp: () => {
      dragged.current = drag.current?.moved === true;
      if (dragged.current) props.onSettle();
      drag.current = null;
    },
    // A click on a label would put the focus into the field; after a drag it stays where it was.
    onClick: (event: MouseEvent<HTMLElement>) => {
      if (dragged.current) event.preventDefault();
      dragged.current = false;
    },
    onPointerCancel: () => {
      if (drag.current?.moved) props.onSettle();
      drag.current = null;
    },
  };
}

/** The nearest multiple of a step, without the dust of binary fractions. */
function onGrid(value: number, step: number): number {
  return Number((Math.round(value / step) * step).toPrecision(12));
}

function held(value: number, min: number, max: number): number {
  return Math.min(Math.max(value, min), max);
}

function round(value: number): number {
  return Math.round(value * 1e4) / 1e4;
}
