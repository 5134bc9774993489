/**
 * The turned form as one closed mesh: a half-section swung about the axis, cut back to the blank's flats where it
 * reaches past them. Lathe frame in, drawn frame out.
 *
 * Each row of vertices is a circle of the surface clipped to the prism: r(φ) = min(r, h_f / cos(φ − φ_f)). Its columns
 * move with the row so that every facet is either wholly turned or wholly flat, and the edge between the two is the
 * exact curve r cos(φ − φ_f) = h_f, sampled at the rows. Rows are added where a circle passes from clear of a flat to
 * the corner of the blank, evenly in the angle that the flat takes up.
 */
import type { SectionGeometry } from '../blank/section.ts';
import { DEG } from '../geometry/angle.ts';
import { MeshBuilder, type WorkMesh } from './mesh.ts';
import type { SweptProfile } from './formProfile.ts';

/** Step of the flats' half-angle between rows, radians. */
const FLAT_STEP = 8 * DEG;
const FLAT_COLUMNS = 4;

interface Column {
  readonly phi: number;
  /** Flat that the facet on this column's side belongs to, or −1: the turned surface. */
  readonly flat: number;
  /** Flat that decides where the column stands, or −1; the two columns of a crease share it, to the last bit. */
  readonly edge: number;
}

/**
 * Mesh of a half-section that starts and ends on the axis, or closes on itself off the axis. `section` null: the
 * form stays inside the blank. `openness` per profile vertex, 0…1.
 */
export function turnedMesh(
  profile: SweptProfile,
  section: SectionGeometry | null,
  columns = 128,
  openness?: Float64Array,
): WorkMesh {
  const clip = section !== null && reachesPast(profile, section) ? section : null;
  const rows = clip ? withFlatRows(profile, clip, openness) : plainRows(profile, openness);
  const builder = new MeshBuilder();
  const layout = (row: Row): Column[] => (clip ? clippedColumns(row.r, clip, columns) : evenColumns(columns));
  let lower: Strand | null = null;
  for (let i = 0; i + 1 < rows.length; i++) {
    const a = rows[i];
    const b = rows[i + 1];
    // Where the mesh's own numbers cannot tell two rows apart, a band between them would be triangles without area.
    if (Math.fround(a.z) === Math.fround(b.z) && Math.fround(a.r) === Math.fround(b.r)) continue;
    const disc = a.z === b.z;
    const smooth: boolean = lower !== null && a.before === a.after && lower.disc === disc;
    const start: Strand = lower && smooth ? lower : strand(builder, a, a.after, layout(a), clip, disc);
    const end = strand(builder, b, b.before, layout(b), clip, disc);
    band(builder, start, end);
    lower = end;
  }
  return builder.build();
}

/** Whether some part of the half-section lies outside the blank's flats. */
export function reachesPast(profile: SweptProfile, section: SectionGeometry): boolean {
  if (section.round) return false;
  for (const r of profile.r_mm) if (r > section.inscribedRadius_mm + 1e-9) return true;
  return false;
}

/** Whether the hollow of a form reaches past the blank's flats, so that there are windows in its wall. */
export function breaksThrough(profile: SweptProfile | null, section: SectionGeometry): boolean {
  if (!profile || section.round || !reachesPast(profile, section)) return false;
  const { z_mm: z, r_mm: r } = profile;
  let rim = 0;
  for (let i = 1; i < z.length; i++) if (z[i] > z[rim]) rim = i;
  for (let i = rim + 1; i < r.length; i++)
    if (r[i] > section.inscribedRadius_mm + 1e-9 && z[i] < z[i - 1]) return true;
  return false;
}

interface Row {
  readonly z: number;
  readonly r: number;
  /** Unit normals (axial, radial) of the segments before and after the row; one object where the surface is smooth. */
  readonly before: readonly [number, number];
  readonly after: readonly [number, number];
  readonly open: number;
}

