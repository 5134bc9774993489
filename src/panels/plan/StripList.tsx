/** The strips to prepare, equal ones together. Sizes in mm inside. */
import type { Design } from '../../design/document.ts';
import { formatLength, formatThickness } from '../../design/lengthText.ts';
import type { Setup } from '../../plan/setups.ts';
import { Swatch } from '../fields/TimberPicker.tsx';
import { timberName } from '../moments/momentText.ts';

interface Entry {
  readonly timber: string;
  readonly thickness_mm: number;
  readonly depth_mm: number;
  readonly length_mm: number;
  readonly slots: string[];
}

export function StripList({ design, setups }: { design: Design; setups: readonly Setup[] }) {
  const { unit } = design;
  const entries = entriesOf(design, setups);
  return (
    <section className="group" aria-label="Strips">
      <h2>Strips</h2>
      <table className="strips">
        <thead>
          <tr>
            <th scope="col">Timber</th>
            <th scope="col">Pieces</th>
            <th scope="col">Thick</th>
            <th scope="col">Deep</th>
            <th scope="col">Long</th>
          </tr>
        </thead>
        <tbody>
          {entries.map((entry) => (
            <tr key={entry.slots.join(' ') + entry.timber}>
              <th scope="row">
                <Swatch timber={entry.timber} />
                {timberName(entry.timber)}
              </th>
              <td>{entry.slots.length}</td>
              <td>{formatThickness(entry.thickness_mm, unit)}</td>
              <td>{formatLength(entry.depth_mm, unit)}</td>
              <td>{formatLength(entry.length_mm, unit)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

function entriesOf(design: Design, setups: readonly Setup[]): Entry[] {
  const entries = new Map<string, Entry>();
  for (const setup of setups) {
    const set = design.sets.find((candidate) => setup.slot.startsWith(`${candidate.id}.`));
    for (const layer of set?.strip.layers ?? []) {
      const sizes = [layer.thickness_mm, setup.strip_depth_mm, setup.strip_length_mm];
      const key = [layer.timber, ...sizes.map((size) => size.toFixed(3))].join(' ');
      const entry = entries.get(key);
      if (entry) entry.slots.push(setup.slot);
      else
        entries.set(key, {
          timber: layer.timber,
          thickness_mm: layer.thickness_mm,
          depth_mm: setup.strip_depth_mm,
          length_mm: setup.strip_length_mm,
          slots: [setup.slot],
        });
    }
  }
  return [...entries.values()];
}
