/** Drawings through the protocol: sheets, the places they lead to, and what is done again after an edit. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import {
  anewRequest,
  cursorRequest,
  drawingRequest,
  drawingChanged,
  exportRequest,
  placeRequest,
  reachRequest,
  sheetRequest,
  type CursorAnswer,
  type Drawing,
  type DrawingAnswer,
  type End,
  type ExportAnswer,
  type Reach,
  type ShownSheet,
} from '../../src/extension/server/drawing/protocol.js';
import type { LogMessageParams } from 'vscode-languageserver';
import type { Place } from '../../src/vessel/origin.js';
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

const reach = (name: string, key: string): Promise<Reach | null> =>
  editor.request<Reach | null>(reachRequest, { uri: uriOf(BOAT), key, origin: `device ${name}` });

async function asked(params: object): Promise<Drawing> {
  const answer = await editor.request<DrawingAnswer>(drawingRequest, { uri: uriOf(BOAT), ...params });
  if (answer.kind === 'none') throw new Error(answer.reason);
  return answer;
}

async function drawn(text: string, known?: string): Promise<Drawing> {
  await editor.change(BOAT, text);
  return asked({ known });
}

const sheetOf = (key: string, sheet: string): Promise<ShownSheet | null> =>
  editor.request<ShownSheet | null>(sheetRequest, { uri: uriOf(BOAT), key, sheet });

/** Every sheet of a drawing, each asked for by itself. */
async function sheetsOf({ key, sheets }: Drawing): Promise<readonly ShownSheet[]> {
  const all: ShownSheet[] = [];
  for (const { id } of sheets) {
    const sheet = await sheetOf(key, id);
    if (sheet === null) throw new Error(`There is no sheet ${id}.`);
    all.push(sheet);
  }
  return all;
}

async function svgsOf(drawing: Drawing): Promise<readonly string[]> {
  return (await sheetsOf(drawing)).map(({ picture }) => picture?.svg ?? '');
}

const shows = async (drawing: Drawing, what: string): Promise<boolean> =>
  (await svgsOf(drawing)).some((svg) => svg.includes(what));

const placeOf = (key: string, origin: string, end?: End): Promise<Place | null> =>
  editor.request<Place | null>(placeRequest, { uri: uriOf(BOAT), key, origin, end });

const origins = (svg: string): string[] =>
  [...svg.matchAll(/data-origin="([^"]+)"/g)].map(([, origin = '']) => origin.replaceAll('&gt;', '>'));

/** The boat as a server draws her for the first time with a file of places beside her, and what it says of that file. */
async function withBeside(places: string): Promise<{ key: string; told: readonly string[] }> {
  const other = await FakeEditor.start({ ...FILES, 'boat.places.json': places });
  const told: string[] = [];
  other.connection.onNotification('window/logMessage', ({ message }: LogMessageParams) => {
    told.push(message);
  });
  await other.open(BOAT, boatWith());
  const { key } = await other.request<Drawing>(drawingRequest, { uri: uriOf(BOAT), version: 'wireloft 1' });
  other.stop();
  return { key, told };
}

/** The text at a place. */
function quoted(place: Place | null): string {
  if (place === null) return '';
  const { range } = place;
  const line = editor.text(BOAT).split('\n')[range.start.line] ?? '';
  return line.slice(
    range.start.character,
    range.end.line === range.start.line ? range.end.character : undefined,
  );
}

