import { describe, expect, it } from 'vitest';
import { checkedOf } from '../../src/cli/check/checked.js';
import { checkText } from '../../src/cli/check/text.js';
import { type ColourChoice, paintFor, PLAIN } from '../../src/cli/terminal/colours.js';
import { kittiwake } from './boats.js';
import { analysisOf, FOLDER, place, problem, projectReport, vesselOf, vesselReport } from './reports.js';

const plain = { folder: FOLDER, paint: PLAIN, columns: 100 };

describe('the text of a check', () => {
  it('quotes each line, and counts on the last', () => {
    expect(checkText(checkedOf(kittiwake()), plain))
      .toBe(`kittiwake.loft:4:14 error sonar/host-grade: bow cannot host keel: its port sonar accepts standard grade, keel is high-definition.
    4 | link keel -- bow.sonar
      |              ^^^^^^^^^
  tern models.loft:2:2: Tern8 is declared here.
    2 |     model Tern8 : display { colour 1 }
      |     ^^^^^^^^^^^
  repair: Link it to plotter.sonar

kittiwake.loft:5:1 error need/not-met: bow does not show keel.
    5 | need bow show keel
      | ^^^^^^^^^^^^^^^^^^

kittiwake.loft:6:1 waived warning cable/not-sealed: Patch is not sealed.
    6 | link bow -- hub.1 using Patch allow cable/not-sealed because "bench test"
      | ^^^^^^^^^^^^^^^^^
  waived: bench test

kittiwake.loft:1:17 error syntax: A name is wanted.
    1 | vessel Kittiwake
      |                 ^

tern models.loft:2:26 warning type/class-property: A display has no colour.
    2 |     model Tern8 : display { colour 1 }
      |                             ^^^^^^

tern models.loft:2:8 information unused/model: Nothing uses Tern8.
    2 |     model Tern8 : display { colour 1 }
      |           ^^^^^

Not judged, because the spec does not say enough:
  cable/fill
      Patch has no od
      Ext has no od
  place/ingress
      Cam has no ingress

Checked 1 vessel and 1 other file: 40 rules, 3 errors, 1 warning, 1 information, 1 waived, 3 unknown.
`);
  });

  it('of a clean boat is its counts', () => {
    const report = projectReport([
      vesselReport({ analysis: analysisOf({ vessel: vesselOf({ name: 'Tern' }) }) }),
    ]);
    expect(checkText(checkedOf(report), plain)).toBe(
      'Checked 1 vessel: 40 rules, 0 errors, 0 warnings, 0 information, 0 waived, 0 unknown.\n',
    );
  });

  it('tells what an option adds, and does not repeat its base', () => {
    const analysis = analysisOf({ vessel: vesselOf({ name: 'Tern' }) });
    const both = problem({ rule: 'net/loop', place: place('a.loft', 0, 0, 4) });
    const added = problem({ rule: 'net/isolated', place: place('a.loft', 1, 0, 4), option: 'offshore' });
    const report = projectReport(
      [
        vesselReport({ analysis, problems: [both] }),
        vesselReport({ analysis, option: 'offshore', problems: [both, added] }),
      ],
      { 'a.loft': 'link\nlink\n' },
    );
    const text = checkText(checkedOf(report), plain);
    expect(text.match(/net\/loop/g)).toHaveLength(2); // its code and its message
    expect(text).toContain('net/isolated: net/isolated holds. (with option offshore)');
    expect(text).toContain('Checked 1 vessel and 1 option: 40 rules, 2 errors,');
  });

  it('names a few of many unknowns of a rule, each once', () => {
    const missing = ['A', 'B', 'C', 'D', 'E', 'F', 'G', 'A'];
    const unknowns = missing.map((name, index) => ({
      rule: 'cable/fill',
      at: { origin: `link ${index}` },
      missing: `${name} has no od`,
    }));
    const analysis = analysisOf({ vessel: vesselOf({ name: 'Tern' }), unknowns });
    const text = checkText(checkedOf(projectReport([vesselReport({ analysis })])), plain);
    expect(text.split('\n').slice(1, -3)).toEqual([
      '  cable/fill',
      ...['A', 'B', 'C', 'D'].map((name) => `      ${name} has no od`),
      '      and 3 more',
    ]);
    expect(text).toContain(' 8 unknown.');
  });

  it('has a file outside the folder by its whole path, and its counts alone where there is no text', () => {
    const away = { ...place('x.loft', 0, 0, 1), file: 'file:///elsewhere/x.loft' };
    const report = projectReport([], {}, [
      { file: away.file, problems: [problem({ rule: 'use/not-found', place: away })] },
    ]);
    expect(checkText(checkedOf(report), plain)).toBe(
      '/elsewhere/x.loft:1:1 error use/not-found: use/not-found holds.\n\nChecked 1 file: 0 rules, 1 error, 0 warnings, 0 information, 0 waived, 0 unknown.\n',
    );
  });
});

describe('colours', () => {
  const sink = (terminal: boolean) => ({ write: () => undefined, terminal, columns: undefined });
  const colours = (choice: ColourChoice, terminal: boolean, environment: Record<string, string>): boolean =>
    paintFor(choice, sink(terminal), environment) !== PLAIN;

  it.each([
    ['auto', true, {}, true],
    ['auto', false, {}, false],
    ['auto', true, { NO_COLOR: '1' }, false],
    ['auto', true, { NO_COLOR: '' }, true],
    ['auto', true, { TERM: 'dumb' }, false],
    ['always', false, { NO_COLOR: '1' }, true],
    ['never', true, {}, false],
  ] as const)('%s, terminal %s, %o: %s', (choice, terminal, environment, expected) => {
    expect(colours(choice, terminal, environment)).toBe(expected);
  });

  it('change nothing but the colours', () => {
    const painted = checkText(checkedOf(kittiwake()), {
      ...plain,
      paint: paintFor('always', sink(false), {}),
    });
    // eslint-disable-next-line no-control-regex -- the sequences that set colours
    expect(painted.replace(/\u001b\[\d+m/g, '')).toBe(checkText(checkedOf(kittiwake()), plain));
    expect(painted).toContain('\u001b[31merror\u001b[39m');
  });
});
