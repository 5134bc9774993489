/**
 * `check FILE`: whether a file is a valid design, which state of it the file holds (the fingerprint that its shop sheet
 * bears), and what the maker is warned of. Warnings go to standard output in the design's unit and leave the exit code at 0:
 * the design can be cut.
 */
import { fingerprintOf } from '../files/fingerprint.ts';
import { messagesOf } from '../plan/messages.ts';
import { worded } from '../plan/wording.ts';
import { onlyDesign } from './input.ts';

export const CHECK_USAGE = 'check takes one design file: check FILE';

/** Exit code: 0 valid, 1 the design is wrong, 2 the call is wrong. */
export function run(args: readonly string[]): Promise<number> {
  const design = onlyDesign(args, CHECK_USAGE);
  if (typeof design === 'number') return Promise.resolve(design);
  const warnings = messagesOf(design).filter((message) => message.level === 'warning');
  const parts = [
    counted(design.sets.length, 'set'),
    counted(design.order.length, 'slot'),
    counted(warnings.length, 'warning'),
  ];
  const lines = warnings.map(
    ({ code, slot, words }) =>
      `warning ${code}${slot === null ? '' : ` ${slot}`}: ${worded(words, design.unit)}`,
  );
  const head = [`valid: ${parts.join(', ')}`, `fingerprint ${fingerprintOf(design)}`];
  process.stdout.write(`${[...head, ...lines].join('\n')}\n`);
  return Promise.resolve(0);
}

function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}
