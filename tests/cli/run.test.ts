import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../src/cli/commands.js';
import { run } from '../../src/cli/run.js';
import { countOption, dateOption } from '../../src/cli/terminal/arguments.js';
import type { Command, Invocation } from '../../src/cli/terminal/command.js';
import { startProgress } from '../../src/cli/terminal/progress.js';
import type { Sink, World } from '../../src/cli/terminal/world.js';
import { WRITERS } from '../support/writers.js';

interface Heard {
  readonly status: number;
  readonly out: string;
  readonly error: string;
}

/** Runs a command line in a world of its own, with the real commands or others. */
async function said(
  line: readonly string[],
  commands?: readonly Command[],
  environment: World['environment'] = {},
): Promise<Heard> {
  const texts = { out: '', error: '' };
  const sink = (name: 'out' | 'error'): Sink => ({
    write: (text) => (texts[name] += text),
    terminal: false,
    columns: undefined,
  });
  const world: World = {
    folder: '/nowhere',
    environment,
    out: sink('out'),
    error: sink('error'),
    version: '1.2.3',
    today: '2026-05-01',
    writers: WRITERS,
    solver: () => Promise.reject(new Error('no command here asks for it')),
  };
  const status = await run(line, world, commands);
  return { status, ...texts };
}

describe('help', () => {
  it('names every command', async () => {
    const { status, out, error } = await said(['--help']);
    expect({ status, error }).toEqual({ status: 0, error: '' });
    const width = Math.max(...COMMANDS.map(({ name }) => name.length));
    for (const command of COMMANDS)
      expect(out).toContain(`\n  ${command.name.padEnd(width)}  ${command.summary}`);
  });

  it.each(COMMANDS.map((command) => command.name))(
    'of %s shows an example, wherever --help stands',
    async (name) => {
      const { status, out, error } = await said([name, 'x', '--help', '--nonsense']);
      expect({ status, error }).toEqual({ status: 0, error: '' });
      expect(out).toContain(`Usage: wireloft ${name}`);
      expect(out).toMatch(new RegExp(`Examples:\\n  wireloft ${name}`));
      expect(Math.max(...out.split('\n').map((text) => text.length))).toBeLessThanOrEqual(90);
    },
  );

  it('without a command goes to the error stream, with status 2', async () => {
    const { status, out, error } = await said([]);
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(error).toContain('Usage: wireloft COMMAND');
  });

  it('has the version', async () => {
    expect(await said(['--version'])).toEqual({ status: 0, out: '1.2.3\n', error: '' });
  });
});

