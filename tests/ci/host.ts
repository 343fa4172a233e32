/** A host that runs a workflow, as far as the shell goes: steps in order, in one folder, with `gh` and `npm` written down instead of run. */
import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { ensureBuilt } from '../../scripts/lib/bundles.mjs';
import { folderWith, ROOT } from '../cli/program.js';

/** A folder for the PATH with the program that was built, and others as shell scripts. */
export async function binaries(scripts: Readonly<Record<string, string>>): Promise<string> {
  await ensureBuilt();
  const folder = folderWith({});
  const all = {
    wireloft: `exec '${process.execPath}' '${join(ROOT, 'dist', 'cli', 'main.mjs')}' "$@"`,
    ...scripts,
  };
  for (const [name, text] of Object.entries(all)) {
    writeFileSync(join(folder, name), `#!/bin/sh\n${text}\n`);
    chmodSync(join(folder, name), 0o755);
  }
  return folder;
}

export interface Ran {
  readonly status: number | null;
  readonly out: string;
}

/** As a hosted runner starts bash. */
export function shell(script: string, folder: string, environment: Readonly<Record<string, string>>): Ran {
  const { status, stdout, stderr } = spawnSync(
    'bash',
    ['--noprofile', '--norc', '-eo', 'pipefail', '-c', script],
    { cwd: folder, encoding: 'utf8', timeout: 120_000, env: { ...clean(), ...environment } },
  );
  return { status, out: `${stdout}${stderr}` };
}

/** This process's environment without what would lead git astray where the tests are run by a hook. */
export function clean(): NodeJS.ProcessEnv {
  return Object.fromEntries(
    Object.entries(process.env).filter(([name]) => !/^(?:GIT_|GITHUB_|RUNNER_)/.test(name)),
  );
}

export function git(folder: string, ...words: readonly string[]): string {
  const config = ['-c', 'user.name=Fitter', '-c', 'user.email=fitter@example.invalid'];
  return execFileSync('git', [...config, ...words], { cwd: folder, encoding: 'utf8', env: clean() });
}

export function write(folder: string, files: Readonly<Record<string, string>>): void {
  for (const [name, text] of Object.entries(files)) {
    mkdirSync(join(folder, name, '..'), { recursive: true });
    writeFileSync(join(folder, name), text);
  }
}

export const readIf = (path: string): string => (existsSync(path) ? readFileSync(path, 'utf8') : '');
