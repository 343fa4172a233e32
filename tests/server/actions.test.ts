/** Code actions through the protocol: what is offered on a finding, and what the text is once it is taken. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Diagnostic } from 'vscode-languageserver';
import type { FakeEditor } from '../support/editor.js';
import { actionsOn, editsOf, findingOf, take, textOf, type Change } from './told/actions.js';
import { BOAT, boatWith, openBoat } from './told/told.js';

let editor: FakeEditor;
beforeAll(async () => {
  editor = await openBoat();
});
afterAll(() => {
  editor.stop();
});

const USE = 'use "gear.loft"  // what is sold';
const BOW_LINK = 'link bowScreen    -- hub.2   using SealedNet';
const GNSS = 'device gnss      : Gnss10    at helm';

interface Case {
  readonly rule: string;
  readonly changes: readonly Change[];
  /** What the line of the finding says. */
  readonly on?: string;
  /** Titles in their order, the preferred one with a star. */
  readonly offers: readonly string[];
  /** The action to take, by the beginning of its title. */
  readonly take: string;
  /** Lines that are new once it is taken. */
  readonly lines: readonly string[];
}

const CASES: readonly (readonly [what: string, Case])[] = [
  [
    'a repair that a rule of the boat offers',
    {
      rule: 'sonar/host-grade',
      changes: [['link keel         -- plotter.sonar', 'link keel -- bowScreen.sonar']],
      offers: ['* Link it to plotter.sonar', 'Allow sonar/host-grade here, with a reason'],
      take: 'Link it',
      lines: ['link keel -- plotter.sonar'],
    },
  ],
  [
    'the nearest name',
    {
      rule: 'type/unknown-name',
      changes: [[BOW_LINK, 'link bowScren -- hub.2 using SealedNet']],
      offers: ['* Change to bowScreen'],
      take: 'Change',
      lines: ['link bowScreen -- hub.2 using SealedNet'],
    },
  ],
  [
    'the unit that is missing',
    {
      rule: 'type/unit',
      changes: [['slack 0.5 m', 'slack 0.5']],
      offers: ['* Add the unit: 0.5 m'],
      take: 'Add the unit',
      lines: ['vessel Gull "9 m catamaran" { practice abyc  currency USD  slack 0.5 m }'],
    },
  ],
  [
    'another port than one that is taken',
    {
      rule: 'type/port-taken',
      changes: [[BOW_LINK, 'link bowScreen -- hub.3 using SealedNet']],
      offers: ['* Use hub.2', 'Use hub.4', 'Use hub.5'],
      take: 'Use hub.2',
      lines: ['link live.net     -- hub.2   using SealedNet length 4 m'],
    },
  ],
  [
    'a waiver at the end of a head, for its author to give the reason',
    {
      rule: 'cable/not-sealed',
      changes: [[BOW_LINK, 'link bowScreen -- hub.2 using PatchCord  // dry so far']],
      offers: ['* Use BulkNet', 'Use SealedNet', 'Allow cable/not-sealed here, with a reason'],
      take: 'Allow',
      lines: [
        'link bowScreen -- hub.2 using PatchCord allow cable/not-sealed because "why it is right here"  // dry so far',
      ],
    },
  ],
  [
    'a waiver before a block',
    {
      rule: 'place/ingress',
      changes: [[GNSS, 'device gnss : Gnss10 at bow { instance 1 }']],
      on: 'gnss',
      offers: ['Allow place/ingress here, with a reason'],
      take: 'Allow',
      lines: [
        'device gnss : Gnss10 at bow allow place/ingress because "why it is right here" { instance 1 }',
      ],
    },
  ],
  [
    'a waiver beside another',
    {
      rule: 'cable/not-sealed',
      changes: [[BOW_LINK, 'link bowScreen -- hub.2 using PatchCord allow cable/too-short because "so"']],
      offers: [],
      take: 'Allow',
      lines: [
        'link bowScreen -- hub.2 using PatchCord allow cable/not-sealed because "why it is right here" allow cable/too-short because "so"',
      ],
    },
  ],
  [
    'a waiver on a view for its pane',
    {
      rule: 'view/not-visible',
      changes: [],
      offers: ['Allow view/not-visible here, with a reason'],
      take: 'Allow',
      lines: [
        'view "Drift" on bowScreen allow view/not-visible because "why it is right here" { left: live  right: position }',
      ],
    },
  ],
  [
    'a use for the one catalogue that declares a model',
    {
      rule: 'type/unknown-name',
      changes: [[GNSS, 'device gnss : Skua9 at helm']],
      offers: ['* Add use "other.loft", which declares Skua9'],
      take: 'Add use',
      lines: ['use "other.loft"'],
    },
  ],
  [
    'a use for a cable',
    {
      rule: 'type/unknown-name',
      changes: [[BOW_LINK, 'link bowScreen -- hub.2 using SkuaNet']],
      offers: ['* Add use "other.loft", which declares SkuaNet'],
      take: 'Add use',
      lines: ['use "other.loft"'],
    },
  ],
  [
    'a choice of uses where two catalogues declare the name',
    {
      rule: 'type/unknown-name',
      changes: [[GNSS, 'device gnss : Shared at helm']],
      offers: ['Add use "more.loft", which declares Shared', 'Add use "other.loft", which declares Shared'],
      take: 'Add use "more',
      lines: ['use "more.loft"'],
    },
  ],
];

