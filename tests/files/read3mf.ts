/** A 3MF reader of the tests' own, strict about what it meets: package, relation, model, objects. */
import { strFromU8, unzipSync } from 'fflate';

export interface ReadObject {
  readonly id: string;
  readonly name: string;
  readonly material: { readonly name: string; readonly displaycolor: string } | null;
  readonly positions: number[];
  readonly triangles: number[];
  readonly components: string[];
}

export interface Read3mf {
  readonly files: string[];
  readonly unit: string;
  readonly title: string;
  readonly objects: ReadObject[];
  readonly items: { readonly objectid: string; readonly transform: number[] }[];
}

interface Element {
  readonly tag: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: Element[];
  text: string;
}

const ENTITIES: Readonly<Record<string, string>> = { amp: '&', lt: '<', gt: '>', quot: '"', apos: "'" };
const decode = (text: string) =>
  text.replace(/&([^;]*);/g, (_, name: string) => {
    if (!(name in ENTITIES)) throw new Error(`unknown entity &${name};`);
    return ENTITIES[name];
  });

/** Elements, attributes and text; throws on anything else or on tags that do not match. */
export function parseXml(xml: string): Element {
  const root: Element = { tag: '', attributes: {}, children: [], text: '' };
  const open: Element[] = [root];
  const token =
    /<\?xml version="1\.0" encoding="UTF-8"\?>|<(\/?)([\w:]+)((?:\s+[\w:]+="[^"<]*")*)\s*(\/?)>|([^<]+)/gy;
  let end = 0;
  for (let match = token.exec(xml); match; match = token.exec(xml)) {
    end = token.lastIndex;
    const [, closing, tag, attributes, empty, text] = match;
    const current = open[open.length - 1];
    if (text !== undefined) current.text += decode(text);
    else if (closing) {
      if (open.pop()?.tag !== tag) throw new Error(`</${tag}> closes nothing`);
    } else if (tag) {
      const pairs = [...attributes.matchAll(/([\w:]+)="([^"]*)"/g)].map(
        ([, k, v]) => [k, decode(v)] as const,
      );
      if (new Set(pairs.map(([k]) => k)).size !== pairs.length) throw new Error('attribute given twice');
      const element: Element = { tag, attributes: Object.fromEntries<string>(pairs), children: [], text: '' };
      current.children.push(element);
      if (!empty) open.push(element);
    }
  }
  if (end !== xml.length || open.length !== 1) throw new Error(`not well-formed at ${end}`);
  return root.children[0];
}

const child = (element: Element, tag: string): Element => {
  const found = element.children.filter((one) => one.tag === tag);
  if (found.length !== 1) throw new Error(`${found.length} <${tag}> in <${element.tag}>`);
  return found[0];
};

/** ST_Number of the 3MF schema. */
const NUMBER = /^[-+]?(\d+(\.\d+)?|\.\d+)([eE][-+]?\d+)?$/;
const number = (text: string): number => {
  if (!NUMBER.test(text)) throw new Error(`${text} is no ST_Number`);
  return Number(text);
};

export function read3mf(bytes: Uint8Array): Read3mf {
  const files = unzipSync(bytes);
  const text = (name: string) => {
    if (!(name in files)) throw new Error(`no ${name} in the package`);
    return strFromU8(files[name]);
  };
  const types = parseXml(text('[Content_Types].xml')).children.map(
    (one) => `${one.attributes.Extension} ${one.attributes.ContentType}`,
  );
  for (const type of [
    'rels application/vnd.openxmlformats-package.relationships+xml',
    'model application/vnd.ms-package.3dmanufacturing-3dmodel+xml',
  ])
    if (!types.includes(type)) throw new Error(`content type missing: ${type}`);
  const start = parseXml(text('_rels/.rels')).children.filter(
    (one) => one.attributes.Type === 'http://schemas.microsoft.com/3dmanufacturing/2013/01/3dmodel',
  );
  if (start.length !== 1) throw new Error('not exactly one start part');
  const model = parseXml(text(start[0].attributes.Target.slice(1)));
  if (model.attributes.xmlns !== 'http://schemas.microsoft.com/3dmanufacturing/core/2015/02')
    throw new Error('not the core namespace');

  const materials = new Map<string, Element[]>();
  const objects: ReadObject[] = [];
  for (const resource of child(model, 'resources').children) {
    const { id } = resource.attributes;
    if (materials.has(id) || objects.some((object) => object.id === id)) throw new Error(`id ${id} twice`);
    if (resource.tag === 'basematerials') {
      if (objects.length > 0) throw new Error('materials after an object that uses them');
      materials.set(id, resource.children);
    } else objects.push(readObject(resource, materials, objects));
  }
  return {
    files: Object.keys(files),
    unit: model.attributes.unit,
    title: model.children.find((one) => one.attributes.name === 'Title')?.text ?? '',
    objects,
    items: child(model, 'build').children.map((item) => {
      if (!objects.some((object) => object.id === item.attributes.objectid))
        throw new Error('item of nothing');
      const transform = (item.attributes.transform ?? '1 0 0 0 1 0 0 0 1 0 0 0').split(' ').map(number);
      if (transform.length !== 12) throw new Error('a transform has twelve numbers');
      return { objectid: item.attributes.objectid, transform };
    }),
  };
}

function readObject(
  resource: Element,
  materials: ReadonlyMap<string, Element[]>,
  earlier: readonly ReadObject[],
): ReadObject {
  const { id, name, pid, pindex } = resource.attributes;
  const base = pid === undefined ? undefined : materials.get(pid)?.[Number(pindex)]?.attributes;
  if (pid !== undefined && !base) throw new Error(`object ${id} names a material that is not there`);
  const [content] = resource.children;
  const components = content.tag === 'components' ? content.children.map((c) => c.attributes.objectid) : [];
  for (const component of components)
    if (!earlier.some((object) => object.id === component)) throw new Error('component before its object');
  const mesh = content.tag === 'mesh' ? content : null;
  const positions = mesh
    ? child(mesh, 'vertices').children.flatMap(({ attributes: v }) => [number(v.x), number(v.y), number(v.z)])
    : [];
  const triangles = mesh
    ? child(mesh, 'triangles').children.flatMap(({ attributes: t }) => [t.v1, t.v2, t.v3].map(number))
    : [];
  if (triangles.some((v) => v * 3 >= positions.length)) throw new Error('a triangle names no vertex');
  return {
    id,
    name,
    material: base ? { name: base.name, displaycolor: base.displaycolor } : null,
    positions,
    triangles,
    components,
  };
}
