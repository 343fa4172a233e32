/** The hook of docs/ci, in a git repository. */
import { copyFileSync, chmodSync, readFileSync, rmSync } from 'node:fs';
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { folderWith, ROOT } from '../cli/program.js';
import { BOAT, BROKEN, GOODS } from './boat.js';
import { binaries, clean, git, write, type Ran } from './host.js';

async function repository(): Promise<{ readonly folder: string; readonly commit: (path?: string) => Ran }> {
  const folder = folderWith({ 'boats/goods.loft': GOODS, 'boats/boat.loft': BOAT, 'notes.txt': 'one\n' });
  const bin = await binaries({});
  git(folder, 'init', '-q');
  copyFileSync(join(ROOT, 'docs', 'ci', 'pre-commit'), join(folder, '.git', 'hooks', 'pre-commit'));
  chmodSync(join(folder, '.git', 'hooks', 'pre-commit'), 0o755);
  const commit = (path = `${bin}:${process.env['PATH'] ?? ''}`): Ran => {
    const config = ['-c', 'user.name=Fitter', '-c', 'user.email=fitter@example.invalid'];
    const { status, stdout, stderr } = spawnSync('git', [...config, 'commit', '-qm', 'change'], {
      cwd: folder,
      encoding: 'utf8',
      env: { ...clean(), PATH: path },
    });
    return { status, out: `${stdout}${stderr}` };
  };
  git(folder, 'add', '.');
  return { folder, commit };
}
const commits = (folder: string): number => git(folder, 'log', '--oneline').trim().split('\n').length;

describe('the hook', () => {
  it('lets a boat pass that is in order, and stops one that is not, with what is wrong', async () => {
    const { folder, commit } = await repository();
    const first = commit();
    expect(first.status, first.out).toBe(0);
    write(folder, { 'boats/boat.loft': BROKEN });
    git(folder, 'add', '.');
    const { status, out } = commit();
    expect([status, commits(folder)]).toEqual([1, 1]);
    expect(out).toMatch(/^boats\/boat\.loft:\d+:1 error need\/not-met: /m);
    expect(out).toContain('not committed, because of the errors above');
  });

  it('checks what is staged, and not what lies in the folder', async () => {
    const { folder, commit } = await repository();
    write(folder, { 'boats/boat.loft': BROKEN });
    expect(commit().status).toBe(0);
    git(folder, 'add', '.');
    write(folder, { 'boats/boat.loft': BOAT });
    expect(commit().status).toBe(1);
    expect(readFileSync(join(folder, 'boats', 'boat.loft'), 'utf8')).toBe(BOAT);
  });

  it('stops a file that is not laid out, and a catalogue that is taken away from its boat', async () => {
    const { folder, commit } = await repository();
    write(folder, { 'boats/boat.loft': BOAT.replace('device cam     :', 'device cam :') });
    git(folder, 'add', '.');
    const { status, out } = commit();
    expect([status, out.includes('stage them again')], out).toEqual([1, true]);
    write(folder, { 'boats/boat.loft': BOAT });
    git(folder, 'add', '.');
    expect(commit().status).toBe(0);
    rmSync(join(folder, 'boats', 'goods.loft'));
    git(folder, 'add', '.');
    expect(commit().status).toBe(1);
  });

  it('has nothing to do where no spec is touched, and does not pass silently without the program', async () => {
    const { folder, commit } = await repository();
    const without = '/usr/bin:/bin';
    const { status, out } = commit(without);
    expect([status, out.includes('nothing was checked')], out).toEqual([1, true]);
    expect(commit().status).toBe(0);
    write(folder, { 'notes.txt': 'two\n' });
    git(folder, 'add', '.');
    expect(commit(without).status).toBe(0);
    // The last spec goes: there is no boat left to check.
    git(folder, 'rm', '-q', '-r', 'boats');
    expect(commit().status).toBe(0);
    expect(commits(folder)).toBe(3);
  });
});
