/**
 * What the maker must know before cutting: the engine's messages, warnings first, as a foot of the panel. What is
 * the same for several cuts of a set is said once.
 */
import { Info, TriangleAlert } from 'lucide-react';
import type { Message } from '../../plan/messages.ts';
import { useBench } from '../bench.ts';
import { count } from '../moments/momentText.ts';
import { setIdOf } from '../../design/order.ts';
import { grouped, slotRanges } from './grouped.ts';
import { useReport } from '../useReport.ts';
import './messages.css';

export function MessageList() {
  const { plan, computing, fault } = useReport();
  const unit = useBench((bench) => bench.design.unit);
  const point = useBench((bench) => bench.point);
  const selectSet = useBench((bench) => bench.selectSet);
  if (fault !== null)
    return (
      <p className="messages-foot fault" role="alert">
        The numbers could not be worked out: {fault}
      </p>
    );
  const messages = plan?.messages ?? [];
  const warnings = messages.filter((message) => message.level === 'warning');
  const notes = messages.filter((message) => message.level === 'note');
  return (
    <details className="messages" data-computing={computing}>
      <summary>
        {warnings.length > 0 ? <TriangleAlert className="warning" /> : <Info />}
        <output>{computing ? 'Working out the numbers …' : headline(warnings, notes)}</output>
      </summary>
      <ul>
        {grouped([...warnings, ...notes], unit).map(({ level, slots, text }, i) => (
          <li key={i} className={level}>
            <button
              type="button"
              onPointerEnter={() => {
                if (slots.length > 0) point({ kind: 'ring', slot: slots[0] });
              }}
              onPointerLeave={() => point(null)}
              onClick={() => {
                if (slots.length === 0) return;
                selectSet(setIdOf(slots[0]));
                point({ kind: 'ring', slot: slots[0] });
              }}
            >
              {slots.length > 0 && <b>{slotRanges(slots)}</b>}
              <span>{keptWithUnit(text)}</span>
            </button>
          </li>
        ))}
      </ul>
    </details>
  );
}

/** No line ends between a number and its unit. */
function keptWithUnit(text: string): string {
  return text.replaceAll(/(\d) (?=(?:mm|in)\b)/g, '$1\u00a0');
}

function headline(warnings: readonly Message[], notes: readonly Message[]): string {
  if (warnings.length + notes.length === 0) return 'No warnings';
  const parts = [
    warnings.length > 0 ? count(warnings.length, 'warning') : '',
    notes.length > 0 ? count(notes.length, 'note') : '',
  ];
  return parts.filter((part) => part !== '').join(', ');
}
