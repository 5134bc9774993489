/** The sawn block: the blank's prism as a mesh with flat faces, or a smooth cylinder. Lathe frame in, drawn frame out. */
import type { SectionGeometry } from '../blank/section.ts';
import { cosDeg, sinDeg } from '../geometry/angle.ts';
import { MeshBuilder, type WorkMesh } from './mesh.ts';
import { turnedMesh } from './turned.ts';

/** Closed mesh of the blank, z from 0 to length. */
export function blockMesh(section: SectionGeometry, length_mm: number, columns = 128): WorkMesh {
  if (section.round) {
    const r = section.inscribedRadius_mm;
    return turnedMesh(
      {
        z_mm: Float64Array.of(0, 0, length_mm, length_mm),
        r_mm: Float64Array.of(0, r, r, 0),
        corner: Uint8Array.of(1, 1, 1, 1),
      },
      null,
      columns,
    );
  }
  const builder = new MeshBuilder();
  const corners = section.corners_mm;
  corners.forEach((corner, i) => {
    const previous = corners[(i + corners.length - 1) % corners.length];
    const azimuth = section.faceAzimuths_deg[i];
    builder.polygon(
      [
        [previous[0], previous[1], 0],
        [corner[0], corner[1], 0],
        [corner[0], corner[1], length_mm],
        [previous[0], previous[1], length_mm],
      ],
      [cosDeg(azimuth), sinDeg(azimuth), 0],
    );
  });
  builder.polygon(
    corners.map(([x, y]) => [x, y, length_mm] as const),
    [0, 0, 1],
  );
  builder.polygon(corners.map(([x, y]) => [x, y, 0] as const).toReversed(), [0, 0, -1]);
  return builder.build();
}
