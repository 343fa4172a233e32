/** Runs the built program as a process, as a reader at a terminal or a script does. */
import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { onTestFinished } from 'vitest';
import { ensureBuilt } from '../../scripts/lib/bundles.mjs';

export const ROOT = join(import.meta.dirname, '..', '..');
const PROGRAM = join(ROOT, 'dist', 'cli', 'main.mjs');
/** Nothing takes this long: it ends a hang. */
const HANG = 120_000;

export interface Ended {
  /** Null where a signal ended it. */
  readonly status: number | null;
  readonly out: string;
  readonly error: string;
}

export interface Start {
  readonly folder: string;
  readonly environment?: Readonly<Record<string, string>>;
  /** Text for its standard input. */
  readonly input?: string;
  /** Leave its input open, as an editor does. */
  readonly open?: boolean;
  /** The program itself, where it is not the one that was built. */
  readonly main?: string;
  /** Close its output after the first piece, as `head` does. */
  readonly hangUp?: boolean;
}

let built: Promise<void> | undefined;

/** Builds what is stale, runs the program, and waits for its end. */
export async function wireloft(words: readonly string[], start: Start): Promise<Ended> {
  await (built ??= ensureBuilt());
  const child = spawn(process.execPath, [start.main ?? PROGRAM, ...words], {
    cwd: start.folder,
    env: { ...process.env, NO_COLOR: '', FORCE_COLOR: '', TERM: 'xterm', ...start.environment },
    timeout: HANG,
    killSignal: 'SIGKILL',
  });
  let out = '';
  let error = '';
  child.stdout.setEncoding('utf8').on('data', (text: string) => {
    out += text;
    if (start.hangUp) child.stdout.destroy();
  });
  child.stderr.setEncoding('utf8').on('data', (text: string) => (error += text));
  child.stdin.on('error', () => undefined).write(start.input ?? '');
  if (!start.open) child.stdin.end();
  const status = await new Promise<number | null>((resolve, reject) => {
    child.on('error', reject).on('close', resolve);
  });
  return { status, out, error };
}

/** A folder with these files that is gone after the test. */
export function folderWith(files: Readonly<Record<string, string | Uint8Array>>): string {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'wireloft-cli-')));
  onTestFinished(() => rmSync(folder, { recursive: true, force: true }));
  for (const [name, content] of Object.entries(files)) {
    const path = join(folder, name);
    mkdirSync(dirname(path), { recursive: true });
    writeFileSync(path, content);
  }
  return folder;
}
