/** The revision on paper: what is given, what the boat says, or the commit of her files. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderWith, wireloft } from './program.js';

const BOAT = `use "gear.loft"
vessel Gull {
}
zone helm sheltered
zone cabin interior
run helm -- cabin 2 m
device plotter : Screen at helm
device hub     : Hub at cabin
link plotter -- hub using Patch length 3 m
`;
const GEAR = `model Screen : display "Screen" { port net : ethernet }
model Hub : switch "Hub" { port 1..4 : ethernet }
cable Patch : ethernet { lengths 3 m }
`;

function git(folder: string, ...words: readonly string[]): string {
  const own = ['-c', 'user.name=x', '-c', 'user.email=x@example.org', '-c', 'commit.gpgsign=false'];
  return execFileSync('git', [...own, ...words], { cwd: folder, encoding: 'utf8' }).trim();
}

/** A repository with the boat in its first commit, which is given too. */
function repository(): { readonly folder: string; readonly commit: string } {
  const folder = folderWith({ 'boats/gull.loft': BOAT, 'boats/gear.loft': GEAR, 'notes.txt': 'a' });
  git(folder, 'init', '-q');
  git(folder, 'add', '.');
  git(folder, 'commit', '-qm', 'one');
  return { folder, commit: git(folder, 'rev-parse', 'HEAD').slice(0, 7) };
}

/** What stands in the field; empty for nothing. */
async function drawn(folder: string, words: readonly string[] = [], environment = {}): Promise<string> {
  const { status, error } = await wireloft(
    ['draw', 'boats/gull.loft', '--out', 'out', '--sheet', 'network', ...words],
    { folder, environment },
  );
  expect(status, error).toBe(0);
  const svg = readFileSync(join(folder, 'out', 'network-1.svg'), 'utf8');
  const [, caption = ''] = />Revision<\/text>\n([^\n]*)/.exec(svg) ?? [];
  const text = />([^<]*)<\/text>$/.exec(caption)?.[1] ?? '';
  return text === 'Sheet' ? '' : text;
}

describe('the revision', () => {
  it('is the commit, with a mark where a file of the boat says something else', async () => {
    const { folder, commit } = repository();
    expect(await drawn(folder)).toBe(commit);
    // What is not of the boat does not matter to her drawing.
    writeFileSync(join(folder, 'notes.txt'), 'b');
    expect(await drawn(folder)).toBe(commit);
    writeFileSync(join(folder, 'boats', 'gear.loft'), `${GEAR}// more\n`);
    expect(await drawn(folder)).toBe(`${commit}+`);
    writeFileSync(join(folder, 'boats', 'gear.loft'), GEAR.replaceAll('\n', '\r\n'));
    expect(await drawn(folder)).toBe(commit);
  });

  it('is what is given, or what the boat says herself', async () => {
    const { folder } = repository();
    expect(await drawn(folder, ['--revision', 'C'])).toBe('C');
    writeFileSync(join(folder, 'boats', 'gull.loft'), BOAT.replace('Gull {', 'Gull {\n  revision "B"'));
    expect(await drawn(folder)).toBe('B');
  });

  it('is empty without git, outside of a repository, before the first commit and for a file that is in none', async () => {
    const { folder } = repository();
    expect(await drawn(folder, [], { PATH: join(folder, 'nowhere') })).toBe('');
    git(folder, 'rm', '-q', '--cached', 'boats/gull.loft');
    git(folder, 'commit', '-qm', 'two');
    expect(await drawn(folder)).toBe('');
    const other = folderWith({ 'boats/gull.loft': BOAT, 'boats/gear.loft': GEAR });
    expect(await drawn(other)).toBe('');
    git(other, 'init', '-q');
    expect(await drawn(other)).toBe('');
  });

  it('runs nothing that the repository names', async () => {
    const { folder, commit } = repository();
    const trap = join(folder, 'trap.sh');
    writeFileSync(trap, `#!/bin/sh\ntouch ${join(folder, 'sprung')}\n`, { mode: 0o755 });
    for (const name of ['core.fsmonitor', 'core.sshCommand', 'core.pager', 'filter.x.clean', 'diff.external'])
      git(folder, 'config', name, trap);
    mkdirSync(join(folder, '.git', 'info'), { recursive: true });
    writeFileSync(join(folder, '.git', 'info', 'attributes'), '*.loft filter=x\n');
    expect(await drawn(folder)).toBe(commit);
    expect(() => readFileSync(join(folder, 'sprung'))).toThrow();
  });

  it('stands on the cover of the report too', async () => {
    const { folder, commit } = repository();
    const { status } = await wireloft(['report', 'boats/gull.loft', '--out', 'out'], { folder });
    expect(status).toBe(0);
    expect(readFileSync(join(folder, 'out', 'report.md'), 'utf8')).toContain(commit);
  });
});
