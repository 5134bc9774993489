/** The step in view between the bar above (place, progress, timer, list) and the two big buttons below. */
import { ArrowLeft, ArrowRight, Check, ChevronsDown, List, Timer, X } from 'lucide-react';
import { useEffect, useMemo, useRef, useState } from 'react';
import type { Design } from '../../design/document.ts';
import { clearWork, setWorkDone } from '../../design/sawEdits.ts';
import { useBench } from '../bench.ts';
import type { WorkPlan } from '../plan/workPlan.ts';
import { pieceName } from '../pieceName.ts';
import type { AtSawProps } from './AtSaw.tsx';
import { cautionsAt } from './cautionsAt.ts';
import { ClampClock } from './ClampClock.tsx';
import { JumpList } from './JumpList.tsx';
import { MadeFields } from './MadeFields.tsx';
import { clockText, withTimer, type ClampTimer } from './shopMemory.ts';
import { firstOpen, isDone, stepSource, stepsOf, type SawStep } from './steps.ts';
import { StepView } from './StepView.tsx';
import { stepPlace, stepWords } from './stepWords.ts';
import { useAlarm } from './useAlarm.ts';
import { showMore, useMore } from './useMore.ts';
import { useShopMemory } from './useShopMemory.ts';
import { useWakeLock, type WakeState } from './useWakeLock.ts';

export interface StepsProps extends AtSawProps {
  readonly design: Design;
  readonly plan: WorkPlan;
}

