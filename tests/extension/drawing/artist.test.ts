/** The thread that draws: it draws what the server itself would, writes what the terminal does, and may be lost. */
import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { DRAWING_FORMATS } from '../../../src/documents/formats/files.js';
import { toPdf } from '../../../src/documents/formats/pdf.js';
import { toPng } from '../../../src/documents/formats/png/png.js';
import type { Artist, Subject } from '../../../src/extension/server/drawing/artist/artist.js';
import { inlineArtist } from '../../../src/extension/server/drawing/artist/inline.js';
import { pack, unpack } from '../../../src/extension/server/drawing/artist/packed.js';
import { threadedArtist } from '../../../src/extension/server/drawing/artist/node.js';
import { remoteArtist, type Job } from '../../../src/extension/server/drawing/artist/remote.js';
import { serveArtist } from '../../../src/extension/server/drawing/artist/serve.js';
import { readArtistParts } from '../../../src/extension/server/drawing/artist/web.js';
import { ROOT, wireloft } from '../../cli/program.js';
import { analysed, example, fleetParts } from '../../documents/boats.js';
import { FONT_FILES } from '../../support/writers.js';

const TODAY = '2026-01-01';
const title = { file: 'dunlin.loft', version: 'wireloft 0.1.0', revision: 'T2' };
const fonts = { regular: readFileSync(FONT_FILES.regular), bold: readFileSync(FONT_FILES.bold) };
const own = inlineArtist(() => Promise.resolve({ toPdf, toPng, fonts }));

async function subjectOf(name: string): Promise<Subject> {
  const analysis = await example(name);
  return { vessel: analysis.vessel, judged: { today: TODAY }, analysis: () => analysis };
}

describe('the thread', () => {
  const thread: Artist = threadedArtist(join(ROOT, 'dist', 'extension', 'server.cjs'));

  it('does not hold up the server', () => {
    expect(thread.blocks).toBe(false);
    // Without the bundle of the thread, the server draws.
    expect(threadedArtist(join(ROOT, 'scripts', 'build.mjs')).blocks).toBe(true);
  });

  it('draws what the server itself would, and knows the same of a source', async () => {
    const subject = await subjectOf('openboat/dunlin');
    const drawn = await thread.draw(subject, title, undefined);
    expect(drawn.sheets.length).toBeGreaterThan(3);
    expect(drawn).toEqual(await own.draw(subject, title, undefined));
    expect(thread.blocks).toBe(false);
    const places = unpack(drawn.places);
    const { power } = places;
    const nodes = power?.nodes.map((node) => (node.id === 'bowScreen' ? { ...node, page: 1 } : node));
    const spread = pack({ ...places, ...(power && nodes && { power: { ...power, nodes } }) });
    const drift = await thread.drift(subject, spread);
    expect(drift).toEqual([{ diagram: 'power', sheets: 2, anew: 1 }]);
    expect(drift).toEqual(await own.drift(subject, spread));
    const reaches = await Promise.all(
      subject.vessel.devices.map(({ origin }) => thread.reach(subject, origin)),
    );
    expect(reaches.filter((reach) => reach !== undefined).length).toBeGreaterThan(2);
    for (const [index, { origin }] of subject.vessel.devices.entries())
      expect(reaches[index]).toEqual(await own.reach(subject, origin));
  });

  it('draws first, though it was asked before what laying out anew would save', async () => {
    const subject = await subjectOf('openboat/dunlin');
    const { places } = await thread.draw(subject, title, undefined);
    const answered: string[] = [];
    await Promise.all([
      thread.drift(subject, places).then(() => answered.push('drift')),
      thread.draw(subject, title, places).then(() => answered.push('drawing')),
    ]);
    expect(answered).toEqual(['drawing', 'drift']);
  });

  it('lets others have their turn while it draws', async () => {
    const analysis = analysed(fleetParts(60));
    const subject: Subject = { vessel: analysis.vessel, judged: { today: TODAY }, analysis: () => analysis };
    let [last, longest, turns] = [performance.now(), 0, 0];
    const timer = setInterval(() => {
      const now = performance.now();
      longest = Math.max(longest, now - last);
      last = now;
      turns += 1;
    }, 5);
    const start = performance.now();
    await thread.draw(subject, title, undefined);
    const took = performance.now() - start;
    clearInterval(timer);
    expect(turns).toBeGreaterThan(4);
    expect(longest).toBeLessThan(Math.max(200, took / 2));
  });

  it('leads from a sheet to the one where a wire goes on, and back', async () => {
    const analysis = analysed(fleetParts(120));
    const subject: Subject = { vessel: analysis.vessel, judged: { today: TODAY }, analysis: () => analysis };
    const { sheets } = await own.draw(subject, title, undefined);
    const sheetOf = (group: string): string | undefined =>
      sheets.find(({ id }) => group.startsWith(`${id}-`))?.id;
    const pictures = sheets.map(({ id, picture }) => ({ id, ...unpack(picture) }));
    const leads = new Map(pictures.flatMap(({ references }) => references.map(({ id, to }) => [id, to])));
    expect(leads.size).toBeGreaterThan(4);
    for (const [from, to] of leads) {
      expect(leads.get(to)).toBe(from);
      expect(sheetOf(to)).not.toBe(sheetOf(from));
      const target = pictures.find(({ id }) => id === sheetOf(to));
      expect(target?.svg).toContain(`<g id="${to}"`);
    }
  });

  it('has a boat again that it has let go', async () => {
    const first = await subjectOf('openboat/dunlin');
    const [device] = first.vessel.devices;
    const before = await thread.reach(first, device?.origin ?? '');
    const { vessel, judged, analysis } = first;
    for (let index = 0; index < 6; index += 1)
      await thread.reach({ vessel, judged, analysis }, device?.origin ?? '');
    expect(await thread.reach(first, device?.origin ?? '')).toEqual(before);
  });

  const folder = mkdtempSync(join(tmpdir(), 'wireloft-artist-'));
  afterAll(() => rmSync(folder, { recursive: true }));

  it.each(DRAWING_FORMATS)('writes %s as the terminal does, byte for byte', async (format) => {
    const boat = join(ROOT, 'examples', 'openboat', 'dunlin.loft');
    const { status } = await wireloft(
      ['draw', boat, '--out', format, '--format', format, '--revision', 'T2'],
      { folder },
    );
    expect(status).toBe(0);
    const theirs = readdirSync(join(folder, format)).sort();
    const subject = await subjectOf('openboat/dunlin');
    const files = (await thread.write(subject, title, { format, sheet: undefined }, undefined)) ?? [];
    expect(files.map(({ name }) => name).sort()).toEqual(theirs);
    for (const { name, content } of files)
      expect(Buffer.from(content).equals(readFileSync(join(folder, format, name))), name).toBe(true);
    const [one] = (await thread.write(subject, title, { format, sheet: 'network-1' }, undefined)) ?? [];
    expect(one?.name).toBe(`network-1.${format}`);
    const same = files.find(({ name }) => name === one?.name);
    if (same !== undefined)
      expect(Buffer.from(one?.content ?? '').equals(Buffer.from(same.content))).toBe(true);
  });
});

