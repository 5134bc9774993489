/**
 * The command line: `npm run --silent kerfweave -- COMMAND FILE [options]`. Each command is a file of its own
 * with `run(args)`, loaded only when it is called. Exit 0 good, 1 the design is wrong, 2 the call is wrong
 * (an unknown command or option, a file that cannot be read or written).
 */

/** A command: its arguments after the name, in; the exit code out. */
export type Run = (args: readonly string[]) => Promise<number>;

const COMMANDS: Readonly<Record<string, () => Promise<{ readonly run: Run }>>> = {
  check: () => import('./check.ts'),
  model: () => import('./model.ts'),
  report: () => import('./report.ts'),
  sheet: () => import('./sheet.ts'),
};

async function main([name, ...args]: readonly string[]): Promise<number> {
  const known = Object.keys(COMMANDS).join(', ');
  if (name === undefined) {
    console.error(`no command given: COMMAND FILE [options], where COMMAND is one of ${known}`);
    return 2;
  }
  if (!Object.hasOwn(COMMANDS, name)) {
    console.error(`${JSON.stringify(name)} is no command; there are ${known}`);
    return 2;
  }
  const { run } = await COMMANDS[name]();
  return run(args);
}

// A reader that has seen enough (`report FILE | head`) closes the pipe; that is no fault of the command.
for (const stream of [process.stdout, process.stderr])
  stream.on('error', (error: NodeJS.ErrnoException) => {
    if (error.code !== 'EPIPE') throw error;
    process.exit();
  });

process.exitCode = await main(process.argv.slice(2));
