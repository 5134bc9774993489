/** One step: its drawing, the numbers that matter, what to check, the cautions that belong here. */
import { ChevronDown, TriangleAlert } from 'lucide-react';
import { useEffect, useMemo, useRef, useState, type ReactNode } from 'react';
import type { Design } from '../../design/document.ts';
import type { Caution } from '../../plan/cautions.ts';
import { inUnit } from '../messages/inUnit.ts';
import { DrawingSvg } from '../plan/DrawingSvg.tsx';
import { figureOf } from './figures.ts';
import type { SawStep, StepSource } from './steps.ts';
import type { StepWords } from './words.ts';

export interface StepViewProps {
  readonly step: SawStep;
  readonly design: Design;
  readonly source: StepSource;
  readonly words: StepWords;
  readonly cautions: readonly Caution[];
  readonly done: boolean;
  /** Fields or the clock, below the rest. */
  readonly children?: ReactNode;
}

export function StepView({ step, design, source, words, cautions, done, children }: StepViewProps) {
  const figure = useMemo(
    () => (step.kind === 'measure' || step.kind === 'clamp' ? null : figureOf(step, design, source)),
    [step, design, source],
  );
  const box = useRef<HTMLDivElement>(null);
  const more = useMore(box, step.id);
  return (
    <div className="saw-step" data-kind={step.kind} data-figure={figure !== null} ref={box}>
      <h1>
        {words.title}
        {done && <span className="saw-ticked">ticked off</span>}
      </h1>
      <p className="saw-lead">{words.lead}</p>
      {figure && (
        <figure className="saw-figure">
          <DrawingSvg {...figure} />
        </figure>
      )}
      {words.numbers.length > 0 && (
        <dl className="saw-numbers" data-count={words.numbers.length}>
          {words.numbers.map(({ name, value, note }) => (
            <div key={name}>
              <dt>{name}</dt>
              <dd data-long={value.length > 8}>{value}</dd>
              {note !== undefined && <dd className="saw-note">{note}</dd>}
            </div>
          ))}
        </dl>
      )}
      {children}
      {(words.checks.length > 0 || cautions.length > 0) && (
        <div className="saw-words">
          {words.checks.length > 0 && (
            <ul className="saw-checks" aria-label="Check">
              {words.checks.map((check) => (
                <li key={check}>{check}</li>
              ))}
            </ul>
          )}
          {cautions.length > 0 && (
            <ul className="saw-cautions" aria-label="Cautions">
              {cautions.map((caution) => (
                <li key={caution.id}>
                  <TriangleAlert aria-hidden="true" />
                  <p>
                    {inUnit(caution.text, design.unit)} <small>{caution.source}</small>
                  </p>
                </li>
              ))}
            </ul>
          )}
        </div>
      )}
      {more && (
        <button
          type="button"
          className="saw-button saw-more"
          onClick={() => box.current?.scrollBy({ top: box.current.clientHeight * 0.7, behavior: 'smooth' })}
        >
          <ChevronDown /> More below
        </button>
      )}
    </div>
  );
}

/** Whether there is more below the edge, so that a button can bring it up: no swipe is needed. */
function useMore(box: React.RefObject<HTMLElement | null>, stepId: string): boolean {
  const [more, setMore] = useState(false);
  useEffect(() => {
    const element = box.current;
    if (!element) return undefined;
    element.scrollTop = 0;
    const look = () => setMore(element.scrollTop + element.clientHeight < element.scrollHeight - 24);
    const watch = new ResizeObserver(look);
    watch.observe(element);
    for (const child of element.children) watch.observe(child);
    element.addEventListener('scroll', look, { passive: true });
    look();
    return () => {
      watch.disconnect();
      element.removeEventListener('scroll', look);
    };
  }, [box, stepId]);
  return more;
}
