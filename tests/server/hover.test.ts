/** Hover through the protocol: the answer at each kind of place, and how it looks as Markdown. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Hover } from 'vscode-languageserver';
import type { FakeEditor } from '../support/editor.js';
import { CARDS } from './told/cards.js';
import { BOAT, boatWith, FILES, hoverAt, openBoat } from './told/told.js';

let editor: FakeEditor;
beforeAll(async () => {
  editor = await openBoat();
});
afterAll(() => {
  editor.stop();
});

/** Lines of a card without the two blanks that break a line, and without empty ones. */
const linesOf = (card: string): string[] =>
  card
    .split('\n')
    .map((line) => line.trim())
    .filter((line) => line !== '');

describe('hover', () => {
  it.each(CARDS)('tells of %s', async (_what, piece, ...lines) => {
    const told = linesOf(await hoverAt(editor, piece));
    // How many findings the whole boat has is no matter here.
    expect(told.filter((line) => !/^\d+ errors?, /.test(line))).toEqual(lines);
  });

  it('tells of a feed, a battery, a mode and a day what is worked out', async () => {
    await editor.change(
      BOAT,
      boatWith(
        ['slack 0.5 m }', 'slack 0.5 m  wiring 105 C }'],
        [
          'mode drifting { on plotter, bowScreen /* both */ }',
          'mode drifting { on plotter, bowScreen }\nday trip { in drifting 6 h }',
        ],
      ),
    );
    expect(linesOf(await hoverAt(editor, 'fe$0ed panel.4'))).toEqual([
      'feed **panel.4** to **live.power**',
      'Live',
      'Fuse left to the tool. Wire left to the tool.',
      'Wire 18 AWG (or 1 mm2), worked out: decided by the least that the standard allows.',
      'Worked out: fuse 7.5 A blade at panel.',
      '0 A, at most 1.8 A; the wire may carry 20 A.',
      expect.stringMatching(/^Loses 0\.\d+ V on the whole way \(.* % of 3 % allowed\): 11\.\d+ V arrive\.$/),
      '1 m one way.',
    ]);
    const battery = linesOf(await hoverAt(editor, 'device hou$0se'));
    // 105 Ah x 50 % x 12 V; 6 h at 2.45 A are 14.7 Ah, and nothing puts them back: 52.5 Ah are gone on the fourth day.
    expect(battery).toContain(
      'Holds 105 Ah, of which 52.5 Ah (0.63 kWh) may be used: 50 %, common practice.',
    );
    expect(battery).toContain(
      '- drifting: 21.4 h at 2.45 A on average (plotter 1.4 A, bowScreen 0.9 A, nav 0.15 A)',
    );
    expect(battery).toContain(
      'A short circuit at its posts: not known, Agm105 says neither its resistance nor its short-circuit current.',
    );
    expect(battery).toContain('On its system hang plotter, bowScreen, live, hub and nav.');
    const balance = '14.7 Ah out, 0 Ah in, down to 86 %; it does not come back, and is too deep on day 4';
    expect(battery).toContain(`- trip: ${balance}`);
    expect(linesOf(await hoverAt(editor, 'day tr$0ip'))).toEqual([
      'day **trip**',
      '- `in drifting 6 h`',
      `- house: ${balance}`,
    ]);
    await editor.change(BOAT, boatWith());
  });

  it('tells of a panel, its ways and what a battery does in a short circuit and a start', async () => {
    await editor.change(
      BOAT,
      boatWith(
        ['slack 0.5 m }', 'slack 0.5 m  wiring 105 C }'],
        [
          'vessel Gull',
          'model Stiff : battery { voltage 12 V  charges 14.4 V  lowest 11 V  capacity 105 Ah at 20 h  chemistry agm  peukert 1  resistance 4 mohm  port post : dc }\nmodel Diesel : engine { port starter : dc in cranks 300 A for 3 s }\nvessel Gull',
        ],
        [
          'device house     : Agm105    at cabin',
          'device house     : Stiff     at cabin\ndevice engine    : Diesel    at cabin',
        ],
        [
          'feed cutoff  -> panel      protected',
          'feed cutoff  -> panel      protected\nfeed house   -> engine.starter cranking',
        ],
      ),
    );
    const battery = linesOf(await hoverAt(editor, 'device hou$0se'));
    // 12 V / 4 mohm; 52.5 Ah / (300 A x 3 s / 3600 s/h = 0.25 Ah).
    expect(battery).toContain('A short circuit at its posts draws up to 3 kA.');
    expect(battery).toContain('Full, it starts engine 210 times: 300 A for 3 s each.');
    // In drifting the plotter draws 1.4 A, the bow screen 0.9 A, and the backbone 3 LEN of 50 mA.
    const panel = linesOf(await hoverAt(editor, 'device pan$0el'));
    expect(panel).toContain('Carries 2.45 A of 60 A at most in mode drifting; 3 of 8 ways free.');
    expect(panel).toContain('- `1` fuse 5 A blade → plotter: 1.4 A, at most 2.6 A');
    expect(panel).toContain('- `4` "Live" fuse 7.5 A blade (worked out) → live: 0 A, at most 1.8 A');
    expect(panel).toContain('- `6` free');
    // The input alone is left among the ports.
    expect(panel.slice(panel.indexOf('**Ports**') + 1)).toEqual([expect.stringMatching(/^- `in` dc, in: /)]);
    await editor.change(BOAT, boatWith());
  });

  const LIBRARY: readonly (readonly [what: string, piece: string, ...says: string[]])[] = [
    ['a medium', 'spare 2 ether$0net', 'medium **ethernet**', 'May state'],
    ['a class', 'model Switch5 : swi$0tch', 'class **switch**', 'Must state'],
    [
      'an exposure',
      'zone bow     exp$0osed',
      'exposure **exposed**',
      'asks IPX6',
      'An open connector takes harm',
    ],
    ['a type of fuse', 'mr$0bf', 'fuse type **mrbf**', 'ratings 30 A'],
    ['a signal that covers others', 'shares so$0nar', 'signal **sonar**', 'Covers sonar.'],
    [
      'a family',
      'families Te$0rn\n  screen',
      'family **Tern**',
      'Coastal displays',
      '3 models: Tern13, Tern8 and LiveBox',
    ],
  ];
  it.each(LIBRARY)('tells of %s', async (_what, piece, ...says) => {
    const file = FILES[BOAT]?.includes(piece.replace('$0', '')) ? BOAT : 'gear.loft';
    const told = await hoverAt(editor, piece, file);
    for (const part of says) expect(told).toContain(part);
  });

  const WORDS: readonly (readonly [word: string, piece: string, says: string])[] = [
    ['at, of a device', 'Tern13    a$0t helm', 'zone it is in'],
    ['at, of a fuse', 'mrbf a$0t house', 'at whose end'],
    ['after, of a fuse', 'aft$0er 150 mm', 'from its source'],
    ['on, of a need', 'ethernet o$0n hub', 'so many ports'],
    ['on, of a mode', '{ o$0n plotter', 'on in this mode'],
    ['on, of a view', '"Drift" o$0n', 'screen'],
    ['in, of a need', '6 h i$0n drifting', 'mode in which'],
    ['from, of a tap', 'tap fr$0om', 'feeds the backbone'],
    ['a property', 'sla$0ck 0.5', 'ervice loop'],
    ['a statement', 'zo$0ne bow', 'place aboard'],
  ];
  it.each(WORDS)('says what a word means where it stands: %s', async (_word, piece, says) => {
    expect(await hoverAt(editor, piece)).toContain(says);
  });

  it('tells of a rule at its code', async () => {
    const waived = await openBoat(
      FILES[BOAT]?.replace(
        'hub.2   using SealedNet',
        'hub.2   using PatchCord allow cable/not-sealed because "dry"',
      ),
    );
    expect(await hoverAt(waived, 'allow cable/not$0-sealed')).toMatch(/^`cable\/not-sealed`\n\n\S/);
    waived.stop();
  });

  it('says that a port is free', async () => {
    const more = await openBoat(`${FILES[BOAT] ?? ''}\nlink hub.4 -- plotter.sonar\n`);
    // A link of two media is not made, so the port stays free.
    expect(linesOf(await hoverAt(more, 'hub.$04'))).toEqual(['**hub.4**', 'ethernet, sealed', 'Free.']);
    more.stop();
  });

  it('is silent in comments and between words', async () => {
    expect(await hoverAt(editor, '// what $0is sold')).toBe('');
    expect(await hoverAt(editor, '/* bo$0th */')).toBe('');
    expect(await hoverAt(editor, '\n$0\nrun bow')).toBe('');
  });

  it('never shows what is not meant for reading, wherever it is asked', async () => {
    const cards = new Set<string>();
    for (const file of [BOAT, 'gear.loft'])
      for (const [line, text] of (FILES[file] ?? '').split('\n').entries())
        for (const { index } of text.matchAll(/[\w.]+|--|->|"/g)) {
          const hover = await editor.at<Hover | null>('textDocument/hover', file, { line, character: index });
          if (hover && typeof hover.contents === 'object' && 'value' in hover.contents)
            cards.add(hover.contents.value);
        }
    expect(cards.size).toBeGreaterThan(150);
    for (const card of cards) {
      expect(card, card).not.toMatch(/undefined|null|NaN|\[object|Infinity/);
      expect(card.split('**').length % 2, `bold is closed in ${card}`).toBe(1);
      expect(card.split('`').length % 2, `code is closed in ${card}`).toBe(1);
      expect(card.trim(), card).not.toBe('');
      // A list is parted from the line above it, or it would not be one.
      expect(card, card).not.toMatch(/\n(?!- )[^\n]+\n- /);
    }
  });
});
