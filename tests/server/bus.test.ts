/** Backbones in the editor: repairs of their findings, and messages by their numbers. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { FakeEditor } from '../support/editor.js';
import { actionsOn, findingOf, take, type Change } from './told/actions.js';
import { BOAT, hoverAt, openBoat } from './told/told.js';

let editor: FakeEditor;
beforeAll(async () => {
  editor = await openBoat();
});
afterAll(() => {
  editor.stop();
});

const WRITTEN = `backbone nav using MicroTrunk {
  terminator
  tee gnss drop 2 m
  tap from panel.3 fuse 3 A
  span 1 m
  tee plotter drop 0.6 m
  terminator
}`;
const THIRSTY =
  'model Thirsty : instrument { port n2k : nmea2000 len 20  shows depth }\ndevice thirsty : Thirsty at helm\n';

/** The backbone as it is after the preferred repair of the first finding of a rule. */
async function repaired(rule: string, items: readonly string[], before = ''): Promise<string[]> {
  const changes: readonly Change[] = [
    [WRITTEN, `${before}backbone nav using MicroTrunk {\n${items.map((item) => `  ${item}\n`).join('')}}`],
  ];
  const finding = await findingOf(editor, rule, changes);
  const action = (await actionsOn(editor, [finding])).find((one) => one.isPreferred === true);
  const { after } = await take(editor, action);
  expect(after.filter((one) => one.code === rule)).toEqual([]);
  const text = editor.text(BOAT);
  const from = text.indexOf('backbone nav');
  return text.slice(from, text.indexOf('}', from)).split('\n').slice(1, -1);
}

describe('repairs of a backbone', () => {
  it('add the terminator at the first end, and at the last', async () => {
    const tees = ['tee gnss drop 2 m', 'tap from panel.3 fuse 3 A', 'tee plotter drop 0.6 m'];
    expect(await repaired('bus/terminators', [...tees, 'terminator'])).toEqual([
      '  terminator',
      ...[...tees, 'terminator'].map((item) => `  ${item}`),
    ]);
    expect(await repaired('bus/terminators', ['terminator', ...tees])).toEqual(
      ['terminator', ...tees, 'terminator'].map((item) => `  ${item}`),
    );
  });

  it('move the terminator that is in the middle to the end that has none', async () => {
    const before = ['terminator', 'tee gnss drop 2 m', 'tap from panel.3 fuse 3 A', 'span 1 m'];
    const after = ['span 1 m', 'tee plotter drop 0.6 m'];
    expect(await repaired('bus/terminators', [...before, 'terminator', ...after])).toEqual(
      [...before, ...after, 'terminator'].map((item) => `  ${item}`),
    );
  });

  it('take out a terminator that is one too many', async () => {
    expect(
      await repaired('bus/terminators', [
        'terminator',
        'terminator',
        'tap from panel.3 fuse 3 A',
        'span 1 m',
        'tee gnss drop 2 m',
        'terminator',
      ]),
    ).toEqual(
      ['terminator', 'tap from panel.3 fuse 3 A', 'span 1 m', 'tee gnss drop 2 m', 'terminator'].map(
        (item) => `  ${item}`,
      ),
    );
  });

  it('move the tap to where least is lost', async () => {
    expect(
      await repaired(
        'bus/voltage',
        ['terminator', 'tap from panel.3 fuse 3 A', 'span 20 m', 'tee thirsty drop 1 m', 'terminator'],
        THIRSTY,
      ),
    ).toEqual([
      '  terminator',
      '  span 20 m',
      '  tee thirsty drop 1 m',
      '  tap from panel.3 fuse 3 A',
      '  terminator',
    ]);
  });

  it('isolate two taps, and earth the drain at the tap', async () => {
    expect(
      await repaired('bus/power', [
        'terminator',
        'tap from panel.3 fuse 3 A',
        'tee gnss drop 2 m',
        'span 1 m',
        'tap from panel.6 fuse 3 A',
        'terminator',
      ]),
    ).toContain('  isolate');
    expect(
      await repaired('bus/ground', [
        'terminator',
        'tap from panel.3 fuse 3 A',
        'tee gnss drop 2 m',
        'span 9 m',
        'ground',
        'terminator',
      ]),
    ).toEqual([
      '  terminator',
      '  tap from panel.3 fuse 3 A',
      '  ground',
      '  tee gnss drop 2 m',
      '  span 9 m',
      '  terminator',
    ]);
  });

  it('set a tee where the backbone is near to its device, with the drop that is left', async () => {
    expect(
      await repaired('bus/drop-length', [
        'terminator',
        'tap from panel.3 fuse 3 A',
        'tee gnss drop 9 m',
        'span cabin -- helm',
        'tee capped',
        'terminator',
      ]),
    ).toEqual([
      '  terminator',
      '  tap from panel.3 fuse 3 A',
      '  span cabin -- helm',
      '  tee gnss drop 1 m',
      '  tee capped',
      '  terminator',
    ]);
  });
});

describe('a message by its number', () => {
  it('says its name, its frames, its interval and its share', async () => {
    await editor.change(
      BOAT,
      `${editor.text(BOAT)}\nmodel Vane : instrument { port n2k : nmea2000 len 1 sends 130306 at 10 Hz, 129029, 126996, 61184 }\n`,
    );
    const told = async (piece: string): Promise<string[]> =>
      (await hoverAt(editor, piece))
        .split('\n')
        .map((line) => line.trim())
        .filter((line) => line !== '');
    expect(await told('sends 130$0306')).toEqual([
      'message **130306** Wind Data',
      '8 bytes, one frame, priority 2.',
      'Usually every 100 ms: 0.6 % of a backbone at worst.',
    ]);
    expect((await told('129$0029,'))[1]).toBe(
      '43 bytes and 4 for each repetition, fast packet of 7 frames, priority 3.',
    );
    expect((await told('126$0996,'))[2]).toBe('Sent on request, or when something happens.');
    expect((await told('611$084 }'))[1]).toBe("A maker's own message.");
  });
});
