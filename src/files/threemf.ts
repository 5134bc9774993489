/**
 * Parts as one 3MF file (3MF Core Specification 1.2): millimetres, z up, one named object per part with the
 * timber as its base material, gathered as components of one object because the strips are locked into the
 * body and must not be moved apart. The objects keep the lathe frame; the build item moves the whole into
 * the positive octant (§3.3). Every edge of an object is shared by exactly two triangles (§4.1).
 */
import { strToU8, zipSync, type Zippable } from 'fflate';
import type { Part } from '../blank/parts.ts';
import { materialIndex, type TimberLook, type TimberLooks } from './look.ts';
import type { IndexedMesh } from './manifoldEdges.ts';
import { placeFloat32, snapMesh } from './snapMesh.ts';
import { zipDate } from './zipDate.ts';

const CORE = 'http://schemas.microsoft.com/3dmanufacturing/core/2015/02';
const MODEL_RELATION = 'http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel';
const PACKAGE = 'http://schemas.openxmlformats.org/package/2006';
const MODEL_TYPE = 'application/vnd.ms-package.3dmanufacturing-3dmodel+xml';
const RELATIONS_TYPE = 'application/vnd.openxmlformats-package.relationships+xml';
const XML = '<?xml version="1.0" encoding="UTF-8"?>\n';
const MATERIALS_ID = 1;

/** Bytes of the .3mf file; parts of which nothing is left are not written. */
export function write3mf(title: string, parts: readonly Part[], looks: TimberLooks): Uint8Array {
  const solids = parts
    .map((part) => ({ part, mesh: snapMesh(part, placeFloat32) }))
    .filter(({ mesh }) => mesh.triangles.length > 0);
  if (solids.length === 0) throw new Error('there is no part to write');
  const materials: TimberLook[] = [];
  const materialOf = solids.map(({ part }) => materialIndex(materials, looks(part.timber)));
  const wholeId = MATERIALS_ID + solids.length + 1;
  const model = [
    `${XML}<model unit="millimeter" xml:lang="en-US" xmlns="${CORE}">`,
    `<metadata name="Title">${escapeXml(title)}</metadata>`,
    '<metadata name="Application">Kerfweave</metadata>',
    '<resources>',
    `<basematerials id="${MATERIALS_ID}">`,
    ...materials.map(
      ({ name, srgb }) => `<base name="${escapeXml(name)}" displaycolor="${srgb.toUpperCase()}FF"/>`,
    ),
    '</basematerials>',
  ];
  solids.forEach(({ part, mesh }, i) => {
    model.push(
      `<object id="${MATERIALS_ID + 1 + i}" type="model" name="${escapeXml(part.name)}" ` +
        `pid="${MATERIALS_ID}" pindex="${materialOf[i]}"><mesh><vertices>`,
    );
    pushVertices(model, mesh);
    model.push('</vertices><triangles>');
    pushTriangles(model, mesh);
    model.push('</triangles></mesh></object>');
  });
  model.push(
    `<object id="${wholeId}" type="model" name="${escapeXml(title)}"><components>`,
    ...solids.map((_, i) => `<component objectid="${MATERIALS_ID + 1 + i}"/>`),
    '</components></object>',
    '</resources>',
    `<build><item objectid="${wholeId}" transform="1 0 0 0 1 0 0 0 1 ${toPositiveOctant(solids)}"/></build>`,
    '</model>\n',
  );
  return packageOf(model.join('\n'));
}

function packageOf(model: string): Uint8Array {
  const contentTypes =
    `${XML}<Types xmlns="${PACKAGE}/content-types">` +
    `<Default Extension="rels" ContentType="${RELATIONS_TYPE}"/>` +
    `<Default Extension="model" ContentType="${MODEL_TYPE}"/></Types>\n`;
  const relations =
    `${XML}<Relationships xmlns="${PACKAGE}/relationships">` +
    `<Relationship Id="rel0" Type="${MODEL_RELATION}" Target="/3D/3dmodel.model"/></Relationships>\n`;
  // Local time on purpose: fflate writes the local clock's fields, so the bytes are the same in every zone.
  const options = { level: 6, mtime: zipDate() } as const;
  const files: Zippable = {
    '[Content_Types].xml': [strToU8(contentTypes), options],
    '_rels/.rels': [strToU8(relations), options],
    '3D/3dmodel.model': [strToU8(model), options],
  };
  return zipSync(files);
}

function pushVertices(lines: string[], { positions }: IndexedMesh) {
  for (let v = 0; v < positions.length; v += 3)
    lines.push(
      `<vertex x="${shortest(positions[v])}" y="${shortest(positions[v + 1])}" z="${shortest(positions[v + 2])}"/>`,
    );
}

function pushTriangles(lines: string[], { triangles }: IndexedMesh) {
  for (let t = 0; t < triangles.length; t += 3)
    lines.push(`<triangle v1="${triangles[t]}" v2="${triangles[t + 1]}" v3="${triangles[t + 2]}"/>`);
}

/** The shortest decimal that reads back as the same single-precision number. */
function shortest(value: number): string {
  for (let digits = 7; digits < 9; digits++) {
    const rounded = Number(value.toPrecision(digits));
    if (Math.fround(rounded) === value) return String(rounded);
  }
  return String(Number(value.toPrecision(9)));
}

/** Translation that brings the lowest x, y and z of the whole to zero. */
function toPositiveOctant(solids: readonly { readonly mesh: IndexedMesh }[]): string {
  const low = [Infinity, Infinity, Infinity];
  for (const { mesh } of solids)
    mesh.positions.forEach((value, i) => (low[i % 3] = Math.min(low[i % 3], value)));
  return low.map((value) => shortest(Math.fround(-value) + 0)).join(' ');
}

function escapeXml(text: string): string {
  return text
    .replace(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, '�')
    .replace(/[&<>"]/g, (sign) => ({ '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' })[sign] ?? sign);
}
