/** Keys of the whole window, and the table of them that the help dialog shows. */
import { STATIONS } from '../panels/bench.ts';
import { chooseFile, saveDesign, saveDesignAs } from './fileCommands.ts';
import type { AppState, AppStore } from './store.ts';

export interface KeyBinding {
  /** How the key is written in the table. */
  readonly keys: string;
  readonly does: string;
  readonly group: 'Design' | 'Moments' | 'Stage' | 'Stations';
  readonly matches: (event: KeyboardEvent) => boolean;
  readonly run: (state: AppState, store: AppStore) => void;
  /** Also while a text field has the focus; `idle`: only until something is typed into it. */
  readonly inFields?: boolean | 'idle';
}

const command = (event: KeyboardEvent) => event.ctrlKey || event.metaKey;
const plain = (event: KeyboardEvent) => !command(event) && !event.altKey;
const letter = (key: string) => (event: KeyboardEvent) =>
  plain(event) && !event.shiftKey && event.key.toLowerCase() === key;

export const KEY_BINDINGS: readonly KeyBinding[] = [
  {
    keys: 'Ctrl Z',
    does: 'Undo',
    group: 'Design',
    inFields: 'idle',
    matches: (e) => command(e) && !e.shiftKey && e.key.toLowerCase() === 'z',
    run: (s) => s.undo(),
  },
  {
    keys: 'Ctrl Shift Z',
    does: 'Redo',
    group: 'Design',
    inFields: 'idle',
    matches: (e) =>
      command(e) && ((e.shiftKey && e.key.toLowerCase() === 'z') || e.key.toLowerCase() === 'y'),
    run: (s) => s.redo(),
  },
  {
    keys: 'Ctrl O',
    does: 'Open a design file',
    group: 'Design',
    inFields: true,
    matches: (e) => command(e) && !e.shiftKey && e.key.toLowerCase() === 'o',
    run: (_, store) => void chooseFile(store),
  },
  {
    keys: 'Ctrl S',
    does: 'Save to a design file',
    group: 'Design',
    inFields: true,
    matches: (e) => command(e) && !e.shiftKey && e.key.toLowerCase() === 's',
    run: (_, store) => void saveDesign(store),
  },
  {
    keys: 'Ctrl Shift S',
    does: 'Save as another file',
    group: 'Design',
    inFields: true,
    matches: (e) => command(e) && e.shiftKey && e.key.toLowerCase() === 's',
    run: (_, store) => void saveDesignAs(store),
  },
  {
    keys: 'U',
    does: 'Inches or millimetres',
    group: 'Design',
    matches: letter('u'),
    run: (s) => s.setUnit(s.design.unit === 'in' ? 'mm' : 'in'),
  },
  { keys: ',', does: 'Moment before', group: 'Moments', matches: letter(','), run: (s) => s.stepMoment(-1) },
  { keys: '.', does: 'Next moment', group: 'Moments', matches: letter('.'), run: (s) => s.stepMoment(1) },
  {
    keys: 'P',
    does: 'Play or pause the work',
    group: 'Moments',
    matches: letter('p'),
    run: (s) => s.setPlaying(!s.playing),
  },
  {
    keys: 'R',
    does: 'Reset the camera',
    group: 'Stage',
    matches: letter('r'),
    run: (s) => s.showCamera('home'),
  },
  {
    keys: 'A',
    does: 'Look along the axis',
    group: 'Stage',
    matches: letter('a'),
    run: (s) => s.showCamera('axis'),
  },
  {
    keys: 'F',
    does: 'Look at face A',
    group: 'Stage',
    matches: letter('f'),
    run: (s) => s.showCamera('face'),
  },
  {
    keys: 'E',
    does: 'Look at the entry side',
    group: 'Stage',
    matches: letter('e'),
    run: (s) => s.showCamera('entry'),
  },
  {
    keys: 'S',
    does: 'Section',
    group: 'Stage',
    matches: letter('s'),
    run: (s) => s.setView({ section: { ...s.view.section, on: !s.view.section.on } }),
  },
  {
    keys: 'X',
    does: 'Parts apart',
    group: 'Stage',
    matches: letter('x'),
    run: (s) => s.setView({ apart: s.view.apart > 0 ? 0 : 0.5 }),
  },
  {
    keys: 'I',
    does: 'Strips inside the wood',
    group: 'Stage',
    matches: letter('i'),
    run: (s) => s.setView({ xray: !s.view.xray }),
  },
  {
    keys: 'W',
    does: 'At the saw: fence, blade and stop',
    group: 'Stage',
    matches: letter('w'),
    run: (s) => s.setView({ atTheSaw: !s.view.atTheSaw }),
  },
  {
    keys: 'D',
    does: 'Dimensions',
    group: 'Stage',
    matches: letter('d'),
    run: (s) =>
      s.setView(
        s.station === 'show'
          ? { shown: { ...s.view.shown, dimensions: !s.view.shown.dimensions } }
          : { dimensions: !s.view.dimensions },
      ),
  },
  {
    keys: 'C',
    does: 'In Show: the piece alone, and back',
    group: 'Stage',
    matches: letter('c'),
    run: (s) => {
      if (s.station === 'show') s.setView({ shown: { ...s.view.shown, clean: !s.view.shown.clean } });
    },
  },
  {
    keys: 'M',
    does: 'Unrolled map',
    group: 'Stage',
    matches: letter('m'),
    run: (s) => s.setView({ map: !s.view.map }),
  },
  {
    keys: '1 – 5',
    does: 'Blank, Rings, Form, Saw plan, and 5 for Show',
    group: 'Stations',
    matches: (e) => plain(e) && /^[1-5]$/.test(e.key),
    run: () => undefined,
  },
  {
    keys: '?',
    does: 'This table',
    group: 'Stations',
    matches: (e) => plain(e) && e.key === '?',
    run: (s) => s.showKeys(!s.keysShown),
  },
];

