/** All steps with their ticks, to go to any of them; and what is seldom needed. Rows as high as a glove needs. */
import { ArrowDown, ArrowUp, Check, Moon, RotateCcw, Sun, Undo2, X } from 'lucide-react';
import { useEffect, useRef } from 'react';
import type { SawStep } from './steps.ts';

export interface JumpListProps {
  readonly steps: readonly SawStep[];
  readonly titles: readonly string[];
  readonly places: readonly string[];
  readonly done: readonly boolean[];
  readonly current: number;
  readonly onGo: (index: number) => void;
  readonly onClose: () => void;
  readonly onUndo: () => void;
  readonly onTheme: () => void;
  readonly onClear: () => void;
}

export function JumpList(props: JumpListProps) {
  const { steps, titles, places, done, current, onGo, onClose, onUndo, onTheme, onClear } = props;
  const dialog = useRef<HTMLDialogElement>(null);
  const here = useRef<HTMLButtonElement>(null);
  const list = useRef<HTMLDivElement>(null);
  const page = (way: 1 | -1) =>
    list.current?.scrollBy({ top: way * 0.8 * list.current.clientHeight, behavior: 'smooth' });
  useEffect(() => {
    if (dialog.current && !dialog.current.open) dialog.current.showModal();
    here.current?.focus();
    here.current?.scrollIntoView({ block: 'center' });
  }, []);
  const groups = groupsOf(places);
  return (
    <dialog ref={dialog} className="saw-jump" aria-label="All steps" onClose={onClose}>
      <header>
        <h2>All steps</h2>
        <button type="button" className="saw-button" aria-label="Up the list" onClick={() => page(-1)}>
          <ArrowUp />
        </button>
        <button type="button" className="saw-button" aria-label="Down the list" onClick={() => page(1)}>
          <ArrowDown />
        </button>
        <button type="button" className="saw-button" onClick={() => dialog.current?.close()}>
          <X /> Close
        </button>
      </header>
      <div className="saw-jump-list" ref={list}>
        {groups.map(({ place, from, to }) => (
          <section key={from} aria-label={place}>
            <h3>{place}</h3>
            <ol>
              {steps.slice(from, to).map((step, i) => {
                const index = from + i;
                return (
                  <li key={step.id}>
                    <button
                      ref={index === current ? here : undefined}
                      type="button"
                      aria-current={index === current ? 'step' : undefined}
                      onClick={() => {
                        onGo(index);
                        dialog.current?.close();
                      }}
                    >
                      <span className="saw-tick" data-done={done[index]} aria-hidden="true">
                        {done[index] && <Check />}
                      </span>
                      {titles[index]}
                      {done[index] && <span className="visually-hidden">, done</span>}
                    </button>
                  </li>
                );
              })}
            </ol>
          </section>
        ))}
      </div>
      <footer>
        <button type="button" className="saw-button" onClick={onUndo}>
          <Undo2 /> Undo
        </button>
        <button type="button" className="saw-button" onClick={onTheme}>
          <Sun className="theme-light" />
          <Moon className="theme-dark" /> Light, dark
        </button>
        <button type="button" className="saw-button" onClick={onClear} disabled={!done.includes(true)}>
          <RotateCcw /> Clear ticks
        </button>
      </footer>
    </dialog>
  );
}

/** Runs of steps at one place. */
function groupsOf(places: readonly string[]): { place: string; from: number; to: number }[] {
  const groups: { place: string; from: number; to: number }[] = [];
  places.forEach((place, i) => {
    const last = groups.at(-1);
    if (last?.place === place) groups[groups.length - 1] = { ...last, to: i + 1 };
    else groups.push({ place, from: i, to: i + 1 });
  });
  return groups;
}
