/** `check FILE`: whether a file is a valid design. */
import { readDesignFile } from './input.ts';

const USAGE = 'check takes one design file: check FILE';

export function run(args: readonly string[]): Promise<number> {
  const [path, ...more] = args;
  if (path === undefined || path.startsWith('-') || more.length > 0) {
    console.error(USAGE);
    return Promise.resolve(2);
  }
  const input = readDesignFile(path);
  if (!input.ok) {
    for (const line of input.lines) console.error(line);
    return Promise.resolve(input.exit);
  }
  const { design } = input;
  console.log(
    `${path}: valid, ${counted(design.sets.length, 'set')}, ${counted(design.order.length, 'slot')}`,
  );
  return Promise.resolve(0);
}

function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}
