/**
 * At the saw: the work step by step on a whole screen, for a tablet in the shop. Read from two metres, used with
 * gloves, nothing but taps. Ticks and measures are edits of the design; the step in view and the clamp timers
 * stay on this device (shopMemory.ts).
 */
import { X } from 'lucide-react';
import { useEffect, useRef, type ReactNode } from 'react';
import { useBench } from '../bench.ts';
import { Steps } from './Steps.tsx';
import { useSawPlan } from './useSawPlan.ts';
import './atsaw.css';
import './step.css';
import './made.css';
import './clampClock.css';
import './sizes.css';

export interface AtSawProps {
  /** Names the piece of work on this device: timers and the step in view are kept under it. */
  readonly workId: string;
  /** Why ticks are not kept; null: they are. */
  readonly notKept: string | null;
  readonly onLeave: () => void;
  readonly onTheme: () => void;
}

export function AtSaw(props: AtSawProps) {
  const design = useBench((bench) => bench.design);
  const undo = useBench((bench) => bench.undo);
  const redo = useBench((bench) => bench.redo);
  const { plan, fault } = useSawPlan(design);
  const dialog = useRef<HTMLDialogElement>(null);
  useEffect(() => {
    if (!dialog.current || dialog.current.open) return;
    dialog.current.showModal();
    // A dialog gives the focus to its first button, and that is Leave: one press of a key would end the mode.
    dialog.current.querySelector<HTMLElement>('.saw-step')?.focus({ preventScroll: true });
  }, []);
  // The keys of the whole window rest while a dialog is open; these hold wherever the focus is.
  useEffect(() => {
    const onKey = (event: KeyboardEvent) => {
      if (!(event.ctrlKey || event.metaKey)) return;
      const key = event.key.toLowerCase();
      if (key === 'z' && !event.shiftKey) undo();
      else if (key === 'y' || key === 'z') redo();
      else return;
      event.preventDefault();
    };
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  }, [undo, redo]);
  const empty = design.order.length === 0;
  return (
    <dialog
      ref={dialog}
      className="at-saw"
      aria-label="At the saw"
      onCancel={(event) => {
        if (event.target !== dialog.current) return;
        event.preventDefault();
        props.onLeave();
      }}
    >
      {empty || !plan ? (
        <Waiting onLeave={props.onLeave}>
          {empty
            ? 'There is nothing to saw yet: add a set at the Rings station.'
            : fault === null
              ? 'Working out the plan …'
              : `The plan could not be worked out: ${fault}`}
        </Waiting>
      ) : (
        <Steps key={props.workId} {...props} design={design} plan={plan} />
      )}
    </dialog>
  );
}

function Waiting({ children, onLeave }: { children: ReactNode; onLeave: () => void }) {
  return (
    <div className="saw-waiting">
      <h1>At the saw</h1>
      <p aria-live="polite">{children}</p>
      <button type="button" className="saw-button" onClick={onLeave}>
        <X /> Leave
      </button>
    </div>
  );
}
