/** What the maker must know before cutting: the engine's messages, warnings first, as a foot of the panel. */
import { Info, TriangleAlert } from 'lucide-react';
import type { Message } from '../../plan/messages.ts';
import { useBench } from '../bench.ts';
import { count } from '../moments/momentText.ts';
import { inUnit } from './inUnit.ts';
import { useReport } from '../useReport.ts';
import './messages.css';

export function MessageList() {
  const { report, computing, fault } = useReport();
  const unit = useBench((bench) => bench.design.unit);
  const point = useBench((bench) => bench.point);
  const selectSet = useBench((bench) => bench.selectSet);
  if (fault !== null)
    return (
      <p className="messages-foot fault" role="alert">
        The numbers could not be worked out: {fault}
      </p>
    );
  const messages = report?.messages ?? [];
  const warnings = messages.filter((message) => message.level === 'warning');
  const notes = messages.filter((message) => message.level === 'note');
  return (
    <details className="messages" data-computing={computing}>
      <summary>
        {warnings.length > 0 ? <TriangleAlert className="warning" /> : <Info />}
        <output>{computing ? 'Working out the numbers …' : headline(warnings, notes)}</output>
      </summary>
      <ul>
        {[...warnings, ...notes].map((message, i) => (
          <li key={i} className={message.level}>
            <button
              type="button"
              onPointerEnter={() => {
                if (message.slot !== null) point({ kind: 'ring', slot: message.slot });
              }}
              onPointerLeave={() => point(null)}
              onClick={() => {
                if (message.slot === null) return;
                selectSet(message.slot.slice(0, message.slot.lastIndexOf('.')));
                point({ kind: 'ring', slot: message.slot });
              }}
            >
              {message.slot !== null && <b>{message.slot}</b>}
              <span>{inUnit(message.text, unit)}</span>
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}

function headline(warnings: readonly Message[], notes: readonly Message[]): string {
  if (warnings.length + notes.length === 0) return 'Nothing stands in the way of this design';
  const parts = [
    warnings.length > 0 ? count(warnings.length, 'warning') : '',
    notes.length > 0 ? count(notes.length, 'note') : '',
  ];
  return parts.filter((part) => part !== '').join(', ');
}