function plainRows(profile: SweptProfile, openness?: Float64Array): Row[] {
  const { z_mm: z, r_mm: r, corner } = profile;
  const n = z.length;
  const closedLoop = z[0] === z[n - 1] && r[0] === r[n - 1] && r[0] > 0;
  const normals = Array.from({ length: n - 1 }, (_, i) => {
    const dz = z[i + 1] - z[i];
    const dr = r[i + 1] - r[i];
    const length = Math.hypot(dz, dr) || 1;
    return [-dr / length, dz / length] as const;
  });
  return Array.from({ length: n }, (_, i) => {
    const before = normals[i - 1] ?? (closedLoop ? normals[n - 2] : normals[0]);
    const after = normals[i] ?? (closedLoop ? normals[0] : normals[n - 2]);
    const open = openness ? openness[i] : 1;
    if (corner[i]) return { z: z[i], r: r[i], before, after, open };
    const sum = [before[0] + after[0], before[1] + after[1]];
    const length = Math.hypot(sum[0], sum[1]) || 1;
    const smooth = [sum[0] / length, sum[1] / length] as const;
    return { z: z[i], r: r[i], before: smooth, after: smooth, open };
  });
}

/** Rows of the half-section and, between them, those at which a flat begins, widens by a step, or meets a corner. */
function withFlatRows(profile: SweptProfile, section: SectionGeometry, openness?: Float64Array): Row[] {
  const levels = new Set<number>();
  section.faceDistances_mm.forEach((h, f) => {
    for (const reach of cornerAngles(section, f)) {
      const steps = Math.ceil(reach / FLAT_STEP);
      for (let k = 0; k <= steps; k++) levels.add(h / Math.cos((reach * k) / steps));
    }
  });
  const radii = [...levels].sort((a, b) => a - b);
  const plain = plainRows(profile, openness);
  const rows: Row[] = [];
  plain.forEach((row, i) => {
    rows.push(row);
    const next = plain[i + 1];
    if (!next) return;
    const between = radii.filter(
      (level) => level > Math.min(row.r, next.r) + 1e-9 && level < Math.max(row.r, next.r) - 1e-9,
    );
    if (next.r < row.r) between.reverse();
    for (const level of between) {
      const t = (level - row.r) / (next.r - row.r);
      const axial = row.after[0] + t * (next.before[0] - row.after[0]);
      const radial = row.after[1] + t * (next.before[1] - row.after[1]);
      const length = Math.hypot(axial, radial) || 1;
      const normal = [axial / length, radial / length] as const;
      const open = row.open + t * (next.open - row.open);
      rows.push({ z: row.z + t * (next.z - row.z), r: level, before: normal, after: normal, open });
    }
  });
  return rows;
}

/** Angles from a flat's middle to its two corners, radians: clockwise side, counter-clockwise side. */
function cornerAngles(section: SectionGeometry, face: number): [number, number] {
  const phi = section.faceAzimuths_deg[face] * DEG;
  const n = section.corners_mm.length;
  const angleTo = ([x, y]: readonly [number, number]): number =>
    Math.abs(Math.atan2(y * Math.cos(phi) - x * Math.sin(phi), x * Math.cos(phi) + y * Math.sin(phi)));
  return [angleTo(section.corners_mm[(face + n - 1) % n]), angleTo(section.corners_mm[face])];
}

function evenColumns(columns: number): Column[] {
  return Array.from({ length: columns + 1 }, (_, k) => ({
    phi: (2 * Math.PI * (k % columns)) / columns,
    flat: -1,
    edge: -1,
  }));
}

/**
 * Columns of a clipped row: for each flat its own columns, then those of the turned corner up to the next flat. The
 * flat's edge appears twice, once on each side of the crease; the count is the same in every row.
 */
