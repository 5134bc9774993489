/** A sentence for the maker at the foot of the window, until it is dismissed. */
import { X } from 'lucide-react';
import { useApp } from './AppContext.ts';

export function Said() {
  const said = useApp((state) => state.said);
  const say = useApp((state) => state.say);
  return (
    <div className="said" role="alert" hidden={said === null}>
      <p>{said}</p>
      <button type="button" className="icon" aria-label="Dismiss" onClick={() => say(null)}>
        <X />
      </button>
    </div>
  );
}
