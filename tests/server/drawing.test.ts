/** Drawings through the protocol: sheets, the places they lead to, and what is done again after an edit. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  drawingRequest,
  drawingChanged,
  exportRequest,
  reachRequest,
  type Drawing,
  type DrawingAnswer,
  type ExportAnswer,
  type Reach,
} from '../../src/extension/server/drawing/protocol.js';
import { FakeEditor, uriOf } from '../support/editor.js';
import { BOAT, boatWith, FILES, openBoat } from './told/told.js';

let editor: FakeEditor;
beforeAll(async () => {
  editor = await openBoat();
});
afterAll(() => {
  editor.stop();
});

const ask = (known?: string, path = BOAT): Promise<DrawingAnswer> =>
  editor.request<DrawingAnswer>(drawingRequest, { uri: uriOf(path), known });

const reach = (name: string, key: string, options: readonly string[] = []): Promise<Reach | null> =>
  editor.request<Reach | null>(reachRequest, { uri: uriOf(BOAT), key, origin: `device ${name}`, options });

async function askWith(options: readonly string[]): Promise<Drawing> {
  const answer = await editor.request<DrawingAnswer>(drawingRequest, { uri: uriOf(BOAT), options });
  if (answer.kind === 'none') throw new Error(answer.reason);
  return answer;
}

async function drawn(text: string, known?: string): Promise<Drawing> {
  await editor.change(BOAT, text);
  const answer = await ask(known);
  if (answer.kind === 'none') throw new Error(answer.reason);
  return answer;
}

const origins = (svg: string): string[] =>
  [...svg.matchAll(/data-origin="([^"]+)"/g)].map(([, origin = '']) => origin.replaceAll('&gt;', '>'));

/** The text at a place. */
function quoted({ range }: Drawing['elements'][number]['place']): string {
  const line = editor.text(BOAT).split('\n')[range.start.line] ?? '';
  return line.slice(
    range.start.character,
    range.end.line === range.start.line ? range.end.character : undefined,
  );
}

