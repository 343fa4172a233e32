/** Completion while a text is being typed: half a word, half a line, and where nothing is to be offered. */
import { describe, expect, it } from 'vitest';
import { itOffers } from './cases.js';
import { Asking, BOAT } from './offered.js';

describe('where nothing is offered', () => {
  itOffers([
    { text: '// device $0', only: [] },
    { text: '/// device x : $0', only: [] },
    { text: 'device x : /* $0 */ Tern13', only: [] },
    { text: 'device x : /* $0', only: [] },
    { text: 'need plotter show "$0', only: [] },
    { text: 'view "$0" on plotter { }', only: [] },
    { text: 'device $0', only: [] },
    { text: 'device $0 : Tern13', only: [] },
    { text: 'link skua -- hub.3 label $0', only: [] },
    { text: 'link nothing.$0', only: [] },
    { text: 'device x : Nothing { normally $0', only: [] },
  ]);
});

describe('in half-typed text', () => {
  itOffers([
    // Something unfinished above does not matter.
    { text: 'device x :\n\nlink log -- $0', only: ['plotter', 'vhf'] },
    { text: 'link plotter. -- \nfeed panel.2 -> \nlink log -- $0', only: ['plotter', 'vhf'] },
    { text: 'mode x {\n  on plotter\n\nlink log -- $0', only: ['plotter', 'vhf'] },
    { text: 'link ( ] - ? foo\nlink log -- $0', only: ['plotter', 'vhf'] },
    {
      text: 'model M : display {\n  port : \n  shows chart,\n  $0\n}',
      offers: ['families', 'screen'],
      lacks: ['voltage'],
    },
    // Nor does what follows.
    { text: 'link log -- $0\nfeed panel.2 -> ', only: ['plotter', 'vhf'] },
    { text: 'device x : $0\ndevice y : Tern13 at helm', offers: ['Tern13'], lacks: ['helm'] },
    // A declaration goes on over lines, and a line that is not indented begins another.
    { text: 'link skua -- hub.3\n  $0', first: ['using', 'join', 'by'], offers: ['device'] },
    { text: 'link skua -- hub.3\n$0', offers: ['device', 'link'], lacks: ['using', 'join'] },
    { text: 'device x :\n$0', first: ['Tern13'], offers: ['device', 'link'] },
    { text: 'device x :\n  Te$0', taken: ['Tern13', '  Tern13'] },
    // A word is replaced as a whole.
    { text: 'device x : Te$0rn at helm', taken: ['Tern13', 'device x : Tern13 at helm'] },
    { text: 'link plo$0tter.net2 -- hub.3', taken: ['skua', 'link skua.net2 -- hub.3'] },
    { text: 'device x : Tern13 a$0 helm', taken: ['at', 'device x : Tern13 at helm'] },
    { text: 'zone z exposed aft 3$0', taken: ['m', 'zone z exposed aft 3 m'] },
    { text: 'zone z exposed aft 3 f$0', taken: ['ft', 'zone z exposed aft 3 ft'] },
    { text: 'mode x { on plotter 80$0', taken: ['%', 'mode x { on plotter 80 %'] },
  ]);
});

describe('after a space', () => {
  itOffers([
    { text: 'device x : $0', typed: ' ', first: ['Tern13'] },
    { text: 'link $0', typed: ' ', first: ['plotter'] },
    { text: 'link skua -- hub.3 using $0', typed: ' ', first: ['SealedNet'] },
    { text: 'feed panel.2 -> hub fuse 5 $0', typed: ' ', only: ['A', 'mA', 'kA'] },
    // What may end here is let end: the list would take the line break.
    { text: 'link skua -- hub.3 $0', typed: ' ', only: [] },
    { text: 'device x : Tern13 $0', typed: ' ', only: [] },
    { text: 'mode x { on plotter $0', typed: ' ', only: [] },
    { text: ' $0', typed: ' ', only: [] },
    { text: '// a $0', typed: ' ', only: [] },
    { text: 'link plotter.$0', typed: '.', offers: ['net2'] },
    { text: 'use "$0"', typed: '"', only: [] },
  ]);
});

describe('an editor', () => {
  it('may have no snippets, and is sent plain text', async () => {
    const asking = await Asking.start({}, {});
    const { items, taken } = await asking.aboard('dev$0');
    expect(items.filter((item) => item.insertTextFormat === 2)).toEqual([]);
    expect(taken('device')).toBe('device ');
    asking.stop();
  });

  it('may tell inserting from replacing', async () => {
    const asking = await Asking.start({}, { completionItem: { insertReplaceSupport: true } });
    const { items } = await asking.aboard('device x : Te$0rn at helm');
    const line = BOAT.split('\n').length - 1;
    const range = (end: number): object => ({
      start: { line, character: 11 },
      end: { line, character: end },
    });
    expect(items[0]?.textEdit).toEqual({ newText: 'Tern13', insert: range(13), replace: range(15) });
    asking.stop();
  });

  it('is sent what stands above a declaration', async () => {
    const asking = await Asking.start();
    const { items } = await asking.aboard('device x : $0');
    const documented = items.find((item) => item.label === 'Tern13')?.documentation;
    expect(documented).toEqual({ kind: 'plaintext', value: 'Hosts a high-definition transducer.' });
    asking.stop();
  });
});
