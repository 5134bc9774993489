/**
 * `npm start`: builds the app, serves it to this machine only, prints the address and opens the browser where
 * there is one to open. PORT and HOST change where it listens; a port that is taken moves on to the next.
 */
import { build, preview } from 'vite';

const DEFAULT_PORT = 5260;

async function start(): Promise<void> {
  const port = process.env.PORT === undefined ? DEFAULT_PORT : Number(process.env.PORT);
  if (!Number.isInteger(port) || port < 0 || port > 65_535) {
    console.error(`PORT must be a port number, not "${process.env.PORT}"`);
    process.exitCode = 2;
    return;
  }
  await build({ logLevel: 'warn' });
  const server = await preview({
    logLevel: 'warn',
    preview: { host: process.env.HOST ?? '127.0.0.1', port, strictPort: false, open: hasScreen() },
  });
  const address = server.resolvedUrls?.local[0] ?? server.resolvedUrls?.network[0];
  if (address === undefined) throw new Error('the server reports no address');
  console.log(`\n  Kerfweave is ready at ${address}\n  Press Ctrl+C to stop.\n`);
}

/** Whether opening a browser makes sense: someone at a terminal, and a display. */
function hasScreen(): boolean {
  if (process.env.CI || !process.stdout.isTTY) return false;
  if (process.platform === 'darwin' || process.platform === 'win32') return true;
  return Boolean(process.env.DISPLAY ?? process.env.WAYLAND_DISPLAY);
}

await start();