describe('the drawing of a boat', () => {
  it('has sheets whose elements lead to their lines', async () => {
    const drawing = await drawn(boatWith());
    expect(drawing.vessel).toBe('Gull');
    expect(drawing.root).toBe(uriOf(BOAT));
    const sheets = await sheetsOf(drawing);
    expect(sheets.length).toBeGreaterThan(1);
    expect(sheets[0]).toEqual(drawing.shown);
    for (const sheet of sheets)
      expect(new Set(sheet.origins)).toEqual(new Set(origins(sheet.picture?.svg ?? '')));
    const shown = new Set(sheets.flatMap((sheet) => sheet.origins));
    expect(shown.size).toBeGreaterThan(8);
    for (const origin of shown) {
      const text = quoted(await placeOf(drawing.key, origin));
      if (origin.startsWith('device ')) expect(text).toBe(origin.slice('device '.length));
      else expect(text).not.toBe('');
    }
  });

  it('sends the sheet that is wanted, another of its kind, or the first, and never what is there already', async () => {
    const { sheets } = await drawn(boatWith());
    const last = sheets.at(-1)?.id ?? '';
    const wanted = await asked({ sheet: last });
    expect(wanted.shown?.id).toBe(last);
    expect(wanted.shown?.picture?.svg).toContain('<svg');
    const again = await asked({ sheet: last, known: wanted.shown?.key });
    expect(again.shown).toEqual({ ...wanted.shown, picture: undefined });
    const kind = last.replace(/-\d+$/, '');
    expect((await asked({ sheet: `${kind}-99` })).shown?.id).toBe(
      sheets.find(({ id }) => id.startsWith(kind))?.id,
    );
    expect((await asked({ sheet: 'other-1' })).shown?.id).toBe(sheets[0]?.id);
    expect(await sheetOf(wanted.key, 'other-1')).toBeNull();
    // One sheet, however many there are.
    expect(JSON.stringify(again).length).toBeLessThan(10_000);
  });

  it('has a port at both ends of a cable, which lead to what is written there', async () => {
    const { key, shown } = await drawn(boatWith());
    const ports = shown?.picture?.ports ?? [];
    const keel = shown?.origins.filter((origin) => /^link .*keel/.test(origin)) ?? [];
    expect(keel).toHaveLength(1);
    const [origin = ''] = keel;
    expect(
      ports
        .filter((port) => port.origin === origin)
        .map(({ end }) => end)
        .sort(),
    ).toEqual(['a', 'b']);
    const texts = [quoted(await placeOf(key, origin, 'a')), quoted(await placeOf(key, origin, 'b'))];
    expect(texts.some((text) => text.startsWith('keel'))).toBe(true);
    expect(texts.some((text) => text.startsWith('plotter'))).toBe(true);
  });

  it('knows what the cursor is in, and on which sheets that is', async () => {
    const text = boatWith();
    const { key, sheets } = await drawn(text);
    const at = (piece: string, given = key, file = uriOf(BOAT)): Promise<CursorAnswer | null> => {
      const lines = text.split('\n');
      const line = lines.findIndex((one) => one.includes(piece));
      const position = { line, character: (lines[line] ?? '').indexOf(piece) + 2 };
      return editor.request(cursorRequest, { uri: uriOf(BOAT), key: given, file, position });
    };
    const plotter = await at('device plotter');
    expect(plotter?.origin).toBe('device plotter');
    expect(plotter?.sheets).toContain('network-1');
    const ids = new Set(sheets.map(({ id }) => id));
    expect(plotter?.sheets.filter((id) => !ids.has(id))).toEqual([]);
    // The same file, as another editor escapes it.
    expect((await at('device plotter', key, uriOf(BOAT).replace('boat.', '%62oat.')))?.origin).toBe(
      'device plotter',
    );
    expect(await at('use "gear')).toEqual({ sheets: [] });
    expect(await at('device plotter', 'other')).toBeNull();
    expect(await editor.request(cursorRequest, { uri: uriOf(BOAT), key, file: 7, position: 8 })).toBeNull();
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
    const chosen = await asked({ options: ['cheap', 'nothing'] });
    expect(chosen.options.filter((one) => one.chosen).map(({ name }) => name)).toEqual(['cheap']);
    expect(await shows(base, 'data-origin="device bowScreen"')).toBe(true);
    expect(await shows(chosen, 'data-origin="device bowScreen"')).toBe(false);
    expect(await shows(chosen, ', with cheap<')).toBe(true);
    expect(await shows(base, 'with cheap')).toBe(false);
    expect((await reach('keel', chosen.key))?.seen).toEqual(['plotter']);
    // Boxes of both stand in the same places.
    const plotter = ({ shown }: Drawing): unknown =>
      /data-origin="device plotter"[\s\S]*?<rect x="([^"]+)" y="([^"]+)"/
        .exec(shown?.picture?.svg ?? '')
        ?.slice(1);
    expect(plotter(chosen)).toEqual(plotter(base));
    // A change within the option alone is drawn too.
    await editor.change(BOAT, text.replace('remove bowScreen', 'remove gnss'));
    const other = await asked({ options: ['cheap'] });
    expect(await shows(other, 'data-origin="device bowScreen"')).toBe(true);
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

  it('keeps its boxes where they stood, is laid out anew when that is wanted, and is exported as it is shown', async () => {
    // The boat grows in an order of its own, so that boxes stand otherwise than they would if all were there at once.
    const lines = boatWith().split('\n');
    const joined = (line: string): boolean => /^(device|link|feed) .*\b(gnss|keel|bowScreen)\b/.test(line);
    await drawn(lines.filter((line) => !joined(line)).join('\n'));
    const version = 'wireloft 1';
    await editor.change(BOAT, boatWith());
    const grown = await asked({ version });
    const fresh = await FakeEditor.start(FILES);
    await fresh.open(BOAT, boatWith());
    const alone = await fresh.request<Drawing>(drawingRequest, { uri: uriOf(BOAT), version });
    fresh.stop();
    expect(grown.key).not.toBe(alone.key);
    const files = async (format = 'svg'): Promise<readonly string[]> => {
      const params = { uri: uriOf(BOAT), version, format };
      const answer = await editor.request<ExportAnswer>(exportRequest, params);
      if (answer.kind === 'none') throw new Error(answer.reason);
      return answer.files.map(({ bytes }) => Buffer.from(bytes, 'base64').toString());
    };
    expect(await files()).toEqual(await svgsOf(grown));
    // Beside the boat, the file with the places has her drawn the same by another server.
    const [places = ''] = await files('places');
    expect(await withBeside(places)).toEqual({ key: grown.key, told: [] });
    expect(await withBeside('{}')).toEqual({
      key: alone.key,
      told: [expect.stringMatching(/^boat\.places\.json is passed over: it holds no places/)],
    });

    expect(await editor.request(anewRequest, { uri: uriOf(BOAT) })).toBeNull();
    // A boat that is to be laid out anew stands still while a line is half typed, as ever.
    await editor.change(BOAT, `${boatWith()}\ndevice plott : : at\n`);
    expect((await asked({ version })).key).toBe(grown.key);
    await editor.change(BOAT, boatWith());
    const anew = await asked({ version });
    expect(anew.key).toBe(alone.key);
    expect(await files()).toEqual(await svgsOf(anew));
    // Once, and no more than that.
    expect((await asked({ version })).key).toBe(anew.key);
    expect(await editor.request(anewRequest, { uri: 7 })).toBeNull();
  });

  it('is not sent again after a change of white space, and its places are', async () => {
    const line = async (key: string): Promise<number | undefined> =>
      (await placeOf(key, 'device plotter'))?.range.start.line;
    const before = await drawn(boatWith());
    const first = await line(before.key);
    const after = await drawn(`\n\n${boatWith()}`, before.shown?.key);
    expect(after.key).toBe(before.key);
    expect(after.shown).toEqual({ ...before.shown, picture: undefined });
    expect(await line(after.key)).toBe((first ?? NaN) + 2);
  });

  it('follows an edit', async () => {
    const before = await drawn(boatWith());
    const mate = 'device plotter   : Tern13    at helm\ndevice mate : Tern8 at helm';
    const after = await drawn(boatWith(['device plotter   : Tern13    at helm', mate]), before.shown?.key);
    expect(after.shown?.picture).toBeDefined();
    expect(await shows(after, 'data-origin="device mate"')).toBe(true);
    // What was drawn before is not asked about any more.
    expect(await placeOf(before.key, 'device plotter')).toBeNull();
    expect(await sheetOf(before.key, 'network-1')).toBeNull();
  });

  it('stands still while a line is half typed, and says so', async () => {
    const before = await drawn(boatWith());
    const half = await drawn(`${boatWith()}\ndevice plott : : at\n`, before.shown?.key);
    expect(half.old).toMatch(/boat\.loft has a syntax error/);
    expect(half.key).toBe(before.key);
    expect(half.shown).toEqual({ ...before.shown, picture: undefined });
    expect((await drawn(boatWith())).old).toBeUndefined();
  });

  it('is drawn as far as it can be read where there is nothing better, until it can be read', async () => {
    const other = await FakeEditor.start(FILES);
    await other.open(BOAT, `${boatWith()}\ndevice plott : : at\n`);
    const ask = (known?: string): Promise<Drawing> =>
      other.request<Drawing>(drawingRequest, { uri: uriOf(BOAT), known });
    const first = await ask();
    expect(first.old).toBe('boat.loft has a syntax error: what cannot be read for it is not drawn.');
    expect((await ask(first.shown?.key)).old).toBe(first.old);
    await other.change(BOAT, boatWith());
    const whole = await ask(first.shown?.key);
    expect(whole.old).toBeUndefined();
    await other.change(BOAT, `${boatWith()}\ndevice plott : : at\n`);
    expect((await ask()).old).toMatch(/as she was before it/);
    other.stop();
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
      const { shown } = await other.request<Drawing>(drawingRequest, { uri: uriOf(BOAT) });
      return shown?.picture?.svg.includes('>1a2b3c4<') === true;
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
