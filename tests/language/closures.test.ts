/** Names by closure, through the protocol: what is reported where, and what is done again after an edit. */
import { afterEach, describe, expect, it } from 'vitest';
import { FakeEditor } from '../support/editor.js';

const CATALOGUE = `family Tern
model Disp : display { families Tern  port net : ethernet sealed  shows chart  shares chart }
model Hub : switch { port 1..3 : ethernet  bridges ethernet }
`;
const BOAT = `use "catalogue.loft"
use "fore.loft"
vessel Gull { slack 0.5 m }
zone helm sheltered
device main : Disp at helm
device hub : Hub at helm
link main -- hub.1
`;
const FORE = `aboard Gull
device bow : Disp at helm
link bow -- hub.2
need bow show main.chart
`;

let editor: FakeEditor | undefined;
afterEach(() => {
  editor?.stop();
  editor = undefined;
});

async function start(files: Record<string, string>): Promise<FakeEditor> {
  editor = await FakeEditor.start(files);
  return editor;
}

const codes = (
  list: readonly { code?: string | number; severity?: number }[],
): (string | number | undefined)[] => list.filter((d) => d.severity === 1).map((d) => d.code);

describe('a closure', () => {
  it('gives fragments and catalogue one set of names', async () => {
    const at = await start({ 'gull.loft': BOAT, 'catalogue.loft': CATALOGUE, 'fore.loft': FORE });
    expect(codes(await at.open('gull.loft'))).toEqual([]);
    expect(codes(await at.open('fore.loft'))).toEqual([]);
    expect(codes(await at.open('catalogue.loft'))).toEqual([]);
  });

  it('says in one finding that no vessel uses a fragment, and how to mend it', async () => {
    const at = await start({
      'gull.loft': BOAT.replace('use "fore.loft"\n', ''),
      'catalogue.loft': CATALOGUE,
      'fore.loft': FORE,
    });
    const found = await at.open('fore.loft');
    expect(found.map((d) => d.code)).toEqual(['use/no-vessel']);
    expect(found[0]?.message).toContain('Add use "fore.loft" to gull.loft');
  });

  it('checks closed files of a vessel too, and again when another file changes', async () => {
    const at = await start({ 'gull.loft': BOAT, 'catalogue.loft': CATALOGUE, 'fore.loft': FORE });
    await at.open('gull.loft');
    await at.change('gull.loft', BOAT.replace('device hub', 'device hob'));
    await at.settled();
    expect(codes(at.diagnostics('fore.loft'))).toContain('type/unknown-name');
    await at.change('gull.loft', BOAT);
    await at.settled();
    expect(codes(at.diagnostics('fore.loft'))).toEqual([]);
  });

  it('keeps a catalogue free of findings that only a combination has', async () => {
    const twin = 'model Disp : display { port net : ethernet  shows chart }\n';
    const at = await start({
      'gull.loft': BOAT.replace('use "fore.loft"', 'use "twin.loft"'),
      'catalogue.loft': CATALOGUE,
      'twin.loft': twin,
      'fore.loft': FORE,
    });
    const found = await at.open('gull.loft');
    const clash = found.find((d) => d.code === 'type/duplicate');
    expect(clash?.range.start.line).toBe(1);
    expect(clash?.relatedInformation?.map((r) => r.location.uri)).toContain('file:///boats/twin.loft');
    expect(await at.open('catalogue.loft')).toEqual([]);
    expect(await at.open('twin.loft')).toEqual([]);
  });

  it('serves as it last was while a use is being typed, and reports the file alone', async () => {
    const at = await start({ 'gull.loft': BOAT, 'catalogue.loft': CATALOGUE, 'fore.loft': FORE });
    await at.open('gull.loft');
    const found = await at.change('gull.loft', BOAT.replace('"catalogue.loft"', '"catal.loft"'));
    expect(codes(found)).toEqual(['use/not-found']);
    expect(found[0]?.message).toContain('catalogue.loft');
    await at.settled();
    expect(codes(at.diagnostics('fore.loft'))).toEqual([]);
  });

  it('does not report, everywhere, a name that is half typed where it is declared', async () => {
    const at = await start({ 'gull.loft': BOAT, 'catalogue.loft': CATALOGUE, 'fore.loft': FORE });
    await at.open('gull.loft');
    const found = await at.change('gull.loft', BOAT.replace('device hub : Hub at helm', 'device '));
    expect(codes(found)).toEqual(['syntax']);
    await at.settled();
    expect(codes(at.diagnostics('fore.loft'))).toEqual([]);
  });

  it('takes a cycle of uses as it comes', async () => {
    const at = await start({
      'gull.loft': BOAT,
      'catalogue.loft': `use "more.loft"\n${CATALOGUE}`,
      'more.loft': 'use "catalogue.loft"\nfamily Skua\n',
      'fore.loft': FORE,
    });
    expect(codes(await at.open('gull.loft'))).toEqual([]);
    expect(codes(await at.open('more.loft'))).toEqual([]);
  });

  it('resolves a catalogue only in itself and in what it uses', async () => {
    const at = await start({
      'gull.loft': BOAT.replace('use "fore.loft"', 'use "b.loft"'),
      'catalogue.loft': CATALOGUE,
      'b.loft': 'model B : display { families Tern  port net : ethernet  shows chart }\n',
    });
    await at.open('gull.loft');
    const found = await at.open('b.loft');
    expect(codes(found)).toEqual(['type/unknown-name']);
  });
});

describe('what is done again', () => {
  it('is nothing after a change of white space or comments', async () => {
    const at = await start({ 'gull.loft': BOAT, 'catalogue.loft': CATALOGUE, 'fore.loft': FORE });
    await at.open('gull.loft');
    const runs = at.shared.analysis.Analyses.runs;
    await at.change('gull.loft', BOAT.replace('zone helm', '// the helm\n\nzone   helm'));
    expect(at.shared.analysis.Analyses.runs).toBe(runs);
    await at.change('gull.loft', BOAT.replace('hub.1', 'hub.3'));
    expect(at.shared.analysis.Analyses.runs).toBe(runs + 1);
  });

  it('is the vessels that use a catalogue, and no other', async () => {
    const other = 'use "other.loft"\nvessel Petrel\nzone helm sheltered\ndevice x : Own at helm\n';
    const at = await start({
      'gull.loft': BOAT,
      'catalogue.loft': CATALOGUE,
      'fore.loft': FORE,
      'petrel.loft': other,
      'other.loft': 'model Own : joint { }\n',
    });
    await at.open('catalogue.loft');
    await at.open('petrel.loft');
    const runs = at.shared.analysis.Analyses.runs;
    await at.change('catalogue.loft', CATALOGUE.replace('1..3', '1..4'));
    expect(at.shared.analysis.Analyses.runs).toBe(runs + 1);
  });
});