describe('the drawing of a boat', () => {
  it('has sheets whose elements lead to their lines', async () => {
    const { sheets = [], elements, vessel, root } = await drawn(boatWith());
    expect(vessel).toBe('Gull');
    expect(root).toBe(uriOf(BOAT));
    expect(sheets.length).toBeGreaterThan(1);
    const shown = new Set(sheets.flatMap(({ svg }) => origins(svg)));
    expect(shown.size).toBeGreaterThan(8);
    const placed = new Map(elements.map((element) => [element.origin, element]));
    expect([...shown].filter((origin) => !placed.has(origin))).toEqual([]);
    for (const [origin, { place }] of placed)
      if (origin.startsWith('device ')) expect(quoted(place)).toBe(origin.slice('device '.length));
  });

  it('has a port at both ends of a cable, which lead to what is written there', async () => {
    const { sheets = [], elements } = await drawn(boatWith());
    const ports = sheets.flatMap((sheet) => sheet.ports);
    const keel = elements.filter(({ origin }) => /^link .*keel/.test(origin));
    expect(keel).toHaveLength(1);
    const ends = ports.filter(({ origin }) => origin === keel[0]?.origin).map(({ end }) => end);
    expect(new Set(ends)).toEqual(new Set(['a', 'b']));
    const texts = [keel[0]?.a, keel[0]?.b].map((place) => (place === undefined ? '' : quoted(place)));
    expect(texts.some((text) => text.startsWith('keel'))).toBe(true);
    expect(texts.some((text) => text.startsWith('plotter'))).toBe(true);
  });

  it('says who shows a source and who does not, by the paths between them, when it is asked', async () => {
    const { key } = await drawn(boatWith());
    const gnss = await reach('gnss', key);
    expect([...(gnss?.seen ?? []), ...(gnss?.blind ?? []), ...(gnss?.unknown ?? [])].sort()).toEqual([
      'bowScreen',
      'plotter',
    ]);
    expect(gnss?.seen).toHaveLength(1);
    const keel = await reach('keel', key);
    expect(keel?.seen).toEqual(['plotter', 'bowScreen']);
    expect(keel?.lit).toContain('device bowScreen');
    expect(keel?.lit.some((origin) => origin.startsWith('link '))).toBe(true);
    expect(await reach('hub', key)).toBeNull();
    const cut = await drawn(boatWith(['link bowScreen    -- hub.2   using SealedNet', '']));
    expect((await reach('keel', cut.key))?.blind).toEqual(['bowScreen']);
    // A drawing that is no longer the one that is shown says nothing.
    expect(await reach('keel', key)).toBeNull();
  });

  it('is drawn with the options that are chosen, and says so', async () => {
    const option = 'option cheap "No screen at the bow" {\n  remove bowScreen\n}\n';
    const text = `${boatWith()}\n${option}`;
    const base = await drawn(text);
    expect(base.options).toContainEqual({ name: 'cheap', title: 'No screen at the bow', chosen: false });
    const chosen = await askWith(['cheap', 'nothing']);
    expect(chosen.options.filter((one) => one.chosen).map(({ name }) => name)).toEqual(['cheap']);
    const shows = (drawing: Drawing, what: string): boolean =>
      drawing.sheets?.some(({ svg }) => svg.includes(what)) === true;
    expect(shows(base, 'data-origin="device bowScreen"')).toBe(true);
    expect(shows(chosen, 'data-origin="device bowScreen"')).toBe(false);
    expect(shows(chosen, ', with cheap<')).toBe(true);
    expect(shows(base, 'with cheap')).toBe(false);
    expect((await reach('keel', chosen.key, ['cheap']))?.seen).toEqual(['plotter']);
    // Boxes of both stand in the same places.
    const plotter = ({ sheets = [] }: Drawing): unknown =>
      /data-origin="device plotter"[\s\S]*?<rect x="([^"]+)" y="([^"]+)"/
        .exec(sheets[0]?.svg ?? '')
        ?.slice(1);
    expect(plotter(chosen)).toEqual(plotter(base));
    // A change within the option alone is drawn too.
    await editor.change(BOAT, text.replace('remove bowScreen', 'remove gnss'));
    const other = await askWith(['cheap']);
    expect(shows(other, 'data-origin="device bowScreen"')).toBe(true);
    expect(other.key).not.toBe(chosen.key);
  });

  it('is exported as it is written, and not with a syntax error', async () => {
    await drawn(boatWith());
    const params = { uri: uriOf(BOAT), format: 'svg', version: 'wireloft 1' };
    const whole = await editor.request<ExportAnswer>(exportRequest, params);
    if (whole.kind === 'none') throw new Error(whole.reason);
    expect(whole.files.length).toBeGreaterThan(2);
    const [first] = whole.files;
    const svg = Buffer.from(first?.bytes ?? '', 'base64').toString();
    expect(svg).toContain('wireloft 1<');
    const sheet = first?.name.replace('.svg', '');
    const one = await editor.request<ExportAnswer>(exportRequest, { ...params, sheet });
    expect(one).toEqual({ ...whole, files: [first] });
    expect(await editor.request(exportRequest, { ...params, sheet: 'none-1' })).toMatchObject({
      kind: 'none',
    });
    expect(await editor.request(exportRequest, { ...params, format: 'exe' })).toMatchObject({ kind: 'none' });
    // This server has nobody who writes the heavier formats, and says so.
    const pdf = await editor.request<ExportAnswer>(exportRequest, { ...params, format: 'pdf' });
    expect(pdf).toMatchObject({ kind: 'none', reason: expect.stringContaining('only SVG') as unknown });
    await editor.change(BOAT, `${boatWith()}\ndevice plott : : at\n`);
    expect(await editor.request(exportRequest, params)).toMatchObject({
      kind: 'none',
      reason: expect.stringMatching(/syntax error.*Mend it first/) as unknown,
    });
  });

  it('is not sent again after a change of white space, and its places are', async () => {
    const before = await drawn(boatWith());
    const after = await drawn(`\n\n${boatWith()}`, before.key);
    expect(after.key).toBe(before.key);
    expect(after.sheets).toBeUndefined();
    const line = (drawing: Drawing): number | undefined =>
      drawing.elements.find(({ origin }) => origin === 'device plotter')?.place.range.start.line;
    expect(line(after)).toBe((line(before) ?? NaN) + 2);
  });

  it('follows an edit', async () => {
    const before = await drawn(boatWith());
    const mate = 'device plotter   : Tern13    at helm\ndevice mate : Tern8 at helm';
    const after = await drawn(boatWith(['device plotter   : Tern13    at helm', mate]), before.key);
    expect(after.sheets?.some(({ svg }) => svg.includes('data-origin="device mate"'))).toBe(true);
  });

  it('stands still while a line is half typed, and says so', async () => {
    const before = await drawn(boatWith());
    const half = await drawn(`${boatWith()}\ndevice plott : : at\n`, before.key);
    expect(half.old).toMatch(/boat\.loft has a syntax error/);
    expect(half.key).toBe(before.key);
    expect((await drawn(boatWith(), before.key)).old).toBeUndefined();
  });

  it('has the revision that the face knows, unless the boat names one', async () => {
    const told: string[] = [];
    const other = await FakeEditor.start(FILES, undefined, undefined, {
      revision: ({ root, documents }) => {
        told.push(`${root} ${String(documents.length > 1)}`);
        return Promise.resolve('1a2b3c4');
      },
    });
    const revised = async (): Promise<boolean> => {
      const { sheets = [] } = await other.request<Drawing>(drawingRequest, { uri: uriOf(BOAT) });
      return sheets.every(({ svg }) => svg.includes('>1a2b3c4<'));
    };
    await other.open(BOAT, boatWith());
    expect(await revised()).toBe(true);
    expect(new Set(told)).toEqual(new Set([`${uriOf(BOAT)} true`]));
    await other.change(BOAT, boatWith().replace(/^(vessel [^{]*\{)/m, '$1\n  revision "F"'));
    expect(await revised()).toBe(false);
    other.stop();
  });

  it('is told to have changed', async () => {
    await ask();
    const told = new Promise<void>((resolve) => {
      editor.connection.onNotification(drawingChanged, () => resolve());
    });
    await editor.change(BOAT, `${boatWith()}\n`);
    await told;
  });

  it('is of a boat: a catalogue and a file that is not there have none, with a reason', async () => {
    const catalogue = Object.keys(FILES).find((name) => name !== BOAT && !/^vessel/m.test(FILES[name] ?? ''));
    expect(await ask(undefined, catalogue)).toMatchObject({
      kind: 'none',
      reason: expect.stringMatching(/vessel/) as unknown,
    });
    expect(await editor.request(drawingRequest, { uri: 7 })).toMatchObject({ kind: 'none' });
    expect(await ask(undefined, 'nowhere.loft')).toMatchObject({ kind: 'none' });
  });
});