export function Steps({ workId, notKept, onLeave, onTheme, design, plan }: StepsProps) {
  const edit = useBench((bench) => bench.edit);
  const endGesture = useBench((bench) => bench.endGesture);
  const undo = useBench((bench) => bench.undo);
  const piece = useBench((bench) => pieceName(bench.work));
  const { memory, change, kept } = useShopMemory(workId);
  const wake = useWakeLock();
  const { now_ms, bell, readClock, test, wakeBell } = useAlarm(memory.timers);
  const [listed, setListed] = useState(false);
  const [refused, setRefused] = useState<string | null>(null);

  const source = useMemo(() => stepSource(plan), [plan]);
  const steps = useMemo(() => stepsOf(design, source), [design, source]);
  const marks = useMemo(() => new Set(design.work?.done ?? []), [design.work]);
  const done = steps.map((step) => isDone(step, marks));
  const count = done.filter(Boolean).length;
  const kept_at = steps.findIndex(({ id }) => id === memory.step);
  const index = kept_at < 0 ? firstOpen(steps, marks) : kept_at;
  const step = steps[index];
  const last = index === steps.length - 1;
  const allDone = last && count === steps.length;
  const words = stepWords(step, design, plan);
  const sessions = source.sessions.length;
  const box = useRef<HTMLDivElement>(null);
  const more = useMore(box, step.id);
  // When the plan comes after the dialog has opened; else the dialog does it (AtSaw.tsx).
  useEffect(() => box.current?.focus({ preventScroll: true }), []);

  const go = (to: number) => {
    endGesture();
    setRefused(null);
    const target = steps[Math.min(Math.max(to, 0), steps.length - 1)];
    change((before) => ({ ...before, step: target.id }));
  };
  const tick = (ticked: SawStep, on: boolean): boolean => {
    const label = `${on ? 'tick off' : 'take back'} ${stepWords(ticked, design, plan).title}`;
    endGesture();
    const fault = edit(label, (current) =>
      ticked.marks.reduce((next, mark) => setWorkDone(next, mark, on), current),
    );
    setRefused(fault);
    return fault === null;
  };
  const finish = () => {
    if (done[index]) {
      if (allDone) onLeave();
      else go(last ? firstOpen(steps, marks) : index + 1);
      return;
    }
    if (!tick(step, true)) return;
    if (step.kind === 'clamp') change((before) => withTimer(before, step.id, null));
    go(index + 1);
  };
  const startTimer = (timer: ClampTimer) => {
    readClock();
    change((before) => withTimer(before, step.id, timer));
    // Clamps on means glue in; and an edited design is one that this browser keeps.
    const glue = steps.find((other) => other.kind === 'glue' && other.session === step.session);
    if (glue && !isDone(glue, marks)) tick(glue, true);
  };
  const onKey = (event: KeyboardEvent) => {
    if (listed || event.ctrlKey || event.metaKey || event.altKey) return;
    if (event.key === 'ArrowRight') go(index + 1);
    else if (event.key === 'ArrowLeft') go(index - 1);
    else return;
    event.preventDefault();
  };
  // Wherever the focus is. Without a list of dependencies: `go` is of this rendering.
  useEffect(() => {
    window.addEventListener('keydown', onKey);
    return () => window.removeEventListener('keydown', onKey);
  });

  const running = nearest(steps, memory.timers);
  const over = running !== null && running.timer.ends_ms <= now_ms;
  return (
    // Any touch or key wakes the bell.
    // oxlint-disable-next-line jsx-a11y/no-static-element-interactions
    <div className="saw-window" data-ringing={over} onPointerDown={wakeBell} onKeyUp={wakeBell}>
      <header className="saw-bar">
        <button type="button" className="saw-button" onClick={onLeave}>
          <X /> Leave
        </button>
        <div className="saw-place">
          <p>
            <b>
              Step {index + 1} of {steps.length}
            </b>{' '}
            <span>{count === steps.length ? 'All done' : stepPlace(step, sessions)}</span>{' '}
            <span className="saw-whose">{piece}</span>
          </p>
          <progress max={steps.length} value={count} aria-label={`${count} of ${steps.length} steps done`} />
          <WakeWords wake={wake} notKept={notKept} />
        </div>
        {running && running.step.id !== step.id && (
          <button
            type="button"
            className="saw-button saw-chip"
            data-over={over}
            aria-label={`Clamps of ${running.step.slots.join(', ')}`}
            onClick={() => go(steps.indexOf(running.step))}
          >
            <Timer /> {over ? 'Time is up' : clockText(running.timer.ends_ms - now_ms)}
          </button>
        )}
        <button type="button" className="saw-button" onClick={() => setListed(true)}>
          <List /> Steps
        </button>
      </header>
      <StepView
        step={step}
        design={design}
        source={source}
        words={words}
        cautions={cautionsAt(step, plan.cautions, design.form !== null)}
        done={done[index]}
        box={box}
      >
        {step.kind === 'clamp' && (
          <ClampClock
            timer={memory.timers[step.id] ?? null}
            minutes={design.saw.clamp_minutes}
            now_ms={now_ms}
            bell={bell}
            kept={kept}
            onStart={startTimer}
            onStop={() => change((before) => withTimer(before, step.id, null))}
            onTest={test}
          />
        )}
        <MadeFields key={step.id} step={step} design={design} source={source} />
        {refused !== null && (
          <p className="saw-reason" role="alert">
            Not ticked off: {refused}
          </p>
        )}
      </StepView>
      <footer className="saw-foot">
        <button type="button" className="saw-button" onClick={() => go(index - 1)} disabled={index === 0}>
          <ArrowLeft /> Back
        </button>
        {more && (
          <button type="button" className="saw-button saw-more" onClick={() => showMore(box)}>
            <ChevronsDown /> More
          </button>
        )}
        {done[index] && (
          <button type="button" className="saw-button" onClick={() => tick(step, false)}>
            Not done
          </button>
        )}
        <button type="button" className="saw-button strong" onClick={finish}>
          {allDone ? (
            <>
              <X /> All done: leave
            </>
          ) : done[index] ? (
            <>
              {last ? 'What is open' : 'Next'} <ArrowRight />
            </>
          ) : (
            <>
              <Check /> Done
            </>
          )}
        </button>
      </footer>
      <p className="visually-hidden" aria-live="polite">
        {`Step ${index + 1}: ${words.title}. ${words.lead} ${words.numbers.map(({ name, value }) => `${name} ${value}.`).join(' ')}`}
      </p>
      <p className="visually-hidden" aria-live="assertive">
        {over ? 'Clamp time is over.' : ''}
      </p>
      {listed && (
        <JumpList
          steps={steps}
          titles={steps.map((one) => stepWords(one, design, plan).title)}
          places={steps.map((one) =>
            one.session === null
              ? stepPlace(one, sessions)
              : `Glue-up ${one.session + 1} · ${source.sessions[one.session].join(' ')}`,
          )}
          done={done}
          current={index}
          onGo={go}
          onClose={() => setListed(false)}
          onUndo={undo}
          onTheme={onTheme}
          onClear={() => edit('clear all ticks', clearWork)}
        />
      )}
    </div>
  );
}

/** The timer that ends first, and its step. */
function nearest(
  steps: readonly SawStep[],
  timers: Readonly<Record<string, ClampTimer>>,
): { step: SawStep; timer: ClampTimer } | null {
  const found = steps.flatMap((step) => (step.id in timers ? [{ step, timer: timers[step.id] }] : []));
  if (found.length === 0) return null;
  return found.reduce((first, one) => (one.timer.ends_ms < first.timer.ends_ms ? one : first));
}

function WakeWords({ wake, notKept }: { wake: WakeState; notKept: string | null }) {
  if (notKept !== null)
    return (
      <output className="saw-wake" data-bad="true">
        Ticks are not kept: {notKept}
      </output>
    );
  return (
    <output className="saw-wake" data-bad={wake.state === 'none'}>
      {wake.state === 'held' && 'The screen stays on'}
      {wake.state === 'none' && `The screen may go dark: set it to stay on by hand (${wake.reason})`}
    </output>
  );
}
