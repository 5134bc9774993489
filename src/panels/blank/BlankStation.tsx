/** Station 1: section, size and timber of the blank, and the maker's notes on the design. */
import { useState } from 'react';
import type { Design, SectionShape } from '../../design/document.ts';
import { setBlank, setNotes, type BlankChange } from '../../design/edits.ts';
import { sectionGeometry } from '../../design/section.ts';
import { massText, volumeText } from '../../plan/wording.ts';
import { timberById } from '../../timber/timbers.ts';
import { densityOf } from '../../timber/weight.ts';
import { useBench } from '../bench.ts';
import { NotesField } from '../fields/NotesField.tsx';
import { Reason } from '../fields/Reason.tsx';
import { NumberField } from '../fields/NumberField.tsx';
import { lengthQuantity } from '../fields/quantity.ts';
import { Segmented } from '../fields/Segmented.tsx';
import { TimberPicker } from '../fields/TimberPicker.tsx';
import { GrainFields } from './GrainFields.tsx';
import { scaledToBlank } from './scaledToBlank.ts';
import { SectionDrawing } from './SectionDrawing.tsx';
import './blank.css';

const SHAPES: readonly { value: SectionShape; title: string; sides: number }[] = [
  { value: 'square', title: 'Square', sides: 4 },
  { value: 'rectangle', title: 'Rectangle', sides: 4 },
  { value: 'hexagon', title: 'Hexagon', sides: 6 },
  { value: 'octagon', title: 'Octagon', sides: 8 },
  { value: 'round', title: 'Round', sides: 0 },
];

export function BlankStation() {
  const design = useBench((bench) => bench.design);
  const edit = useBench((bench) => bench.edit);
  const endGesture = useBench((bench) => bench.endGesture);
  const [follow, setFollow] = useState(true);
  const { section, length_mm, timber } = design.blank;
  const size = lengthQuantity(design.unit);
  const [reason, setReason] = useState<string | null>(null);
  const change = (label: string, to: BlankChange, gesture?: string) =>
    setReason(
      edit(
        label,
        (current) => {
          const next = setBlank(current, to);
          return follow ? scaledToBlank(current, next) : next;
        },
        gesture,
      ),
    );

  return (
    <>
      <div className="group flush">
        <SectionDrawing design={design} />
      </div>
      <div className="group">
        <Segmented
          label="Section"
          field
          value={section.shape}
          choices={SHAPES.map(({ value, title, sides }) => ({
            value,
            title,
            name: <ShapeIcon shape={value} sides={sides} />,
          }))}
          onChange={(shape) => change(`${shape} blank`, { shape })}
        />
        <NumberField
          label={WIDTH_NAMES[section.shape]}
          value={section.width_mm}
          quantity={size}
          min={3}
          max={1000}
          onChange={(width_mm, gesture) => change('width of the blank', { width_mm }, gesture)}
          onSettle={endGesture}
        />
        {section.shape === 'rectangle' && (
          <NumberField
            label="Depth, face B to D"
            value={section.depth_mm ?? section.width_mm}
            quantity={size}
            min={3}
            max={1000}
            onChange={(depth_mm, gesture) => change('depth of the blank', { depth_mm }, gesture)}
            onSettle={endGesture}
          />
        )}
        <NumberField
          label="Length"
          value={length_mm}
          quantity={size}
          min={3}
          max={3000}
          onChange={(length, gesture) => change('length of the blank', { length_mm: length }, gesture)}
          onSettle={endGesture}
        />
        <Reason reason={reason} />
        <label className="switch">
          <input type="checkbox" checked={follow} onChange={(event) => setFollow(event.target.checked)} />
          Form and rings scale with the blank
        </label>
      </div>
      <div className="group">
        <TimberPicker
          label="Timber"
          value={timber}
          onChange={(id) => change('timber of the blank', { timber: id })}
        />
        <GrainFields design={design} />
        <Facts design={design} />
      </div>
      <div className="group">
        <NotesField
          label="Notes"
          placeholder="Printed on the shop sheet"
          value={design.notes ?? ''}
          onChange={(notes, gesture) =>
            setReason(edit('notes', (current) => setNotes(current, notes), gesture))
          }
          onSettle={endGesture}
        />
      </div>
    </>
  );
}

const WIDTH_NAMES: Readonly<Record<SectionShape, string>> = {
  square: 'Width',
  rectangle: 'Width, face A to C',
  hexagon: 'Across the flats',
  octagon: 'Across the flats',
  round: 'Diameter',
};

/** Moisture of shop-dry stock, %; common practice. */
const SHOP_MOISTURE_PCT = 8;

function Facts({ design }: { design: Design }) {
  const { blank, unit } = design;
  const volume_mm3 = sectionGeometry(blank.section).area_mm2 * blank.length_mm;
  const timber = timberById(blank.timber);
  const mass_g = timber ? densityOf(timber, SHOP_MOISTURE_PCT).kg_m3 * volume_mm3 * 1e-6 : null;
  return (
    <dl className="facts">
      <dt>Volume</dt>
      <dd>{volumeText(volume_mm3, unit)}</dd>
      {mass_g !== null && (
        <>
          <dt>Weight at {SHOP_MOISTURE_PCT} % moisture</dt>
          <dd>{massText(mass_g, unit)}</dd>
        </>
      )}
    </dl>
  );
}

function ShapeIcon({ shape, sides }: { shape: SectionShape; sides: number }) {
  if (shape === 'rectangle')
    return (
      <svg className="shape-icon" viewBox="-12 -12 24 24" aria-hidden="true">
        <rect x={-10} y={-6.5} width={20} height={13} />
      </svg>
    );
  const points = Array.from({ length: sides }, (_, i) => {
    const angle = ((i + 0.5) * 2 * Math.PI) / sides;
    return `${(11 * Math.cos(angle)).toFixed(2)},${(11 * Math.sin(angle)).toFixed(2)}`;
  });
  return (
    <svg className="shape-icon" viewBox="-12 -12 24 24" aria-hidden="true">
      {sides === 0 ? <circle r={10} /> : <polygon points={points.join(' ')} />}
    </svg>
  );
}
