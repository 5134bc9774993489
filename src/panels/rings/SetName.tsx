/** The id of a set, in the heading of its editor: typed over it is the set's new name, on Enter or when it is left. */
import { Pencil } from 'lucide-react';
import { useState } from 'react';
import type { Design, SlotSet } from '../../design/document.ts';
import { renameSet } from '../../design/edits.ts';
import { SET_ID } from '../../design/schema.ts';
import { useBench } from '../bench.ts';

export function SetName({ design, set }: { design: Design; set: SlotSet }) {
  const edit = useBench((bench) => bench.edit);
  const selectSet = useBench((bench) => bench.selectSet);
  const [typed, setTyped] = useState<string | null>(null);
  const [refused, setRefused] = useState<string | null>(null);
  const name = typed?.trim() ?? set.id;
  const reason = typed === null ? null : (refused ?? nameFault(design, set.id, name));
  const put = (text: string | null) => {
    setTyped(text);
    setRefused(null);
  };
  const commit = () => {
    if (typed === null || reason !== null) return;
    if (name !== set.id) {
      const fault = edit(`rename ${set.id}`, (current) => renameSet(current, set.id, name));
      if (fault !== null) {
        setRefused(fault);
        return;
      }
      selectSet(name);
    }
    put(null);
  };
  return (
    <>
      <label className="set-head">
        <h2>Set</h2>
        <input
          type="text"
          className="name-field"
          aria-label={`Name of set ${set.id}`}
          title="Type another name for this set"
          value={typed ?? set.id}
          maxLength={16}
          spellCheck={false}
          autoComplete="off"
          data-typed={typed !== null}
          aria-invalid={reason !== null}
          aria-describedby={reason === null ? undefined : 'set-name-reason'}
          onChange={(event) => put(event.target.value)}
          onBlur={commit}
          onKeyDown={(event) => {
            if (event.key === 'Enter') commit();
            else if (event.key === 'Escape' && typed !== null) put(null);
            else return;
            event.preventDefault();
          }}
        />
        <Pencil aria-hidden="true" />
      </label>
      {reason !== null && (
        <p className="reason" id="set-name-reason" role="alert">
          {reason}
        </p>
      )}
    </>
  );
}

/** Why a set cannot be called so, or null. Everything else is for the document's own rules to say. */
function nameFault(design: Design, id: string, name: string): string | null {
  if (!SET_ID.test(name)) return 'A letter first, then letters, digits, - or _, without spaces';
  if (name !== id && design.sets.some((other) => other.id === name)) return 'Another set has this name';
  return null;
}
