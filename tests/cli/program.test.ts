/** The program as a process, end to end: streams, exit statuses, and what it writes. */
import {
  chmodSync,
  copyFileSync,
  existsSync,
  readdirSync,
  readFileSync,
  rmSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { VERDICTS } from '../../src/checks/analysis.js';
import { LIST_KINDS } from '../../src/cli/list/kinds.js';
import { folderWith, ROOT, wireloft } from './program.js';
import { documented, faults, sarif } from './schemas.js';

/** A boat on which every list has something, with a need that is met and one that is not. */
const BOAT = `vessel Kittiwake { currency USD  slack 0.5 m }
zone bow exposed aft 0.8 m
zone helm sheltered aft 4.2 m
run bow -- helm 5.5 m conduit 32 mm
device plotter : Big at helm
device bow1 : Small at bow
device keel : Beam at helm
device hub : Hub at helm
link keel -- plotter.sonar
link plotter.net -- hub.1 using Sealed
link bow1.net -- hub.2 using Patch allow cable/not-sealed because "bench test"
need plotter show keel
need bow1 show video
view "Drift" on bow1 { left: keel }
device loose : Beam at helm
need plotter show loose
model Big : display {
  price 1000 USD  ingress IPX6, IPX7
  port net : ethernet sealed  port sonar : transducer accepts hd
  shows sonar, chart  shares sonar, chart
}
model Small : display { ingress IPX6, IPX7  port net : ethernet sealed  shows sonar }
model Beam : transducer { ingress IPX8  port plug : transducer captive 3 m  gives sonar.side hd }
model Hub : switch { port 1..5 : ethernet sealed  bridges ethernet }
cable Sealed : ethernet { sealed  od 6 mm  stock 2 m at 39 USD }
cable Patch : ethernet { od 6 mm  stock 10 m at 4 USD }
`;
/** What feeds a lamp on it. */
const FED = `device house : Bank at helm
device lamp : Lamp at bow
feed house -> lamp fuse 3 A at house
model Bank : battery { voltage 12 V  port post : dc }
model Lamp : load { port power : dc in 10..16 V draws 1 A }
model Depth : instrument { port n2k : nmea2000 len 1  gives depth at 1 Hz }
model Dial : instrument { port n2k : nmea2000 len 1  wants depth at 1 Hz }
device sounder : Depth at bow
device dial : Dial at helm
backbone nav { terminator  tap from house fuse 3 A  tee sounder drop 1 m  tee dial drop 1 m  terminator }
`;
const CLEAN = 'vessel Tern {}\n';

describe('check', () => {
  it('of a clean boat has its counts on the output alone, and status 0', async () => {
    const { status, out, error } = await wireloft(['check', 'a.loft'], {
      folder: folderWith({ 'a.loft': CLEAN }),
    });
    expect({ status, error }).toEqual({ status: 0, error: '' });
    expect(out).toMatch(
      /^Checked 1 vessel: [1-9]\d* rules, 0 errors, 0 warnings, 0 information, 0 waived, 0 unknown\.\n$/,
    );
  });

  it('of a boat with errors quotes the lines, and has status 1', async () => {
    const { status, out, error } = await wireloft(['check', '.'], { folder: folderWith({ 'a.loft': BOAT }) });
    expect({ status, error }).toEqual({ status: 1, error: '' });
    expect(out).toContain('\na.loft:13:1 error need/not-met: need bow1 show video is not met: ');
    expect(out).toMatch(/\n {3}13 \| need bow1 show video\n {6}\| \^{20}\n/);
  });

  it('in JSON and in SARIF fits the schemas, and says the same as in text', async () => {
    const folder = folderWith({ 'a.loft': BOAT, 'c.loft': 'model M : display { shows nothing }\n' });
    const text = await wireloft(['check', '.', '--today', '2026-05-01'], { folder });
    const json = await wireloft(['check', '.', '--today', '2026-05-01', '--format', 'json'], { folder });
    const log = await wireloft(['check', '.', '--today', '2026-05-01', '--format', 'sarif'], { folder });
    expect([text.status, json.status, log.status]).toEqual([1, 1, 1]);
    const report = JSON.parse(json.out) as {
      vessels: { findings: { rule: string; waived: string | null }[] }[];
      files: { findings: { rule: string }[] }[];
    };
    expect(faults(documented('check.schema.json'), report)).toEqual([]);
    const parsed = JSON.parse(log.out) as {
      runs: { results: { ruleId: string; codeFlows?: unknown[] }[] }[];
    };
    expect(faults(sarif(), parsed)).toEqual([]);
    expect(log.out).not.toContain(folder);

    const inJson = [...report.vessels, ...report.files].flatMap((one) => one.findings.map((it) => it.rule));
    const inText = [...text.out.matchAll(/^\S+:\d+:\d+ (?:waived )?\w+ (\S+): /gm)].map((match) => match[1]);
    expect(inJson.length).toBeGreaterThan(2);
    expect(inText).toEqual(inJson);
    expect(parsed.runs[0]?.results.map((one) => one.ruleId)).toEqual(inJson);
    expect(
      parsed.runs[0]?.results.filter((one) => one.codeFlows !== undefined).map((one) => one.ruleId),
    ).toEqual(['need/not-met']);
  });

  it('gives the same bytes each time', async () => {
    const folder = folderWith({ 'a.loft': BOAT });
    for (const format of ['text', 'json', 'sarif']) {
      const words = ['check', '.', '--format', format, '--today', '2026-05-01'];
      expect((await wireloft(words, { folder })).out).toBe((await wireloft(words, { folder })).out);
    }
  });

  it('allows as many warnings as it is told', async () => {
    const folder = folderWith({ 'a.loft': 'vessel A {}\nzone z exposed allow net/loop because "test"\n' });
    const words = (most: string): string[] => ['check', 'a.loft', '--max-warnings', most];
    const none = await wireloft(words('0'), { folder });
    expect(none.out).toContain('warning allow/unused');
    expect({ status: none.status, error: none.error }).toEqual({
      status: 1,
      error: 'wireloft: 1 warning, and --max-warnings allows 0.\n',
    });
    expect((await wireloft(words('1'), { folder })).status).toBe(0);
  });

  it('holds waivers against the date that it is given', async () => {
    const dated = BOAT.replace('"bench test"', '"bench test" until 2026-05-01');
    const folder = folderWith({ 'a.loft': dated });
    const on = async (date: string): Promise<string> =>
      (await wireloft(['check', '.', '--today', date], { folder })).out;
    expect(await on('2026-05-01')).not.toContain('allow/expired');
    expect(await on('2026-05-02')).toContain('allow/expired');
  });

  it('paints when it is told to, and not into a pipe', async () => {
    const folder = folderWith({ 'a.loft': BOAT });
    const painted = await wireloft(['check', '.', '--color', 'always'], { folder });
    const plain = await wireloft(['check', '.'], { folder });
    // eslint-disable-next-line no-control-regex -- the sequences that set colours
    const sequences = /\u001b\[\d+m/g;
    expect(painted.out).toMatch(sequences);
    expect(painted.out.replace(sequences, '')).toBe(plain.out);
  });

  it('ends quietly when its reader goes away, with the status of what it found', async () => {
    const links = Array.from({ length: 4000 }, (_, index) => `link a${index} -- b${index}\n`).join('');
    const folder = folderWith({
      'a.loft': `vessel A {}\n${links}`,
      'b.loft': `vessel B {}\n${links}`,
      'c.loft': `vessel C {}\n${links}`,
    });
    const { status, error } = await wireloft(['check', '.', '--format', 'json'], { folder, hangUp: true });
    expect({ status, error }).toEqual({ status: 1, error: '' });
  });
});

describe('list', () => {
  it.each(LIST_KINDS.map((kind) => kind.what))('%s has JSON that fits its schema', async (what) => {
    const folder = folderWith({ 'a.loft': BOAT + FED });
    const { status, out, error } = await wireloft(['list', what, 'a.loft', '--format', 'json'], { folder });
    const rows = JSON.parse(out) as object[];
    expect(rows.length).toBeGreaterThan(0);
    expect(faults(documented(`list-${what}.schema.json`), rows)).toEqual([]);
    expect(status).toBe(0);
    expect(error).toMatch(/^wireloft: the spec has \d+ errors?; "wireloft check a\.loft" shows them\.\n$/);
  });

  it('has the same rows in every format', async () => {
    const folder = folderWith({ 'a.loft': BOAT });
    const list = async (format: string): Promise<string> =>
      (await wireloft(['list', 'views', 'a.loft', '--format', format], { folder })).out;
    const rows = JSON.parse(await list('json')) as object[];
    expect((await list('csv')).match(/\r\n/g)).toHaveLength(rows.length + 1);
    expect((await list('markdown')).match(/^\| /gm)).toHaveLength(rows.length + 2);
    expect((await list('table')).split('\n')).toHaveLength(rows.length + 5);
  });

  it('views answers with a verdict and its hops, where they stand', async () => {
    const folder = folderWith({ 'a.loft': BOAT });
    const { out } = await wireloft(['list', 'views', 'a.loft', '--format', 'json'], { folder });
    const views = JSON.parse(out) as {
      screen: string;
      source: string;
      signal: string;
      visible: boolean | null;
      verdict: string;
      hops: { file: string; range: unknown }[];
    }[];
    for (const view of views) {
      expect(VERDICTS).toContain(view.verdict);
      expect(view.visible === null).toBe(view.verdict === 'unknown');
      expect(view.visible === true).toBe(view.verdict === 'reached');
      for (const hop of view.hops)
        expect(hop).toMatchObject({ file: 'a.loft', range: { start: {}, end: {} } });
    }
    expect(views.find((view) => view.screen === 'bow1' && view.source === 'keel')).toMatchObject({
      visible: true,
    });
  });

  it('wants one vessel', async () => {
    const folder = folderWith({ 'a.loft': CLEAN, 'b.loft': 'vessel Skua {}\n', 'c/d.loft': 'family F\n' });
    const both = await wireloft(['list', 'views', '.'], { folder });
    expect({ status: both.status, out: both.out }).toEqual({ status: 2, out: '' });
    expect(both.error).toContain('wireloft: "." has 2 vessels: give one of a.loft, b.loft.\n');
    const none = await wireloft(['list', 'views', 'c/d.loft'], { folder });
    expect({ status: none.status, out: none.out }).toEqual({ status: 2, out: '' });
    expect(none.error).toContain('wireloft: "c/d.loft" has no vessel. ');
  });

  it('finds the vessel of a file that is aboard it', async () => {
    const folder = folderWith({
      'a.loft': 'use "b.loft"\nvessel Tern {}\n',
      'b.loft': 'aboard Tern\nzone helm sheltered\n',
    });
    const { status, out } = await wireloft(['list', 'ports', 'b.loft'], { folder });
    expect(status).toBe(0);
    expect(out).toContain('0 ports, 0 free.');
  });
});

describe('format', () => {
  const UNTIDY = 'vessel   Tern{currency USD}\n\n\n\nzone helm    sheltered   // dry\n';

  it('writes what it changes, names it, and finds nothing the second time', async () => {
    const folder = folderWith({ 'a.loft': UNTIDY, 'sub/b.loft': UNTIDY });
    const first = await wireloft(['format', '.'], { folder });
    expect(first).toEqual({ status: 0, out: 'a.loft\nsub/b.loft\n', error: '2 files, 2 formatted.\n' });
    const tidy = readFileSync(join(folder, 'a.loft'), 'utf8');
    expect(tidy).not.toBe(UNTIDY);
    expect(tidy.replace(/\s/g, '')).toBe(UNTIDY.replace(/\s/g, ''));
    expect(await wireloft(['format', '.'], { folder })).toEqual({
      status: 0,
      out: '',
      error: '2 files, 0 formatted.\n',
    });
    expect(readdirSync(folder)).toEqual(['a.loft', 'sub']);
  });

  it('--check writes nothing, names what would change, and has status 1', async () => {
    const folder = folderWith({ 'a.loft': UNTIDY });
    const before = await wireloft(['format', '--check', 'a.loft'], { folder });
    expect(before).toEqual({ status: 1, out: 'a.loft\n', error: '1 file, 1 to format.\n' });
    expect(readFileSync(join(folder, 'a.loft'), 'utf8')).toBe(UNTIDY);
    await wireloft(['format', 'a.loft'], { folder });
    expect(await wireloft(['format', '--check', 'a.loft'], { folder })).toEqual({
      status: 0,
      out: '',
      error: '1 file, 0 to format.\n',
    });
  });

  it('leaves alone what it cannot read, and formats the rest', async () => {
    const latin = Buffer.from('vessel   M\xf6lle {}\n', 'latin1');
    const folder = folderWith({ 'a.loft': UNTIDY, 'b.loft': latin, 'c.loft': `vessel A ${'{'.repeat(99)}` });
    const { status, out, error } = await wireloft(['format', '.'], { folder });
    expect({ status, out }).toEqual({ status: 2, out: 'a.loft\n' });
    expect(error).toContain('wireloft: b.loft: It is not UTF-8. Save it as UTF-8.\n');
    expect(error).toContain('wireloft: c.loft: Braces are nested 99 deep');
    expect(readFileSync(join(folder, 'b.loft'))).toEqual(latin);
  });

  it('formats around a syntax error, says so, and has status 1', async () => {
    const folder = folderWith({ 'a.loft': 'vessel   Tern {}\nzone   5   5\nfamily   F\n' });
    const { status, error } = await wireloft(['format', 'a.loft'], { folder });
    expect(status).toBe(1);
    expect(error).toContain(
      'wireloft: a.loft: It has syntax errors, and the statements that have them stay as they are.',
    );
    expect(readFileSync(join(folder, 'a.loft'), 'utf8')).toMatch(
      /^vessel Tern \{ \}\n+zone {3}5 {3}5\n+family F\n$/,
    );
  });

  it('keeps permissions, and a link a link', async () => {
    const folder = folderWith({ 'a.loft': UNTIDY });
    chmodSync(join(folder, 'a.loft'), 0o600);
    symlinkSync('a.loft', join(folder, 'b.loft'));
    expect((await wireloft(['format', 'b.loft'], { folder })).status).toBe(0);
    expect(readFileSync(join(folder, 'a.loft'), 'utf8')).not.toBe(UNTIDY);
    expect(readdirSync(folder, { withFileTypes: true }).map((entry) => entry.isSymbolicLink())).toEqual([
      false,
      true,
    ]);
  });
});

describe('new', () => {
  it('writes a spec that checks clean, has nothing to say of it, and is in the canonical layout', async () => {
    const folder = folderWith({});
    const made = await wireloft(['new', 'Kittiwake'], { folder });
    expect({ status: made.status, out: made.out }).toEqual({ status: 0, out: 'Kittiwake.loft\n' });
    const checked = await wireloft(['check', '.', '--max-warnings', '0'], { folder });
    expect(checked.out).toMatch(
      /^Checked 1 vessel: [1-9]\d* rules, 0 errors, 0 warnings, 0 information, 0 waived, 0 unknown\.\n$/,
    );
    expect(checked.status).toBe(0);
    expect((await wireloft(['format', '--check', '.'], { folder })).out).toBe('');
    const needs = await wireloft(['list', 'needs', 'Kittiwake.loft', '--format', 'csv'], { folder });
    expect(needs.out).toContain('plotter show sounder,true,');
  });

  it('writes over nothing', async () => {
    const folder = folderWith({ 'Tern.loft': CLEAN });
    const { status, out, error } = await wireloft(['new', 'Tern'], { folder });
    expect({ status, out }).toEqual({ status: 2, out: '' });
    expect(error).toContain('wireloft: Tern.loft is there already, and is left as it is.');
    expect(readFileSync(join(folder, 'Tern.loft'), 'utf8')).toBe(CLEAN);
  });

  it('writes nowhere but here', async () => {
    const folder = folderWith({ 'here/x': '' });
    const { status } = await wireloft(['new', '../Tern'], { folder: join(folder, 'here') });
    expect(status).toBe(2);
    expect(existsSync(join(folder, 'Tern.loft'))).toBe(false);
  });
});

describe('the program', () => {
  it('starts from its compiled code, and without it or with other code just the same', async () => {
    const folder = folderWith({ 'a.loft': BOAT });
    for (const file of ['main.mjs', 'program.js', 'program.compiled'])
      copyFileSync(join(ROOT, 'dist', 'cli', file), join(folder, file));
    const start = async (): Promise<string> => {
      const main = join(folder, 'main.mjs');
      const ended = await wireloft(['check', 'a.loft', '--today', '2026-05-01'], { folder, main });
      expect(ended).toMatchObject({ status: 1, error: '' });
      return ended.out;
    };
    const first = await start();
    const code = readFileSync(join(folder, 'program.compiled'));
    writeFileSync(join(folder, 'program.compiled'), code.subarray(0, 1000));
    expect(await start()).toBe(first);
    // Other source of the same length, which the engine alone would take the old code for.
    const source = readFileSync(join(folder, 'program.js'), 'utf8');
    writeFileSync(join(folder, 'program.compiled'), code);
    writeFileSync(join(folder, 'program.js'), source.replaceAll('Checked ', 'Counted '));
    expect(await start()).toBe(first.replace('Checked ', 'Counted '));
    rmSync(join(folder, 'program.compiled'));
    expect(await start()).toBe(first.replace('Checked ', 'Counted '));
  });

  it('has the version of its package', async () => {
    const manifest = JSON.parse(readFileSync(join(ROOT, 'package.json'), 'utf8')) as { version: string };
    expect(await wireloft(['--version'], { folder: ROOT })).toEqual({
      status: 0,
      out: `${manifest.version}\n`,
      error: '',
    });
  });

  it('checks its own examples', async () => {
    const { status, out, error } = await wireloft(['check', 'examples/kittiwake'], { folder: ROOT });
    expect({ status, error }, out).toEqual({ status: 0, error: '' });
  });

  it('reads no more than it is asked to', async () => {
    const folder = folderWith({ 'a.loft': CLEAN });
    writeFileSync(join(folder, 'b.loft'), 'vessel {');
    expect((await wireloft(['check', 'a.loft'], { folder })).status).toBe(0);
  });
});
