/** The workflow of docs/ci: its steps are run as a host would run them, on a repository with a pull request that is merged for trial. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { folderWith, ROOT } from '../cli/program.js';
import { BOAT, BROKEN, GOODS } from './boat.js';
import { binaries, git, readIf, shell, write, type Ran } from './host.js';

interface Step {
  readonly name?: string;
  readonly uses?: string;
  readonly if?: string;
  readonly run?: string;
  readonly env?: Readonly<Record<string, string>>;
}

const workflow = parse(readFileSync(join(ROOT, 'docs', 'ci', 'workflow.yml'), 'utf8')) as {
  readonly permissions: Readonly<Record<string, string>>;
  readonly defaults: unknown;
  readonly jobs: { readonly boats: { readonly steps: readonly Step[] } };
};
const { steps } = workflow.jobs.boats;

/** What the host puts in place of expressions; another one fails the test. */
const EXPRESSIONS: Readonly<Record<string, string>> = {
  'vars.WIRELOFT_SOURCE': 'SOURCE',
  'github.token': 'token',
  'github.event.pull_request.number': '7',
};
const ALWAYS = '!cancelled()';
const ON_PULL_REQUEST = `${ALWAYS} && github.event_name == 'pull_request'`;
const FROM_HERE = `${ON_PULL_REQUEST} && github.event.pull_request.head.repo.full_name == github.repository`;
const WHEN: Readonly<Record<string, { readonly afterFailure: boolean; readonly event: readonly string[] }>> =
  {
    '': { afterFailure: false, event: ['push', 'pull_request'] },
    [ALWAYS]: { afterFailure: true, event: ['push', 'pull_request'] },
    [ON_PULL_REQUEST]: { afterFailure: true, event: ['pull_request'] },
    [FROM_HERE]: { afterFailure: true, event: ['pull_request'] },
  };

function valueOf(text: string, source: string): string {
  return text.replace(/\$\{\{ (.+?) \}\}/g, (_, name: string) => {
    const value = EXPRESSIONS[name];
    if (value === undefined) throw new Error(`no value is known for ${name}`);
    return value === 'SOURCE' ? source : value;
  });
}

interface Host {
  readonly folder: string;
  readonly scratch: string;
  /** What `gh` was called with, a line each. */
  readonly asked: () => string;
  readonly posted: () => string;
  readonly npm: () => string;
  readonly run: (event: string) => ReadonlyMap<string, Ran>;
}

/** @param known the number of a comment that is there already */
async function host(after: Readonly<Record<string, string>>, known = ''): Promise<Host> {
  const source = folderWith({ 'package.json': '{}\n' });
  git(source, 'init', '-q');
  git(source, 'add', '.');
  git(source, 'commit', '-qm', 'program');
  const scratch = folderWith({});
  const bin = await binaries({
    npm: `echo "$PWD: $*" >> '${scratch}/npm.log'`,
    gh: `echo "$*" >> '${scratch}/gh.log'
case "$*" in
  *--jq*) printf '%s\\n' ${known} ;;
  *--field*) cp "$(printf '%s' "$*" | sed 's/.*body=@//')" '${scratch}/posted.md' ;;
esac`,
  });
  const folder = folderWith({ 'boats/goods.loft': GOODS, 'boats/boat.loft': BOAT });
  git(folder, 'init', '-q', '-b', 'main');
  git(folder, 'add', '.');
  git(folder, 'commit', '-qm', 'boat');
  git(folder, 'checkout', '-q', '-b', 'change');
  write(folder, after);
  git(folder, 'add', '.');
  git(folder, 'commit', '-qm', 'change');
  git(folder, 'checkout', '-q', 'main');
  git(folder, 'merge', '-q', '--no-ff', '-m', 'trial', 'change');
  const environment = {
    PATH: `${bin}:${process.env['PATH'] ?? ''}`,
    RUNNER_TEMP: scratch,
    GITHUB_STEP_SUMMARY: join(scratch, 'summary.md'),
    GITHUB_REPOSITORY: 'yard/boats',
  };
  const run = (event: string): ReadonlyMap<string, Ran> => {
    const ran = new Map<string, Ran>();
    let failed = false;
    for (const { name = '', run: script, if: condition = '', env = {} } of steps) {
      if (script === undefined) continue;
      const when = WHEN[condition.replace(/^\$\{\{ | \}\}$/g, '').replace(/\s+/g, ' ')];
      if (!when) throw new Error(`the test does not know when "${condition}" holds`);
      if ((failed && !when.afterFailure) || !when.event.includes(event)) continue;
      const values = Object.entries(env).map(([key, text]): [string, string] => [
        key,
        valueOf(text, `file://${source}`),
      ]);
      const result = shell(script, folder, {
        ...environment,
        ...(Object.fromEntries(values) as Record<string, string>),
      });
      failed ||= result.status !== 0;
      ran.set(name, result);
    }
    return ran;
  };
  const log = (name: string) => (): string => readIf(join(scratch, name));
  return { folder, scratch, run, asked: log('gh.log'), posted: log('posted.md'), npm: log('npm.log') };
}

