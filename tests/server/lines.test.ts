/** NMEA 0183 in the editor: what a link and a port tell of their line, and a sentence by its name. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { FakeEditor } from '../support/editor.js';
import { BOAT, linesAt, openBoat } from './told/told.js';

const ADDED = `
model Chatty : instrument {
  port talk : nmea0183 talks 4800 single drives 4
    sends GGA at 1 Hz, RMC at 1 Hz, VTG at 1 Hz, HDT at 10 Hz, DPT at 1 Hz, MWV at 2 Hz, VHW at 1 Hz
}
model Vague : instrument { port talk : nmea0183 talks 4800 single sends MTW, PABCD, QQQ }
model Ears : radio { port listen : nmea0183 listens 4800 differential }
device chatty : Chatty at helm
device vague  : Vague  at helm
device ears   : Ears   at helm
device other  : Ears   at helm
link chatty.talk -- ears.listen
link vague.talk  -- other.listen
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

describe('a line', () => {
  // The worked example: 484 characters a second, 100.8 % of 4800 bit/s.
  it('tells at its link what it says, how full it is, and which wire goes where', async () => {
    const lines = await told('link chatty.talk $0-- ears.listen');
    expect(lines).toContain(
      '**chatty.talk** sends 484 characters a second: 100.8 % of the 480 that 4800 bit/s carry.',
    );
    expect(lines).toContain('Heard by ears.listen: a load of 1 listener, and it carries 4.');
    expect(lines).toContain('- HDT (True heading) of chatty, 19 characters, 10 Hz');
    expect(lines).toContain(
      'Join the output of chatty.talk to A of ears.listen, and B of ears.listen to the signal ground of chatty.talk.',
    );
  });

  it('tells the same at the port of either end', async () => {
    const said = '**chatty.talk** sends 484 characters a second: 100.8 % of the 480 that 4800 bit/s carry.';
    expect(await told('link chatty.ta$0lk --')).toContain(said);
    expect(await told('-- ears.lis$0ten')).toContain(said);
  });

  it('names what is not known of it, and counts the rest only as what is known', async () => {
    const lines = await told('link vague.talk  $0-- other.listen');
    expect(lines.some((line) => line.endsWith('bit/s carry, of what is known.'))).toBe(true);
    expect(lines).toContain('**Not known**');
    expect(lines).toContain('- how often Vague sends MTW');
    expect(lines).toContain('- how long sentence QQQ of Vague is');
  });

  it('says nothing of lines at other links', async () => {
    expect((await told('link plotter.net1 $0-- hub')).join('\n')).not.toContain('characters a second');
  });
});

describe('a sentence by its name', () => {
  it('says its title, its length and what it brings', async () => {
    expect(await told('sends G$0GA at')).toEqual([
      'sentence **GGA** Position and its quality',
      '67 characters with usual field widths: 14 % of a line of 4800 bit/s for each one a second.',
      'Brings position, position.quality.',
    ]);
  });

  it("knows a maker's own, and makes nothing up of one that is in no table", async () => {
    expect(await told('PAB$0CD')).toEqual(['sentence **PABCD**', "A maker's own sentence."]);
    expect((await told('QQ$0Q }')).join('\n')).not.toContain('sentence **QQQ**');
  });
});
