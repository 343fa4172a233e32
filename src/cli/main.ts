/** The terminal's entry: gives the program its process, and the process its exit status. */
import { readFileSync } from 'node:fs';
import { isatty } from 'node:tty';
import { fileURLToPath } from 'node:url';
import type * as writers from './draw/writers.js';
import { loadProgram } from './load.js';
import { bundledSolver } from './suggest/bundled.js';
import { reportFault } from './terminal/fault.js';
import type { Sink, World } from './terminal/world.js';

/** A stream whose reader may go away (`wireloft check . | head`): what is left is dropped, and the status still says what was found. */
function sink(stream: NodeJS.WriteStream & { readonly fd: number }): Sink {
  const terminal = isatty(stream.fd);
  let open = true;
  stream.on('error', (error: NodeJS.ErrnoException) => {
    open = false;
    if (error.code !== 'EPIPE') process.exitCode = reportFault(error, world);
  });
  return {
    write: (text) => {
      if (open) stream.write(text);
    },
    terminal,
    columns: terminal ? stream.columns : undefined,
  };
}

function ownVersion(): string {
  // Both this file and its bundle lie two folders below package.json.
  const manifest: unknown = JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8'));
  const known = typeof manifest === 'object' && manifest !== null && 'version' in manifest;
  return known && typeof manifest.version === 'string' ? manifest.version : 'unknown';
}

/** The build lays the fonts beside this file's bundle. */
function fontFile(name: string): string {
  return fileURLToPath(new URL(`fonts/${name}`, import.meta.url));
}

function localDate(now: Date): string {
  const two = (value: number): string => String(value).padStart(2, '0');
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

const world: World = {
  folder: process.cwd(),
  environment: process.env,
  out: sink(process.stdout),
  error: sink(process.stderr),
  get version() {
    return ownVersion();
  },
  today: localDate(new Date()),
  worker: new URL('worker.mjs', import.meta.url),
  writers: {
    load: () => import(new URL('writers.mjs', import.meta.url).href) as Promise<typeof writers>,
    fontFiles: {
      regular: fontFile('DejaVuSansCondensed.ttf'),
      bold: fontFile('DejaVuSansCondensed-Bold.ttf'),
    },
  },
  solver: () => bundledSolver(import.meta.url),
  interrupted: (act) => {
    process.on('SIGINT', act);
    return () => process.off('SIGINT', act);
  },
};

for (const event of ['uncaughtException', 'unhandledRejection'] as const)
  process.on(event, (error: unknown) => {
    process.exitCode = reportFault(error, world);
    // The state is unknown now; going on could write a wrong result.
    process.exit();
  });

// Not process.exit(): a pipe may still have to take what was written.
const { run } = loadProgram(
  new URL('program.js', import.meta.url),
  new URL('program.compiled', import.meta.url),
);
process.exitCode = await run(process.argv.slice(2), world);