describe('wrong usage', () => {
  it.each([
    [['chek', 'a.loft'], 'There is no command "chek". Did you mean check?'],
    [
      ['frobnicate'],
      'There is no command "frobnicate". There are check, list, draw, report, suggest, compare, format, new and lsp.',
    ],
    [['a.loft'], '"a.loft" is no command. Did you mean "wireloft check a.loft"?'],
    [['check'], 'check wants PATH...: Files and folders to check.'],
    [['check', 'a.loft', '--frmat', 'json'], 'check has no option "--frmat". Did you mean --format?'],
    [
      ['check', 'a.loft', '-x'],
      'check has no option "-x". It has --with, --root, --today, --format, --max-warnings, --cheaper, --jobs, --color and --help.',
    ],
    [['check', 'a.loft', '--format', 'xml'], '--format is text, json or sarif, not "xml".'],
    [['check', 'a.loft', '--format'], '--format wants a value: --format text|json|sarif.'],
    [['check', 'a.loft', '--root', '--today', '2026-01-01'], '--root wants a value: --root DIR.'],
    [['check', 'a.loft', '--root='], '--root wants a value: --root DIR.'],
    [['check', 'a.loft', '--format', 'json', '--format=text'], '--format is given twice. Give it once.'],
    [['check', 'a.loft', '--max-warnings', '-1'], '--max-warnings wants a whole number from 0, not "-1".'],
    [
      ['check', 'a.loft', '--today', 'yesterday'],
      '--today wants a date such as 2026-05-01, not "yesterday".',
    ],
    [['check', 'a.loft', '--root', 'no-such'], '--root "no-such" is no folder.'],
    [['check', 'a.loft', '--with', 'a,,b'], '--with wants names with commas between, not "a,,b".'],
    [['check', '--with'], '--with wants a value: --with NAME,...'],
    [
      ['list', 'view', 'a.loft'],
      'WHAT is views, sources, ports, parts, cables, needs, coverage, wires, feeds, buses, data, loads, energy, failures, failures-by-need, failure-voltages, schedule, labels, pulls, screens, connectors, commissioning, faults, van or options, not "view". Did you mean views?',
    ],
    [['list', 'views'], 'list wants FILE: The file that declares the vessel, or one that is aboard it.'],
    [['list', 'views', 'a.loft', 'b.loft'], 'list takes no further argument, and is given "b.loft".'],
    [['format', '.', '--check=yes'], '--check takes no value, and is given "yes".'],
    [
      ['new', 'my boat'],
      '"my boat" is no name for a vessel: a name has letters, digits and _ only. Try myBoat.',
    ],
    [['check', ''], 'check is given an empty argument. Leave it out.'],
    [['lsp'], 'lsp speaks over standard input and output only: give --stdio.'],
    [['check', 'a.loft', '--\u001b[2J'], 'check has no option "--\ufffd[2J".'],
  ])('%j: %s', async (line, message) => {
    const { status, out, error } = await said(line);
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(error).toContain(`wireloft: ${message}`);
    expect(error).toMatch(/^wireloft: .*\nSee "wireloft( [a-z]+)? --help"\.\n$/);
  });

  it.each(['2026-02-30', '2026-2-3', '20260203', '2026-13-01', '2026-05-01T00:00', ''])(
    '%j is no date',
    (text) => {
      expect(() => dateOption('today', text)).toThrow('wants a date');
    },
  );

  it('lets right values through', () => {
    expect(dateOption('today', '2024-02-29')).toBe('2024-02-29');
    expect(countOption('max-warnings', '0')).toBe(0);
    expect(() => countOption('max-warnings', '1.5')).toThrow('wants a whole number');
  });
});

describe('a command', () => {
  const command = (runIt: Command['run']): Command => ({
    name: 'try',
    summary: 'Tries.',
    about: [],
    arguments: [{ name: 'WORD...', text: 'Words.' }],
    options: [
      { name: 'loud', text: 'Loudly.' },
      { name: 'to', value: 'WHERE', text: 'To somewhere.' },
    ],
    examples: [],
    run: runIt,
  });

  it('gets its words, flags and values in any order, and what follows -- as words', async () => {
    let got: Invocation | undefined;
    const { status } = await said(
      ['try', 'a', '--loud', '--to=--x', 'b', '--', '--to', '--help'],
      [command((invocation) => ((got = invocation), Promise.resolve(1)))],
    );
    expect(status).toBe(1);
    expect([got?.arguments, got?.flag('loud'), got?.value('to')]).toEqual([
      ['a', 'b', '--to', '--help'],
      true,
      '--x',
    ]);
  });

  it('that fails is reported in one line, with status 3', async () => {
    const failing = command(() => Promise.reject(new RangeError('out\nof \u001b[1mbounds')));
    const { status, out, error } = await said(['try', 'a'], [failing]);
    expect({ status, out }).toEqual({ status: 3, out: '' });
    expect(error).toBe(
      'wireloft: this is a fault of the program, not of your files: RangeError: out of \ufffd[1mbounds (version 1.2.3). Please report it.\n',
    );
    const traced = await said(['try', 'a'], [failing], { WIRELOFT_TRACE: '1' });
    expect(traced.error).toMatch(/\n {4}at /);
  });
});

describe('progress', () => {
  it('shows in a terminal alone, and is wiped away once', () => {
    let text = '';
    const sink = (terminal: boolean): Sink => ({ write: (more) => (text += more), terminal, columns: 20 });
    const shown = startProgress(sink(true), `Checking ${'x'.repeat(40)}`);
    expect(text).toHaveLength(19);
    shown.clear();
    shown.clear();
    expect(text.endsWith('x\r\u001b[K')).toBe(true);
    text = '';
    startProgress(sink(false), 'Checking').clear();
    expect(text).toBe('');
  });
});
