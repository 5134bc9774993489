/** All sets of the design with the actions on them. */
import { Copy, FlipVertical2, Lock, LockOpen, Plus, StretchVertical, Trash2 } from 'lucide-react';
import type { ReactNode } from 'react';
import { addSet, duplicateSet, mirrorSet, removeSet, setLocked, spaceEvenly } from '../../design/edits.ts';
import { formatAngle, formatLength } from '../../design/lengthText.ts';
import { sectionGeometry } from '../../design/section.ts';
import { useBench } from '../bench.ts';
import { StripChip } from '../fields/TimberPicker.tsx';
import { freePlace } from './freePlace.ts';

export function SetList() {
  const design = useBench((bench) => bench.design);
  const selected = useBench((bench) => bench.selectedSet);
  const selectSet = useBench((bench) => bench.selectSet);
  const pointed = useBench((bench) => bench.pointed);
  const edit = useBench((bench) => bench.edit);
  const locked = design.sets.find((set) => set.id === selected)?.locked === true;

  const addAndSelect = () => {
    let added: string | undefined;
    edit('add a set', (current) => {
      const next = addSet(current, { center_mm: freePlace(current) });
      added = next.sets.at(-1)?.id;
      return next;
    });
    if (added !== undefined) selectSet(added);
  };
  const duplicate = (id: string) => {
    let added: string | undefined;
    edit(`duplicate ${id}`, (current) => {
      const next = duplicateSet(current, id);
      added = next.sets.find((set) => !current.sets.some((known) => known.id === set.id))?.id;
      return next;
    });
    if (added !== undefined) selectSet(added);
  };
  if (design.sets.length === 0) {
    const { round, faceAzimuths_deg } = sectionGeometry(design.blank.section);
    const cuts = round ? 4 : faceAzimuths_deg.length;
    return (
      <section className="group flush-top first-set" aria-label="Sets">
        <p className="lede">
          A set is some saw cuts at one angle and one place, taken from one face after another. One cut from
          each {round ? 'quarter' : 'face'} makes {cuts} rings that cross.
        </p>
        <button type="button" className="button primary" onClick={addAndSelect}>
          <Plus /> Add a set of {cuts} cuts
        </button>
      </section>
    );
  }
  const movable = design.sets.filter((set) => !set.locked).map((set) => set.id);

  return (
    <section className="group flush-top" aria-label="Sets">
      <ul className="set-list">
        {design.sets.map((set) => (
          <li key={set.id} data-lit={pointedSet(pointed) === set.id ? 'on' : undefined}>
            <button
              type="button"
              className="set-row"
              aria-current={set.id === selected}
              onClick={() => selectSet(set.id)}
            >
              <StripChip layers={set.strip.layers} />
              <b>{set.id}</b>
              <span className="set-what">
                {formatAngle(set.angle_deg)}
                <span aria-hidden="true"> × </span>
                <span className="visually-hidden">, cuts: </span>
                {set.fence_azimuths_deg.length}
              </span>
              <span className="set-where">{formatLength(set.center_mm, design.unit)}</span>
            </button>
            <button
              type="button"
              className="icon"
              aria-pressed={set.locked === true}
              aria-label={`Lock ${set.id}`}
              title={set.locked ? `${set.id} is locked in place` : `Lock ${set.id} in place`}
              onClick={() =>
                edit(set.locked ? `unlock ${set.id}` : `lock ${set.id}`, (current) =>
                  setLocked(current, set.id, !set.locked),
                )
              }
            >
              {set.locked ? <Lock /> : <LockOpen />}
            </button>
          </li>
        ))}
      </ul>
      <div className="set-actions">
        <button type="button" className="button" onClick={addAndSelect}>
          <Plus /> Add a set
        </button>
        <Action
          name="Duplicate"
          disabled={selected === null}
          onClick={() => selected !== null && duplicate(selected)}
        >
          <Copy />
        </Action>
        <Action
          name="Mirror about the middle of the blank"
          disabled={selected === null || locked}
          onClick={() => {
            if (selected !== null) edit(`mirror ${selected}`, (current) => mirrorSet(current, selected));
          }}
        >
          <FlipVertical2 />
        </Action>
        <Action
          name="Space the sets evenly"
          disabled={movable.length < 3}
          onClick={() => edit('space evenly', (current) => spaceEvenly(current, movable))}
        >
          <StretchVertical />
        </Action>
        <Action
          name="Remove"
          disabled={selected === null || locked}
          onClick={() => {
            if (selected !== null) edit(`remove ${selected}`, (current) => removeSet(current, selected));
          }}
        >
          <Trash2 />
        </Action>
      </div>
    </section>
  );
}

interface ActionProps {
  readonly name: string;
  readonly disabled: boolean;
  readonly onClick: () => void;
  readonly children: ReactNode;
}

function Action({ name, disabled, onClick, children }: ActionProps) {
  return (
    <button
      type="button"
      className="icon"
      aria-label={name}
      title={name}
      disabled={disabled}
      onClick={onClick}
    >
      {children}
    </button>
  );
}

function pointedSet(pointed: { kind: string; slot?: string; over?: string } | null): string | null {
  const slot = pointed?.slot ?? pointed?.over;
  return slot === undefined ? null : slot.slice(0, slot.lastIndexOf('.'));
}
