/** The strips to prepare by timber and thickness, with the stock that they take. Sizes in mm inside. */
import type { Design } from '../../design/document.ts';
import { formatLength, formatThickness } from '../../design/lengthText.ts';
import { boardsFor, sliceKerfOf_mm, type Board, type StripGroup } from '../../plan/strips.ts';
import { stockWords } from '../../plan/woodWords.ts';
import { slotRuns, worded } from '../../plan/wording.ts';
import { NumberField } from '../fields/NumberField.tsx';
import { lengthQuantity } from '../fields/quantity.ts';
import { Swatch } from '../fields/TimberPicker.tsx';
import { settle, type ChosenBy } from './useChoices.ts';
import type { WorkPlan } from './workPlan.ts';
import { timberName } from '../../timber/names.ts';

export function StripList({ design, plan, chosen }: { design: Design; plan: WorkPlan; chosen: ChosenBy }) {
  const { unit } = design;
  const { choices } = chosen;
  return (
    <section className="group" aria-label="Strips">
      <h2>Strips</h2>
      {plan.strips.map((group) => (
        <div key={`${group.timber} ${group.thickness_mm} ${group.grain}`} className="strip-group">
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
                  <th scope="row">{slotRuns(piece.slots).join(', ')}</th>
                  <td>{piece.slots.length}</td>
                  <td>{formatLength(piece.depth_mm, unit)}</td>
                  <td>{formatLength(piece.length_mm, unit)}</td>
                </tr>
              ))}
            </tbody>
          </table>
          <p className="lede spaced">
            {worded(stockWords(group, unit), unit)} {boardWords(group, choices.board, design)}
          </p>
        </div>
      ))}
      {plan.strips.length > 0 && <BoardFields unit={unit} chosen={chosen} />}
    </section>
  );
}

/** How many boards of the maker's size the group takes, its spare pieces too. */
function boardWords(group: StripGroup, board: Board, design: Design): string {
  const boards = boardsFor(group, board, sliceKerfOf_mm(design));
  const length = (value_mm: number) => formatLength(value_mm, design.unit);
  const size = `${length(board.length_mm)} × ${length(board.width_mm)} × ${length(board.thickness_mm)}`;
  if (boards === null) return `A board of ${size} is too small for them.`;
  return `Or ${boards} board${boards === 1 ? '' : 's'} of ${size}.`;
}

const BOARD: readonly (readonly [keyof Board, string, number])[] = [
  ['length_mm', 'Your boards are long', 10_000],
  ['width_mm', 'wide', 2000],
  ['thickness_mm', 'thick', 500],
];

function BoardFields({ unit, chosen: { choices, choose } }: { unit: Design['unit']; chosen: ChosenBy }) {
  const { board } = choices;
  return (
    <>
      {BOARD.map(([key, label, max]) => (
        <NumberField
          key={key}
          label={label}
          of="your boards"
          value={board[key]}
          quantity={lengthQuantity(unit)}
          min={1}
          max={max}
          onChange={(value_mm) => choose({ board: { ...board, [key]: value_mm } })}
          onSettle={settle}
        />
      ))}
    </>
  );
}
