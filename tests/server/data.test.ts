/** Who hears what in the editor: at devices, at what a model wants and gives, at gateways, and how far an antenna sees. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { FakeEditor } from '../support/editor.js';
import { BOAT, linesAt, openBoat } from './told/told.js';

const ADDED = `
model Slow  : heading { port talk : nmea0183 talks 4800 differential drives 4 sends HDT at 1 Hz, ROT at 1 Hz  gives heading at 1 Hz, turn at 1 Hz }
model Fast  : heading { port n2k : nmea2000 len 1  gives heading at 10 Hz }
model Gate  : gateway { port line : nmea0183 listens 4800 isolated  port n2k : nmea2000 len 1  passes line -> n2k without ROT }
model Out   : gateway { port n2k : nmea2000 len 1  port line : nmea0183 talks 4800 differential drives 4  passes n2k -> line with HDT }
model Dumb  : gateway { port n2k : nmea2000 len 1 }
model Brain : pilot { port n2k : nmea2000 len 1  wants heading at 10 Hz, turn, wind }
model Radio : radio { port hear : nmea0183 listens 4800 isolated  wants heading }
model Whip  : antenna { port foot : coax vhf }
zone mast aloft aft 4 m height 5 m
device slow   : Slow  at cabin
device gate   : Gate  at cabin
device out    : Out   at cabin
device dumb   : Dumb  at cabin
device brain  : Brain at cabin
device vhf    : Radio at cabin
device whip   : Whip  at mast { offset 0 m, 0 m, 0.4864 m }
device lower  : Whip  at cabin
link slow.talk -- gate.line
link out.line -- vhf.hear
backbone steer using MicroTrunk {
  terminator
  tee gate  drop 1 m
  tee brain drop 1 m
  tee out   drop 1 m
  tee dumb  drop 1 m
  terminator
}
`;

let editor: FakeEditor;
beforeAll(async () => {
  editor = await openBoat();
  await editor.change(BOAT, `${editor.text(BOAT)}${ADDED}`);
});
afterAll(() => {
  editor.stop();
});

const told = (piece: string): Promise<string[]> => linesAt(editor, piece);

/** The lines under a title, up to the next one. */
function under(lines: readonly string[], title: string): readonly string[] {
  const from = lines.indexOf(`**${title}**`);
  const rest = from < 0 ? [] : lines.slice(from + 1);
  const to = rest.findIndex((line) => !line.startsWith('- '));
  return to < 0 ? rest : rest.slice(0, to);
}

describe('a device', () => {
  it('tells what it hears, from whom, by which path and how often', async () => {
    expect(under(await told('device bra$0in '), 'Hears')).toEqual([
      '- heading: from slow (slow → gate → brain, 1 Hz), wanted at 10 Hz: too seldom',
      '- turn: from nobody: gate holds back what brings turn from slow to brain',
      '- wind: from nobody: nothing aboard gives wind',
    ]);
  });

  it('tells who hears it, and who wants it in vain', async () => {
    const lines = await told('device sl$0ow ');
    expect(under(lines, 'Heard by')).toEqual([
      '- brain heading: slow → gate → brain, 1 Hz',
      '- vhf heading: slow → gate → out → vhf, 1 Hz',
    ]);
    expect(under(lines, 'Wanted in vain by')).toEqual([
      '- brain turn: gate holds back what brings turn from slow to brain',
      expect.stringMatching(/^- plotter heading: /),
    ]);
  });
});

describe('what a model wants and gives', () => {
  it('tells what that comes to aboard', async () => {
    const wants = await told('wants hea$0ding at 10 Hz, turn');
    expect(wants[0]).toBe('signal **heading**');
    expect(under(wants, 'Hears')).toEqual([
      '- heading: from slow (slow → gate → brain, 1 Hz), wanted at 10 Hz: too seldom',
    ]);
    expect(under(await told('gives heading at 1 Hz, tu$0rn'), 'Wanted in vain by')).toEqual([
      '- brain turn: gate holds back what brings turn from slow to brain',
    ]);
    // The model is aboard nowhere.
    expect((await told('gives hea$0ding at 10 Hz')).join('\n')).not.toMatch(/Heard by|Nothing aboard/);
  });

  it('follows a faster source as soon as it is there', async () => {
    const before = editor.text(BOAT);
    await editor.change(
      BOAT,
      `${before.replace(
        '  tee dumb  drop 1 m\n',
        '  tee dumb  drop 1 m\n  tee fast drop 1 m\n',
      )}device fast : Fast at cabin\nprefer heading from fast\n`,
    );
    expect(under(await told('device bra$0in '), 'Hears')[0]).toBe(
      '- heading: from fast (fast → brain, 10 Hz), before slow (slow → gate → brain, 1 Hz), wanted at 10 Hz',
    );
    await editor.change(BOAT, before);
  });
});

describe('a gateway', () => {
  it('tells what it passes and holds back, by its model and now', async () => {
    const lines = await told('device ga$0te ');
    expect(under(lines, 'Passes')).toEqual(['- line → n2k: all but ROT (Rate of turn)']);
    expect(under(lines, 'Sends now')).toEqual(['- n2k: 127250 (Vessel Heading) of slow, 1 Hz']);
    expect(under(lines, 'Holds back now')).toEqual(['- line: ROT (Rate of turn) of slow, 1 Hz']);
    expect(under(lines, 'Brings')).toEqual(['- heading of slow to brain', '- heading of slow to vhf']);
  });

  it('tells it of the way from the bus to a line, and that a model says nothing', async () => {
    const lines = await told('device o$0ut ');
    expect(under(lines, 'Passes')).toEqual(['- n2k → line: only HDT (True heading)']);
    expect(under(lines, 'Brings')).toEqual(['- heading of slow to vhf']);
    expect(await told('device du$0mb ')).toContain('Its model does not say what it passes.');
  });
});

describe('an antenna', () => {
  // The worked example: 18 ft and 12 ft see each other at 9.48 nautical miles; 18 ft alone to the water at 5.22.
  it('tells its radio horizon where its height is known', async () => {
    expect(await told('device wh$0ip ')).toContain(
      '5.49 m above the water: its radio horizon is 5.2 nautical miles off, and another antenna as high is in reach at 10.4 nautical miles.',
    );
    expect((await told('device lo$0wer ')).join('\n')).not.toContain('radio horizon');
  });
});
