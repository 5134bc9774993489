/** The strips to prepare by timber and thickness, with the stock that they take. Sizes in mm inside. */
import type { Design } from '../../design/document.ts';
import { formatLength, formatThickness } from '../../design/lengthText.ts';
import { Swatch } from '../fields/TimberPicker.tsx';
import { count, timberName } from '../moments/momentText.ts';
import type { WorkPlan } from './workPlan.ts';

export function StripList({ design, plan }: { design: Design; plan: WorkPlan }) {
  const { unit } = design;
  return (
    <section className="group" aria-label="Strips">
      <h2>Strips</h2>
      {plan.strips.map((group) => (
        <div key={`${group.timber} ${group.thickness_mm}`} className="strip-group">
          <h3>
            <Swatch timber={group.timber} />
            {timberName(group.timber)}
            <small>{formatThickness(group.thickness_mm, unit)} thick</small>
          </h3>
          <table className="strips">
            <thead>
              <tr>
                <th scope="col">For</th>
                <th scope="col">Pieces</th>
                <th scope="col">Deep</th>
                <th scope="col">Long</th>
              </tr>
            </thead>
            <tbody>
              {group.pieces.map((piece) => (
                <tr key={piece.slots.join(' ')}>
                  <th scope="row">{piece.slots.join(', ')}</th>
                  <td>{piece.slots.length}</td>
                  <td>{formatLength(piece.depth_mm, unit)}</td>
                  <td>{formatLength(piece.length_mm, unit)}</td>
                </tr>
              ))}
            </tbody>
          </table>
          <p className="lede">
            {count(group.spare, 'spare piece')} beside them: a billet{' '}
            {formatLength(group.grain === 'depth' ? group.stock.depth_mm : group.stock.length_mm, unit)} along
            the grain,{' '}
            {formatLength(group.grain === 'depth' ? group.stock.length_mm : group.stock.depth_mm, unit)} wide
            and {formatLength(group.stock.thickness_mm, unit)} thick.
          </p>
        </div>
      ))}
    </section>
  );
}
