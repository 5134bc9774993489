/** One step: its drawing, the numbers that matter, what to check, the cautions that belong here. */
import { TriangleAlert } from 'lucide-react';
import { useMemo, type ReactNode, type RefObject } from 'react';
import type { Design } from '../../design/document.ts';
import type { Caution } from '../../plan/cautions.ts';
import { worded } from '../../plan/wording.ts';
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
  /** The part of the window that scrolls. */
  readonly box: RefObject<HTMLDivElement | null>;
  /** Fields or the clock, below the rest. */
  readonly children?: ReactNode;
}

export function StepView({ step, design, source, words, cautions, done, box, children }: StepViewProps) {
  const figure = useMemo(
    () => (hasFigure(step) ? figureOf(step, design, source) : null),
    [step, design, source],
  );
  return (
    <section
      aria-label="Step"
      // It scrolls on small screens: without a pointer the arrow keys reach what is below the edge.
      // oxlint-disable-next-line jsx-a11y/no-noninteractive-tabindex
      tabIndex={0}
      className="saw-step"
      data-kind={step.kind}
      data-figure={figure !== null}
      ref={box}
    >
      <h1>
        {words.title} {done && <span className="saw-ticked">ticked off</span>}
      </h1>
      <p className="saw-lead">{words.lead}</p>
      {figure && (
        <figure className="saw-figure">
          <DrawingSvg {...figure} />
        </figure>
      )}
      {words.numbers.length > 0 && (
        <dl className="saw-numbers" data-count={words.numbers.length}>
          {words.numbers.map(({ name, value, note }, i) => (
            // Two groups of strips may be of one timber.
            <div key={i}>
              <dt>{name}</dt>
              <dd data-long={value.length > 8}>{value}</dd>
              {note !== undefined && <dd className="saw-note">{note}</dd>}
            </div>
          ))}
        </dl>
      )}
      {children}
      {(words.checks.length > 0 || cautions.length > 0) && (
        <div className="saw-words" data-many={isMuch(cautions, design)}>
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
                    {worded(caution.words, design.unit)} <small>{shortSource(caution.source)}</small>
                  </p>
                </li>
              ))}
            </ul>
          )}
        </div>
      )}
    </section>
  );
}

/** At a cut in passes their places and the cautions take the room of the drawing, which was at the marks. */
function hasFigure(step: SawStep): boolean {
  if (step.kind === 'measure' || step.kind === 'clamp') return false;
  return !('cut' in step && step.kind === 'cut' && step.cut.passes !== null);
}

/** Where it is from, without the remarks on it: those stand in the plan and on the sheet. */
function shortSource(source: string): string {
  return source.replaceAll(/ \([^()]*\)/g, '').trim();
}

/** Cautions that need the whole width. */
const MUCH_CHARACTERS = 150;

function isMuch(cautions: readonly Caution[], { unit }: Design): boolean {
  const characters = cautions.reduce((sum, { words }) => sum + worded(words, unit).length, 0);
  return cautions.length > 2 || characters > MUCH_CHARACTERS;
}