describe('quick fixes', () => {
  it.each(CASES)('offer %s', async (_what, { rule, changes, on, offers, take: title, lines }) => {
    const finding = await findingOf(editor, rule, changes, on);
    const actions = await actionsOn(editor, [finding]);
    const titles = actions.map((action) =>
      action.isPreferred === true ? `* ${action.title}` : action.title,
    );
    if (offers.length > 0) expect(titles).toEqual(offers);
    for (const action of actions) {
      expect(action.kind).toBe('quickfix');
      expect(action.diagnostics).toEqual([finding]);
      expect(editsOf(action)).not.toEqual([]);
    }
    const taken = await take(
      editor,
      actions.find((action) => action.title.startsWith(title)),
    );
    expect(taken.lines).toEqual(lines);
    const same = taken.after.filter((d) => d.code === rule && textOf(d).includes(textOf(finding)));
    // A waived finding stays to be seen, as a hint with its reason.
    expect(same.map((d) => d.severity)).toEqual(title === 'Allow' ? [4] : []);
  });

  const RATED: Change = ['slack 0.5 m }', 'slack 0.5 m  wiring 105 C }'];
  const POWER: readonly (readonly [
    what: string,
    rule: string,
    change: Change,
    title: string,
    line: string,
  ])[] = [
    [
      'a larger wire',
      'power/voltage-drop',
      ['feed panel.2 -> bowScreen  fuse 5 A wire 14 AWG', 'feed panel.2 -> bowScreen  fuse 5 A wire 20 AWG'],
      'Use 16 AWG',
      'feed panel.2 -> bowScreen  fuse 5 A wire 16 AWG',
    ],
    [
      'a smaller fuse',
      'power/fuse-over-device',
      ['feed panel.1 -> plotter    fuse 5 A', 'feed panel.1 -> plotter    fuse 15 A'],
      'Use fuse 5 A',
      'feed panel.1 -> plotter    fuse 5 A',
    ],
    [
      'a feed from a free way',
      'power/no-feed',
      ['feed panel.5 -> hub        fuse 2 A\n', ''],
      'Feed hub from panel.5',
      'feed panel.5 -> hub fuse 2 A',
    ],
  ];
  it.each(POWER)('put direct current right with %s', async (_what, rule, change, title, line) => {
    const finding = await findingOf(editor, rule, [RATED, change]);
    const actions = await actionsOn(editor, [finding]);
    const best = actions.find(({ isPreferred }) => isPreferred === true);
    expect(best?.title).toBe(title);
    const { lines, after } = await take(editor, best);
    expect(lines).toEqual([line]);
    // Nothing is wrong with it any more, nor is anything else of direct current that was right before.
    const own = (found: readonly Diagnostic[]): string[] =>
      found
        .filter(({ code }) => String(code).startsWith('power/'))
        .map((one) => textOf(one))
        .sort();
    expect(own(after)).toEqual(own(await editor.change(BOAT, boatWith(RATED))));
  });

  it('put a use under the last one, its remark left where it is', async () => {
    const finding = await findingOf(editor, 'type/unknown-name', [[GNSS, 'device gnss : Skua9 at helm']]);
    await take(editor, (await actionsOn(editor, [finding]))[0]);
    expect(editor.text(BOAT).startsWith(`${USE}\nuse "other.loft"\n\n/// Takes`)).toBe(true);
  });

  it('put a first use above the first declaration and its comment', async () => {
    const head = '// The boat.\n\n';
    const finding = await findingOf(
      editor,
      'type/unknown-name',
      [
        [`${USE}\n\n`, head],
        [GNSS, 'device gnss : Skua9 at helm'],
      ],
      'Skua9',
    );
    const add = (await actionsOn(editor, [finding])).find((action) => action.title.includes('other.loft'));
    await take(editor, add);
    expect(editor.text(BOAT).startsWith(`${head}use "other.loft"\n\n/// Takes her guests`)).toBe(true);
  });

  it('offer no use for a name of another kind', async () => {
    // other.loft declares a model Skua9, which is no cable.
    const finding = await findingOf(editor, 'type/unknown-name', [
      [BOW_LINK, 'link bowScreen -- hub.2 using Skua9'],
    ]);
    expect(
      (await actionsOn(editor, [finding])).filter((action) => action.title.startsWith('Add use')),
    ).toEqual([]);
  });

  it('come as well from a client that drops what travels with a diagnostic', async () => {
    const finding = await findingOf(editor, 'type/unit', [['slack 0.5 m', 'slack 0.5']]);
    const whole = await actionsOn(editor, [finding]);
    const { range, message, code } = finding;
    const bare = await actionsOn(editor, [{ range, message, ...(code === undefined ? {} : { code }) }]);
    expect(bare.map(({ title, edit }) => ({ title, edit }))).toEqual(
      whole.map(({ title, edit }) => ({ title, edit })),
    );
    expect(whole).not.toEqual([]);
  });

  it('are none for a finding that is waived, that is gone, or of a rule that cannot be waived and offers nothing', async () => {
    const changes: Change[] = [[BOW_LINK, 'link bowScreen -- hub.2 using PatchCord']];
    const finding = await findingOf(editor, 'cable/not-sealed', changes);
    await editor.change(BOAT, boatWith());
    expect(await actionsOn(editor, [finding])).toEqual([]);
    const waived = await findingOf(editor, 'cable/not-sealed', [
      [BOW_LINK, 'link bowScreen -- hub.2 using PatchCord allow cable/not-sealed because "dry"'],
    ]);
    expect(waived.severity).toBe(4);
    expect(await actionsOn(editor, [waived])).toEqual([]);
  });

  it('wave each of two like findings where it stands', async () => {
    const found = await editor.change(
      BOAT,
      boatWith(['at transom\ndevice live', 'at transom\ndevice keel2 : BeamHD at transom\ndevice live']),
    );
    const ingress = found.filter((d) => d.code === 'place/ingress');
    expect(ingress.length).toBeGreaterThanOrEqual(2);
    const lines = await Promise.all(
      ingress.map(async (finding) => {
        const waiver = (await actionsOn(editor, [finding])).find((action) =>
          action.title.startsWith('Allow'),
        );
        return waiver && editsOf(waiver)[0]?.range.start.line;
      }),
    );
    expect(lines).toEqual(ingress.map((finding) => finding.range.start.line));
  });
});