describe('the file with the places', () => {
  const folder = mkdtempSync(join(tmpdir(), 'wireloft-places-'));
  afterAll(() => rmSync(folder, { recursive: true }));

  it('has the terminal draw what the editor shows', async () => {
    const subject = await subjectOf('openboat/dunlin');
    // As if she had grown in an order of her own: two boxes stand elsewhere than they would by themselves.
    const drawn = await own.draw(subject, title, undefined);
    const places = unpack(drawn.places);
    const [first, second, ...others] = places['network']?.nodes ?? [];
    if (places['network'] === undefined || first === undefined || second === undefined)
      throw new Error('She has no network.');
    const swapped = [
      { ...first, page: second.page, x: second.x, y: second.y },
      { ...second, page: first.page, x: first.x, y: first.y },
    ];
    const network = { ...places['network'], nodes: [...swapped, ...others] };
    const shown = await own.draw(subject, title, pack({ ...places, network }));
    expect(shown.key).not.toBe(drawn.key);
    const [file] =
      (await own.write(subject, title, { format: 'places', sheet: undefined }, shown.places)) ?? [];
    expect(file?.name).toBe('dunlin.places.json');
    writeFileSync(join(folder, 'dunlin.places.json'), file?.content ?? '');
    const boat = join(ROOT, 'examples', 'openboat', 'dunlin.loft');
    const words = ['draw', boat, '--out', 'sheets', '--places', 'dunlin.places.json', '--revision', 'T2'];
    expect((await wireloft(words, { folder })).status).toBe(0);
    for (const { id, picture } of shown.sheets)
      expect(readFileSync(join(folder, 'sheets', `${id}.svg`), 'utf8')).toBe(unpack(picture).svg);
    // And the terminal leaves the file as it is.
    expect(readFileSync(join(folder, 'dunlin.places.json'), 'utf8')).toBe(file?.content);
  });
});

describe('an artist beside the server', () => {
  /** A thread in this one, whose messages are copied as between two. */
  function near(lose: (lost: () => void) => void = () => undefined): Artist {
    return remoteArtist(
      () =>
        Promise.resolve({
          send: (job: Job) => void take?.(structuredClone(job)),
          listen: (done, lost) => {
            take = serveArtist(
              (answer, bytes) => done(structuredClone(answer, { transfer: [...bytes] })),
              () => Promise.resolve(fonts),
            );
            lose(() => {
              take = undefined;
              lost(new Error('gone'));
            });
          },
        }),
      own,
    );
  }
  let take: ((job: Job) => Promise<void>) | undefined;

  it('is followed by another when it is lost', async () => {
    const subject = await subjectOf('openboat/dunlin');
    let lose: () => void = () => undefined;
    const artist = near((lost) => (lose = lost));
    const before = await artist.draw(subject, title, undefined);
    const waiting = artist.draw(subject, title, undefined);
    lose();
    expect(await waiting).toEqual(before);
    expect(artist.blocks).toBe(true);
    expect(await artist.draw(subject, title, undefined)).toEqual(before);
  });

  it('that cannot be started is replaced', async () => {
    const told: string[] = [];
    const artist = remoteArtist(
      () => Promise.reject(new Error('none')),
      own,
      (reason) => told.push(reason),
    );
    const subject = await subjectOf('openboat/dunlin');
    expect((await artist.draw(subject, title, undefined)).sheets.length).toBeGreaterThan(3);
    expect(told).toEqual(['The server draws itself from now on: none']);
  });

  it('says what went wrong in the work itself, and goes on', async () => {
    const subject = await subjectOf('openboat/dunlin');
    const broken = { ...subject, vessel: { ...subject.vessel, devices: 7 } } as unknown as Subject;
    const artist = near();
    await expect(artist.draw(broken, title, undefined)).rejects.toThrow();
    expect(artist.blocks).toBe(false);
    expect((await artist.draw(subject, title, undefined)).sheets.length).toBeGreaterThan(3);
  });

  it('in a browser is told where its parts are, and believes nothing else', () => {
    const parts = { script: 'a', regular: 'b', bold: 'c' };
    expect(readArtistParts({ artist: parts })).toEqual(parts);
    for (const other of [undefined, null, 3, {}, { artist: 1 }, { artist: { ...parts, bold: 2 } }])
      expect(readArtistParts(other)).toBeUndefined();
  });
});