/** Keys of a part of the window, taken by that part while it has the focus. */
export const KEYS_IN_PLACE: readonly (Pick<KeyBinding, 'keys' | 'does'> & { readonly place: string })[] = [
  { place: 'On the workpiece', keys: '← → ↑ ↓', does: 'Turn it; with Shift, farther' },
  { place: 'On the workpiece', keys: '+ −', does: 'Nearer, farther off' },
  { place: 'On the unrolled map', keys: '↑ ↓', does: 'From ring to ring in cutting order' },
  { place: 'On the unrolled map', keys: '← →', does: 'From crossing to crossing' },
  { place: 'On the unrolled map', keys: 'Esc', does: 'Point at nothing' },
  { place: 'On the line of moments', keys: '← →', does: 'Moment before, next moment' },
  { place: 'On the line of moments', keys: 'PgUp PgDn', does: 'Next cut, cut before' },
  { place: 'On the line of moments', keys: 'Home End', does: 'Sawn block, finished piece' },
];

export function listenForKeys(store: AppStore): void {
  window.addEventListener('keydown', (event) => {
    if (event.defaultPrevented || document.querySelector('dialog[open]')) return;
    const inField = isTextField(event.target);
    const binding = KEY_BINDINGS.find((candidate) => candidate.matches(event));
    if (!binding || (inField && !takesInField(binding, event.target))) return;
    if (!command(event) && event.key !== '?' && !store.getState().letterKeys) return;
    event.preventDefault();
    if (/^[1-5]$/.test(event.key)) store.getState().setStation(STATIONS[Number(event.key) - 1]);
    else binding.run(store.getState(), store);
  });
}

function takesInField(binding: KeyBinding, target: EventTarget | null): boolean {
  if (binding.inFields !== 'idle') return binding.inFields === true;
  return target instanceof HTMLInputElement && target.dataset.typed === 'false';
}

function isTextField(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target.isContentEditable || target instanceof HTMLTextAreaElement) return true;
  return (
    target instanceof HTMLInputElement && !['range', 'checkbox', 'radio', 'button'].includes(target.type)
  );
}
