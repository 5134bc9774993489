/**
 * One piece as it may be sawn, beside the design: how far each ring is off, and how large the errors are drawn. Pressed
 * again, another piece. Lengths mm, angles degrees.
 */
import { Columns2, RotateCcw } from 'lucide-react';
import type { Design, DisplayUnit } from '../../design/document.ts';
import { formatLength, formatThickness } from '../../design/lengthText.ts';
import type { SampleShifts } from '../../plan/sampleShifts.ts';
import { useBench } from '../bench.ts';
import { Segmented } from '../fields/Segmented.tsx';
import { isFresh, samplePair, shiftsOf, TIMES, type SamplePair } from './sampleVariant.ts';
import './asBuilt.css';

export function AsBuilt({ design: { saw, unit } }: { design: Design }) {
  const compareAsBuilt = useBench((bench) => bench.compareAsBuilt);
  const work = useBench((bench) => bench.work);
  const pair = samplePair(work);
  return (
    <>
      <button type="button" className="button full as-built" onClick={() => compareAsBuilt()}>
        <Columns2 /> {pair ? 'Show the next try' : 'Show one as it may come out'}
      </button>
      {pair && (
        <p className="lede">
          Try {pair.sample.tried} stands beside the ideal: see Variants for how far it is off and how large
          its errors are drawn.
        </p>
      )}
      <p className="lede">
        Every cut is off by chance, on its own: its angle by up to {saw.angle_tolerance_deg}°, its stop by up
        to {formatLength(saw.stop_tolerance_mm, unit)}. The same try of the same design always comes out
        alike; press again for the next try.
      </p>
    </>
  );
}

/** The try among the variants: how large its errors are drawn, and how far each ring is off. */
export function Tried() {
  const work = useBench((bench) => bench.work);
  const pair = samplePair(work);
  return pair && <TriedPair pair={pair} unit={pair.ideal.design.unit} />;
}

function TriedPair({ pair, unit }: { pair: SamplePair; unit: DisplayUnit }) {
  const compareAsBuilt = useBench((bench) => bench.compareAsBuilt);
  const { tried, times } = pair.sample;
  if (!isFresh(pair))
    return (
      <div className="tried">
        <p className="lede">Try {tried} was of the design before its last changes.</p>
        <button type="button" className="button full" onClick={() => compareAsBuilt(times)}>
          <RotateCcw /> Show try {tried} of the design as it is
        </button>
      </div>
    );
  const shifts = shiftsOf(pair);
  return (
    <div className="tried">
      <Segmented
        field
        label="Errors shown"
        value={times}
        choices={TIMES.map((value) => ({
          value,
          name: `×${value}`,
          title: value === 1 ? 'Errors as large as they are' : `Errors drawn ${value} times as large`,
        }))}
        onChange={compareAsBuilt}
      />
      <p className="lede">
        {times === 1
          ? 'The piece beside the ideal is as it would come out.'
          : `In the picture every error is ${times} times as large as it is. The numbers below are true.`}{' '}
        {times === 1 && hardlyShows(shifts) && 'Errors this small hardly show: draw them larger. '}
        {shifts?.worstRing?.at && `The line on it is where ring ${shifts.worstRing.slot} was meant to be.`}
      </p>
      {shifts && <ShiftTable tried={tried} shifts={shifts} unit={unit} />}
    </div>
  );
}

function ShiftTable({ tried, shifts, unit }: { tried: number; shifts: SampleShifts; unit: DisplayUnit }) {
  const point = useBench((bench) => bench.point);
  const { rings, worstRing, worstCrossing } = shifts;
  return (
    <table className="shifts" onPointerLeave={() => point(null)}>
      <caption>Try {tried}: how far off</caption>
      <thead>
        <tr>
          <th scope="col">Ring</th>
          <th scope="col">Off by</th>
          <th scope="col">Angle</th>
          <th scope="col">Stop</th>
        </tr>
      </thead>
      <tbody>
        {rings.map(({ slot, shift_mm, error }) => (
          <tr
            key={slot}
            data-worst={slot === worstRing?.slot}
            onPointerEnter={() => point({ kind: 'ring', slot })}
          >
            <th scope="row">{slot}</th>
            <td>{shift_mm === null ? '–' : formatThickness(shift_mm, unit)}</td>
            <td>{signed(error.angle_deg, (value) => `${value.toFixed(2)}°`)}</td>
            <td>{signed(error.stop_mm, (value) => formatThickness(value, unit))}</td>
          </tr>
        ))}
      </tbody>
      <tfoot>
        {worstRing?.shift_mm !== undefined && worstRing.shift_mm !== null && (
          <tr>
            <td colSpan={4}>
              Farthest off: ring {worstRing.slot}, {formatThickness(worstRing.shift_mm, unit)} along the axis
            </td>
          </tr>
        )}
        {worstCrossing && (
          <tr>
            <td colSpan={4}>
              Crossing of {worstCrossing.over} over {worstCrossing.under}:{' '}
              {formatThickness(worstCrossing.shift_mm, unit)}
            </td>
          </tr>
        )}
      </tfoot>
    </table>
  );
}

/** Of a ring, mm, in a picture of the whole piece. */
const LEAST_SEEN_MM = 0.5;

function hardlyShows(shifts: SampleShifts | null): boolean {
  const worst_mm = shifts?.worstRing?.shift_mm ?? null;
  return worst_mm !== null && worst_mm < LEAST_SEEN_MM;
}

function signed(value: number, text: (size: number) => string): string {
  return `${value < 0 ? '−' : '+'}${text(Math.abs(value))}`;
}
