/** Code lenses through the protocol: what stands above each declaration. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { CodeLens } from 'vscode-languageserver';
import { uriOf, type FakeEditor } from '../support/editor.js';
import { BOAT, boatWith, openBoat } from './told/told.js';

let editor: FakeEditor;
beforeAll(async () => {
  editor = await openBoat();
});
afterAll(() => {
  editor.stop();
});

/** "plotter: shows 4 of 4 sources" for each lens, once some of the boat's text is exchanged. */
async function lensesWith(...changes: readonly (readonly [piece: string, by: string])[]): Promise<string[]> {
  const text = boatWith(...changes);
  await editor.change(BOAT, text);
  const lenses = await editor.request<CodeLens[] | null>('textDocument/codeLens', {
    textDocument: { uri: uriOf(BOAT) },
  });
  const lines = text.split('\n');
  return (lenses ?? []).map(({ range, command }) => {
    const name = lines[range.start.line]?.slice(range.start.character, range.end.character) ?? '';
    // Nothing may happen when it is clicked, in a client that lacks whatever command it would name.
    expect(command?.command).toBe('');
    return `${name}: ${command?.title ?? ''}`;
  });
}

describe('code lenses', () => {
  it('stand above the vessel, its screens and its sources', async () => {
    const [vessel, ...devices] = await lensesWith();
    expect(vessel).toMatch(
      /^Gull: 6127 USD and 5 parts without a price, 4 of 5 needs met, 3 ethernet ports free, \d+ unknown$/,
    );
    expect(devices).toEqual([
      'plotter: shows 4 of 4 sources',
      'bowScreen: shows 3 of 4 sources',
      'keel: both screens see this',
      'live: both screens see this',
      'liveHead: both screens see this',
      'gnss: 1 of 2 screens sees this',
    ]);
  });

  it('follow the boat: without the network, nothing is seen from afar', async () => {
    const found = await lensesWith(['link bowScreen    -- hub.2   using SealedNet', '']);
    expect(found.slice(1)).toEqual([
      'plotter: shows 3 of 4 sources',
      'bowScreen: shows 0 of 4 sources',
      'keel: 1 of 2 screens sees this',
      'live: 1 of 2 screens sees this',
      'liveHead: 1 of 2 screens sees this',
      'gnss: 1 of 2 screens sees this',
    ]);
  });

  it('count three screens and more, and one', async () => {
    const third =
      'device plotter   : Tern13    at helm\ndevice mate : Tern8 at helm\nlink mate -- hub.4 using SealedNet';
    const three = await lensesWith(['device plotter   : Tern13    at helm', third]);
    expect(three).toContain('keel: all 3 screens see this');
    expect(three).toContain('gnss: 1 of 3 screens sees this');
    const one = await lensesWith(
      ['device bowScreen : Tern8     at bow { note "a *bold* note" }', ''],
      ['link bowScreen    -- hub.2   using SealedNet', ''],
    );
    expect(one).toContain('keel: the screen sees this');
  });

  it('say so where nothing is asked of the boat', async () => {
    const found = await lensesWith(
      ['need plotter, bowScreen show keel.side, live', ''],
      ['need bowScreen show position', ''],
      ['need plotter hear position', ''],
      ['need house last 6 h in drifting', ''],
      ['need spare 2 ethernet on hub', ''],
    );
    expect(found[0]).toMatch(
      /^Gull: 6127 USD and 5 parts without a price, no needs yet, 3 ethernet ports free/,
    );
  });

  it('are none in a catalogue', async () => {
    await editor.open('gear.loft');
    const none = await editor.request<CodeLens[] | null>('textDocument/codeLens', {
      textDocument: { uri: uriOf('gear.loft') },
    });
    expect(none ?? []).toEqual([]);
  });
});