const statuses = (ran: ReadonlyMap<string, Ran>): Readonly<Record<string, number | null>> =>
  Object.fromEntries([...ran].map(([name, { status }]) => [name, status]));

describe('the workflow', () => {
  it('asks for no more than it uses', () => {
    expect(workflow.permissions).toEqual({ contents: 'read', 'pull-requests': 'write' });
    expect(workflow.defaults).toEqual({ run: { shell: 'bash' } });
    expect(steps.flatMap(({ uses }) => uses ?? [])).toHaveLength(3);
  });

  it('says on a pull request what it breaks, fails, and draws all the same', async () => {
    const { run, asked, posted, npm, scratch } = await host({
      'boats/boat.loft': BROKEN,
      'boats/sister.loft': BOAT.replace('vessel Boat', 'vessel Sister'),
    });
    const ran = run('pull_request');
    const out = [...ran.values()].map((one) => one.out).join('\n');
    expect(statuses(ran), out).toEqual({
      'Install Wireloft': 0,
      'Check every boat': 1,
      'List the boats': 0,
      'Compare with what it would be merged into': 0,
      'Comment on the pull request': 0,
      'Draw every boat': 0,
    });
    expect(npm().replaceAll(`${scratch}/wireloft: `, '').trim().split('\n')).toEqual([
      'ci --no-audit --no-fund',
      'run build',
      'link',
    ]);
    expect(ran.get('Check every boat')?.out).toContain('error need/not-met');
    expect(asked()).toContain('--method POST repos/yard/boats/issues/7/comments');
    expect(posted()).toMatch(/^<!-- wireloft -->\n\n\*\*boats\/boat\.loft\*\*\n/);
    expect(posted()).toContain('need/not-met');
    expect(posted()).toMatch(/\*\*boats\/sister\.loft\*\*\n\nA new boat\.\n/);
    expect(readIf(join(scratch, 'summary.md'))).toBe(posted());
    for (const boat of ['boat', 'sister'])
      expect(readIf(join(scratch, 'drawings', 'boats', boat, 'drawings.pdf')).slice(0, 5)).toBe('%PDF-');
  }, 120_000);

  it('writes its comment anew, and within the room that a comment has', async () => {
    const { run, asked, posted, scratch } = await host(
      { 'boats/boat.loft': BOAT.replace('0.5 m', '0.6 m') },
      '42',
    );
    const ran = run('pull_request');
    expect(new Set(Object.values(statuses(ran)))).toEqual(new Set([0]));
    expect(asked()).toContain('--method PATCH repos/yard/boats/issues/comments/42');
    expect(asked()).not.toContain('POST');
    const step = steps.find(({ name }) => name === 'Comment on the pull request');
    const long = `<!-- wireloft -->\n${'a line of a comment\n'.repeat(5000)}`;
    write(scratch, { 'comment.md': long });
    const bin = await binaries({ gh: 'true' });
    const { status } = shell(step?.run ?? 'false', scratch, {
      PATH: `${bin}:${process.env['PATH'] ?? ''}`,
      RUNNER_TEMP: scratch,
      GITHUB_REPOSITORY: 'yard/boats',
      NUMBER: '7',
    });
    expect(status).toBe(0);
    const cut = readIf(join(scratch, 'cut.md'));
    expect(cut.length).toBeLessThan(65_536);
    expect(cut.length).toBeGreaterThan(50_000);
    expect(cut.trimEnd().endsWith('The rest is in the summary of the run.')).toBe(true);
    expect(posted()).not.toBe('');
  }, 120_000);

  it('checks and draws what is pushed, and comments on nothing', async () => {
    const { run, asked } = await host({ 'boats/notes.txt': 'none\n' });
    const ran = run('push');
    expect(statuses(ran)).toEqual({
      'Install Wireloft': 0,
      'Check every boat': 0,
      'List the boats': 0,
      'Draw every boat': 0,
    });
    expect(asked()).toBe('');
  }, 120_000);
});
