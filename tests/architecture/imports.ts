/**
 * Reads the imports of a source file and holds them against the map of the house (DEVELOPERS.md, "Map"): which
 * folder of src may import which, and which packages stay out of which folder.
 */
import { posix } from 'node:path';
import { parseSync } from 'vite';

export interface Import {
  /** As written: './slots.ts', 'three', '../meshes/worker.ts?worker'. */
  readonly specifier: string;
  /** Loaded when needed: import(), or a worker by new URL(…, import.meta.url). */
  readonly lazy: boolean;
}

/** Folder of src → the folders it may import from. Types count as imports. */
export const ARROWS: Readonly<Record<string, readonly string[]>> = {
  geometry: [],
  timber: [],
  design: ['geometry', 'timber'],
  blank: ['geometry', 'design'],
  plan: ['blank', 'timber', 'design', 'geometry'],
  meshes: ['blank', 'design', 'geometry'],
  stage: ['meshes', 'plan', 'blank', 'timber', 'design', 'geometry'],
  panels: ['design', 'blank', 'plan', 'files', 'timber', 'geometry'],
  files: ['plan', 'meshes', 'blank', 'design', 'timber', 'geometry'],
  app: ['stage', 'panels', 'files', 'meshes', 'plan', 'blank', 'timber', 'design', 'geometry'],
  cli: ['files', 'meshes', 'plan', 'blank', 'timber', 'design', 'geometry'],
  // main.tsx, beside index.html.
  '': ['app'],
};

/** Arrows that hold for import() only. */
const LAZY_ARROWS: Readonly<Record<string, readonly string[]>> = { files: ['stage'] };

const THREE = /^(three|three-.*|@react-three)(\/|$)/;
const REACT = /^(react|react-dom|@react-three|react-aria-components|lucide-react)(\/|$)/;

/** Packages that may not be imported from a folder. */
export const CLOSED_TO: Readonly<Record<string, readonly RegExp[]>> = {
  geometry: [THREE, REACT],
  timber: [THREE, REACT],
  design: [THREE, REACT],
  blank: [THREE, REACT],
  plan: [THREE, REACT],
  meshes: [REACT],
  files: [REACT],
  panels: [THREE],
  cli: [THREE, REACT],
};

/** Every import, re-export, import(), import type, import.meta.glob and new URL(…, import.meta.url) of a file. */
export function importsOf(path: string, text: string): Import[] {
  const { program, errors } = parseSync(path, text);
  if (errors.length > 0) throw new Error(`${path} does not parse: ${errors[0].message}`);
  const found: Import[] = [];
  const visit = (node: unknown): void => {
    if (Array.isArray(node)) {
      node.forEach(visit);
      return;
    }
    if (!isNode(node)) return;
    const specifier = specifierOf(node);
    if (specifier === null) throw new Error(`${path}: an import whose target is not a plain string`);
    if (specifier !== undefined)
      found.push({ specifier, lazy: node.type === 'ImportExpression' || node.type === 'NewExpression' });
    Object.values(node).forEach(visit);
  };
  visit(program);
  return found;
}

/** What is wrong with the imports of `path` (relative to src, with slashes); empty when all is well. */
export function violations(path: string, imports: readonly Import[]): string[] {
  const from = folderOf(path);
  const allowed = ARROWS[from];
  if (!allowed) return [`${path}: src/${from} is not on the map`];
  return imports.flatMap(({ specifier, lazy }) => {
    if (!specifier.startsWith('.')) {
      const closed = CLOSED_TO[from]?.some((pattern) => pattern.test(specifier));
      return closed ? [`${path}: src/${from} may not import ${specifier}`] : [];
    }
    const target = targetOf(path, specifier);
    if (target.startsWith('../assets/')) return [];
    if (target.startsWith('../')) return [`${path}: imports ${specifier}, outside src and assets`];
    const to = folderOf(target);
    const open = to === from || allowed.includes(to) || (lazy && LAZY_ARROWS[from]?.includes(to));
    return open ? [] : [`${path}: src/${from || '(top)'} may not import ${specifier} (src/${to})`];
  });
}

/** Path relative to src of a relative import of `path`, without a ?query. */
export function targetOf(path: string, specifier: string): string {
  return posix.normalize(posix.join(posix.dirname(path), specifier.replace(/\?.*$/, '')));
}

function folderOf(path: string): string {
  return path.includes('/') ? path.slice(0, path.indexOf('/')) : '';
}

type Node = Readonly<Record<string, unknown>> & { readonly type: string };

function isNode(value: unknown): value is Node {
  return typeof value === 'object' && value !== null && 'type' in value && typeof value.type === 'string';
}

/** undefined: no import; null: an import that cannot be read. */
function specifierOf(node: Node): string | null | undefined {
  switch (node.type) {
    case 'ImportDeclaration':
    case 'ImportExpression':
    case 'ExportAllDeclaration':
    case 'TSImportType':
      return literal(node.source ?? node.argument);
    case 'ExportNamedDeclaration':
      return node.source === null ? undefined : literal(node.source);
    case 'NewExpression': {
      const { callee } = node;
      const [target, base] = Array.isArray(node.arguments) ? (node.arguments as unknown[]) : [];
      const relativeToModule =
        isNode(callee) && callee.name === 'URL' && isNode(base) && base.type === 'MemberExpression';
      return relativeToModule ? literal(target) : undefined;
    }
    case 'CallExpression': {
      // Vite's import.meta.glob('../../assets/*.json').
      const { callee } = node;
      const glob =
        isNode(callee) &&
        isNode(callee.object) &&
        callee.object.type === 'MetaProperty' &&
        isNode(callee.property) &&
        callee.property.name === 'glob';
      return glob && Array.isArray(node.arguments) ? literal(node.arguments[0]) : undefined;
    }
    default:
      return undefined;
  }
}

function literal(node: unknown): string | null {
  if (!isNode(node)) return null;
  if (node.type === 'TSLiteralType') return literal(node.literal);
  return node.type === 'Literal' && typeof node.value === 'string' ? node.value : null;
}
