/** The tasks and the problem matcher of the extension, against what `wireloft check` really prints. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { CHECK } from '../../src/cli/check/command.js';
import { checkWords, OFFERED, TASK_TYPE } from '../../src/extension/checkTasks.js';
import { folderWith, ROOT, wireloft } from '../cli/program.js';

interface Pattern {
  readonly name: string;
  readonly regexp: string;
  readonly file: number;
  readonly line: number;
  readonly column: number;
  readonly severity: number;
  readonly code: number;
  readonly message: number;
}

interface Contributed {
  readonly taskDefinitions: readonly { readonly type: string; readonly properties: object }[];
  readonly problemPatterns: readonly Pattern[];
  readonly problemMatchers: readonly { readonly name: string; readonly pattern: string }[];
}

const { contributes } = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as {
  readonly contributes: Contributed;
};

/** What an editor makes of a printed line, as its documentation of problem matchers has it. */
function matched(text: string): readonly Record<string, string | undefined>[] {
  const [matcher] = contributes.problemMatchers;
  const pattern = contributes.problemPatterns.find(({ name }) => `$${name}` === matcher?.pattern);
  if (!pattern) throw new Error('the matcher has no pattern');
  return text.split('\n').flatMap((line) => {
    const match = new RegExp(pattern.regexp).exec(line);
    const { file, line: row, column, severity, code, message } = pattern;
    return match
      ? [
          {
            file: match[file],
            line: match[row],
            column: match[column],
            severity: match[severity],
            code: match[code],
            message: match[message],
          },
        ]
      : [];
  });
}

const FILES = {
  'a boat/my boat.loft': `vessel Boat { slack 0.5 m }
family Tern
model One : display { families Tern  screen 8 in  shows chart  shares chart  port net : ethernet }
model Cam : camera { gives video  port net : ethernet }
zone helm interior
device plotter : One at helm
device other   : One at helm allow unused/device because "for the yard"
device cam     : Cam at helm
need plotter show cam
need nobody show cam
`,
};

describe('the problem matcher', () => {
  it('reads every finding that counts, and nothing besides', async () => {
    const folder = folderWith(FILES);
    const { out } = await wireloft(['check', '.'], { folder });
    const { out: json } = await wireloft(['check', '.', '--format', 'json'], { folder });
    const found = JSON.parse(json) as {
      readonly vessels: readonly {
        readonly findings: readonly {
          readonly rule: string;
          readonly severity: string;
          readonly message: string;
          readonly file: string;
          readonly waived: string | null;
          readonly range: { readonly start: { readonly line: number; readonly character: number } };
        }[];
      }[];
    };
    const expected = found.vessels
      .flatMap(({ findings }) => findings)
      .filter(({ waived }) => waived === null)
      .map(({ rule, severity, message, file, range: { start } }) => ({
        file,
        line: String(start.line + 1),
        column: String(start.character + 1),
        severity,
        code: rule,
        message,
      }));
    expect(new Set(expected.map(({ severity }) => severity)).size).toBeGreaterThan(1);
    expect(expected[0]?.file).toBe('a boat/my boat.loft');
    expect(matched(out)).toEqual(expected);
  });

  it('passes a waived finding by', async () => {
    const { out } = await wireloft(['check', join(ROOT, 'examples', 'sailing')], { folder: ROOT });
    expect(out).toMatch(/^\S+ waived (?:error|warning|information) /m);
    expect(matched(out).map(({ message }) => message)).not.toContain(undefined);
    expect(matched(out)).toHaveLength(
      out.split('\n').filter((line) => /^\S+:\d+:\d+ (?!waived)/.test(line)).length,
    );
  });

  it('takes a path of another system', () => {
    expect(
      matched('C:/boats/a.loft:12:3 warning cable/not-sealed: A has no sealed plugs: use B.'),
    ).toMatchObject([{ file: 'C:/boats/a.loft', line: '12', code: 'cable/not-sealed' }]);
  });
});

describe('the tasks', () => {
  it('run the check with words that the program takes', async () => {
    const folder = folderWith(FILES);
    for (const { task } of OFFERED) {
      const words = checkWords(task).map((word) =>
        word.replace('${file}', join(folder, 'a boat/my boat.loft')),
      );
      const { status, out } = await wireloft(words, { folder });
      expect([status, out.includes('need/')], words.join(' ')).toEqual([1, true]);
    }
  });

  it('take what package.json says that they do, and refuse to make words of anything else', () => {
    const [definition, ...others] = contributes.taskDefinitions;
    expect(others).toEqual([]);
    expect(definition?.type).toBe(TASK_TYPE);
    expect(Object.keys(definition?.properties ?? {}).sort()).toEqual(['options', 'path']);
    const type = TASK_TYPE;
    expect(checkWords({ type, path: 'boats', options: ['--max-warnings', '0'] })).toEqual([
      'check',
      'boats',
      '--max-warnings',
      '0',
    ]);
    expect(CHECK.options.map(({ name }) => name)).toContain('max-warnings');
    expect(checkWords({ type, path: 7, options: 'x' })).toEqual(['check', '.']);
    expect(checkWords({ type, path: '', options: [1, null] })).toEqual(['check', '.']);
  });
});
