/** End view of the blank from the head: its section with the letters of the faces, and the form's largest circle. */
import type { Design } from '../../design/document.ts';
import { sectionGeometry } from '../../design/section.ts';
import { cosDeg, sinDeg } from '../../geometry/angle.ts';
import { profileFor } from '../derived.ts';
import { timberColour } from '../timberColour.ts';

const SIZE = 208;
const ROOM = 34;

export function SectionDrawing({ design }: { design: Design }) {
  const section = sectionGeometry(design.blank.section);
  const scale = (SIZE / 2 - ROOM) / section.circumscribedRadius_mm;
  const at = (x: number, y: number): [number, number] => [x * scale, -y * scale];
  const largest_mm = design.form ? Math.max(...profileFor(design.form).r_mm) : null;
  const letters = section.faceAzimuths_deg.map((azimuth, i) => {
    const distance = section.faceDistances_mm[i] + 15 / scale;
    return { letter: 'ABCDEFGH'[i], place: at(distance * cosDeg(azimuth), distance * sinDeg(azimuth)) };
  });
  return (
    <svg
      className="section-drawing"
      viewBox={`${-SIZE / 2} ${-SIZE / 2} ${SIZE} ${SIZE}`}
      role="img"
      aria-label="End view of the blank from the head"
    >
      <g style={{ fill: timberColour(design, design.blank.timber) }}>
        {section.round ? (
          <circle className="outline" r={section.inscribedRadius_mm * scale} />
        ) : (
          <polygon
            className="outline"
            points={section.corners_mm.map(([x, y]) => at(x, y).join(',')).join(' ')}
          />
        )}
      </g>
      {largest_mm !== null && <circle className="turned" r={largest_mm * scale} />}
      <path
        className="axis"
        d={`M${-SIZE / 2 + 10} 0H${SIZE / 2 - 10}M0 ${-SIZE / 2 + 10}V${SIZE / 2 - 10}`}
      />
      {letters.map(({ letter, place: [x, y] }) => (
        <text key={letter} x={x} y={y} className="face-letter">
          {letter}
        </text>
      ))}
    </svg>
  );
}