function clippedColumns(r: number, section: SectionGeometry, columns: number): Column[] {
  const faces = section.faceDistances_mm.length;
  const arcColumns = Math.max(4, Math.round(columns / faces));
  const halves = section.faceDistances_mm.map((h, f) => {
    const free = r > h ? Math.acos(h / r) : 0;
    const [clockwise, counter] = cornerAngles(section, f);
    return [Math.min(free, clockwise), Math.min(free, counter)] as const;
  });
  const layout: Column[] = [];
  for (let f = 0; f < faces; f++) {
    const phi = section.faceAzimuths_deg[f] * DEG;
    const [clockwise, counter] = halves[f];
    for (let k = 0; k <= FLAT_COLUMNS; k++) {
      const inner = phi - clockwise + ((clockwise + counter) * k) / FLAT_COLUMNS;
      const at = k === 0 ? phi - clockwise : k === FLAT_COLUMNS ? phi + counter : inner;
      layout.push({ phi: at, flat: f, edge: f });
    }
    const next = (f + 1) % faces;
    const from = phi + counter;
    const to = section.faceAzimuths_deg[next] * DEG - halves[next][0];
    const sweep = Math.max(0, to + (next === 0 ? 2 * Math.PI : 0) - from);
    layout.push({ phi: from, flat: -1, edge: f });
    for (let k = 1; k < arcColumns; k++)
      layout.push({ phi: from + (sweep * k) / arcColumns, flat: -1, edge: -1 });
    layout.push({ phi: to, flat: -1, edge: next });
  }
  layout.push(layout[0]);
  return layout;
}

/** One row of vertices as one band uses it. */
interface Strand {
  readonly vertices: readonly number[];
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly columns: readonly Column[];
  readonly onAxis: boolean;
  readonly disc: boolean;
}

function strand(
  builder: MeshBuilder,
  row: Row,
  normal: readonly [number, number],
  columns: readonly Column[],
  section: SectionGeometry | null,
  disc: boolean,
): Strand {
  const vertices: number[] = [];
  const x: number[] = [];
  const y: number[] = [];
  columns.forEach((column, k) => {
    const c = Math.cos(column.phi);
    const s = Math.sin(column.phi);
    let px = row.r * c;
    let py = row.r * s;
    const flatEdge = section && column.edge >= 0 && row.r > section.faceDistances_mm[column.edge];
    if (section && flatEdge) {
      const h = section.faceDistances_mm[column.edge];
      const face = section.faceAzimuths_deg[column.edge] * DEG;
      const along = h * Math.tan(column.phi - face);
      px = h * Math.cos(face) - along * Math.sin(face);
      py = h * Math.sin(face) + along * Math.cos(face);
    }
    x[k] = Math.fround(px);
    y[k] = Math.fround(py);
    if (section && column.flat >= 0 && !disc) {
      const face = section.faceAzimuths_deg[column.flat] * DEG;
      vertices[k] = builder.vertex(x[k], y[k], row.z, Math.cos(face), Math.sin(face), 0, -1, row.open);
    } else {
      const radius = disc ? -1 : row.r;
      vertices[k] = builder.vertex(
        x[k],
        y[k],
        row.z,
        normal[1] * c,
        normal[1] * s,
        normal[0],
        radius,
        row.open,
      );
    }
  });
  return { vertices, x, y, columns, onAxis: row.r === 0, disc };
}

/** Joins two rows; facets that shrink to a line (a flat that has not begun, a corner that is used up) are left out. */
function band(builder: MeshBuilder, a: Strand, b: Strand): void {
  for (let k = 1; k < a.vertices.length; k++) {
    const lowerMoves = a.x[k] !== a.x[k - 1] || a.y[k] !== a.y[k - 1];
    const upperMoves = b.x[k] !== b.x[k - 1] || b.y[k] !== b.y[k - 1];
    // The two columns of a crease stand in one place in both rows.
    if (a.columns[k].flat !== a.columns[k - 1].flat) continue;
    if (lowerMoves) builder.triangle(a.vertices[k - 1], a.vertices[k], b.vertices[k - 1]);
    if (upperMoves) builder.triangle(a.vertices[k], b.vertices[k], b.vertices[k - 1]);
  }
}
