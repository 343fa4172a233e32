/** What is offered where: marked texts, what must be there, what must not. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Asking } from './offered.js';

let asking: Asking;
beforeAll(async () => {
  asking = await Asking.start({ 'catalogue.loft': '' });
});
afterAll(() => {
  asking.stop();
});

/** Marked text behind the boat; words that must be offered; words that must not. */
const ABOARD: readonly (readonly [what: string, text: string, offered: string, not: string])[] = [
  ['free ports of a fitting medium after a dot', 'link skua -- hub.$0', '3 4 5', '1 2 power'],
  ['only the port that is free', 'link skua -- plotter.$0', 'net2', 'net1 sonar n2k power'],
  ['no port that would refuse the grade', 'link spareBeam -- bowScreen.$0', '', 'sonar net n2k power'],
  ['ways that are free for a feed', 'feed panel.$0', '2 4 8', '1 3 in'],
  ['inputs at the end of a feed', 'feed panel.2 -> hub.$0', 'power', '1 2 3'],
  ['backbone ports on a tee', 'backbone aft { terminator tee compass.$0', 'n2k', ''],
  ['devices with a free port for a link', 'link $0', 'skua hub spareBeam', 'house panel'],
  ['models for a device', 'device x : $0', 'Tern13 Tern16 Panel8', 'SealedNet helm Tern display'],
  ['zones after at', 'device x : Tern13 at $0', 'bow helm cabin', 'hub Tern13'],
  [
    'cables of the medium after using',
    'link skua -- hub.3 using $0',
    'SealedNet PatchCord',
    'MicroTrunk Coax8X',
  ],
  ['named runs after by', 'link skua -- hub.3 by $0', 'gunwale', 'helm'],
  ['joints after join', 'link skua -- hub.3 join $0', 'Coupler', 'Tern13 SealedNet'],
  ['screens that a need can be about', 'need $0', 'plotter bowScreen spare cost', 'helm'],
  ['sources after show', 'need plotter show $0', 'keel sonar chart', 'helm abyc'],
  ['signals that a device gives after a dot', 'need plotter show keel.$0', 'side down', 'heading wind'],
  ['batteries that can last', 'need house last 6 h in $0', 'drifting underWay', 'house helm'],
  ['media of spare ports', 'need spare 2 $0', 'ethernet', 'helm'],
  ['switches of batteries after set', 'mode x { set $0', 'selector', 'plotter house'],
  ['positions of a switch', 'mode x { set selector $0', '1 2 both off', 'plotter'],
  ['exposures of a zone', 'zone x $0', 'exposed sheltered interior machinery', 'bow'],
  ['sides of a zone', 'zone x exposed side $0', 'port starboard', 'exposed'],
  ['clauses of a link not yet given', 'link skua -- hub.3 using SealedNet $0', 'length label allow', 'using'],
  ['units that are lengths', 'link skua -- hub.3 length 3 $0', 'm ft in', 'V A kHz'],
  ['units that are currents', 'feed panel.2 -> hub fuse 3 $0', 'A', 'm V'],
  ['conductor sizes after wire', 'feed panel.2 -> hub wire $0', '', 'm V'],
  ['rules that can be waived', 'link skua -- hub.3 allow $0', 'cable/not-sealed', 'type/medium syntax'],
  ['edits of an option', 'option x { $0', 'add remove change', 'device'],
  ['models to change to', 'option x { change bowScreen : $0', 'Tern13 Tern16', 'BeamHD'],
  ['nothing in a comment', '// link $0', '', 'plotter device'],
];

describe('aboard', () => {
  it.each(ABOARD)('%s', async (_what, text, offered, not) => {
    const { labels, items } = await asking.aboard(text);
    const words = (list: string): string[] => list.split(' ').filter(Boolean);
    expect(labels).toEqual(expect.arrayContaining(words(offered)));
    expect(labels.filter((label) => words(not).includes(label))).toEqual([]);
    expect(
      items.filter((item) => !item.detail || item.detail.includes('\n')).map((item) => item.label),
    ).toEqual([]);
  });

  it('offers the hosts that accept the grade, and no other', async () => {
    const { labels } = await asking.aboard('device wide : Tern13 at helm\nlink spareBeam -- $0');
    expect(labels).toContain('wide');
    expect(labels.filter((label) => ['bowScreen', 'hub', 'plotter', 'house'].includes(label))).toEqual([]);
  });

  it('says of a port what it is, and that it is free', async () => {
    const { detail } = await asking.aboard('link skua -- hub.$0');
    expect(detail('3')).toContain('ethernet');
    expect(detail('3')).toContain('free');
  });

  it('replaces the half-typed word, not more', async () => {
    const { taken } = await asking.aboard('link skua -- hu$0 using SealedNet');
    expect(taken('hub')).toBe('link skua -- hub using SealedNet');
  });
});

/** A catalogue of its own: what a model may have. */
const CATALOGUE: readonly (readonly [what: string, text: string, offered: string, not: string])[] = [
  ['classes of a model', 'model X : $0', 'display switch battery', 'Tern13 helm'],
  [
    'properties of its class that are not given',
    'model X : battery { voltage 12 V $0',
    'capacity chemistry port',
    'voltage screen shows',
  ],
  [
    'features of a medium',
    'model X : display { port net : ethernet $0',
    'sealed captive poe',
    'listens draws accepts',
  ],
  ['media of a port', 'model X : display { port net : $0', 'ethernet nmea2000 dc coax', 'display'],
  ['signals', 'model X : gnss { gives $0', 'position heading', 'display'],
  ['chemistries', 'model X : battery { chemistry $0', 'agm lfp', 'abyc'],
  ['no device in a catalogue', '$0', 'model cable family use', 'device link zone feed'],
  ['properties of a cable', 'cable X : ethernet { $0', 'stock sealed od', 'voltage'],
];

describe('in a catalogue', () => {
  it.each(CATALOGUE)('%s', async (_what, text, offered, not) => {
    const { labels } = await asking.at(
      'catalogue.loft',
      `family Tern\nmodel Tern13 : display { port net : ethernet  shows chart }\n${text}`,
    );
    const words = (list: string): string[] => list.split(' ').filter(Boolean);
    expect(labels).toEqual(expect.arrayContaining(words(offered)));
    expect(labels.filter((label) => words(not).includes(label))).toEqual([]);
  });
});
