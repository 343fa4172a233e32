import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import { csv, json } from '../../src/cli/list/data.js';
import { LIST_KINDS } from '../../src/cli/list/kinds.js';
import { columnsFor, type Listed, type ListKind } from '../../src/cli/list/listing.js';
import { markdown, table } from '../../src/cli/list/table.js';
import { PLAIN } from '../../src/cli/terminal/colours.js';
import { kittiwake } from './boats.js';
import { documented, faults } from './schemas.js';

const vessel = kittiwake().vessels[0];

function listed(what: string): { kind: ListKind; list: Listed } {
  const kind = LIST_KINDS.find((candidate) => candidate.what === what);
  if (!kind || !vessel) throw new Error(`There is no list of ${what}.`);
  return { kind, list: kind.list(vessel, (spot) => vessel.places.find(spot), []) };
}

function rows(what: string): Record<string, unknown>[] {
  const { kind, list } = listed(what);
  return JSON.parse(json(kind, list)) as Record<string, unknown>[];
}

describe.each(LIST_KINDS.map((kind) => kind.what))('list %s', (what) => {
  it('has the JSON that its schema says', () => {
    const all = rows(what);
    expect(all.length).toBeGreaterThan(0);
    const validate = documented(`list-${what}.schema.json`);
    expect(faults(validate, all)).toEqual([]);
    const [first = {}] = all;
    for (const field of Object.keys(first)) {
      const rest = Object.fromEntries(Object.entries(first).filter(([name]) => name !== field));
      expect(faults(validate, [rest]), `without ${field}`).not.toEqual([]);
    }
  });

  it('has its columns as fields', () => {
    const { kind } = listed(what);
    const fields = columnsFor(kind, 'data').map((column) => column.field);
    expect(Object.keys(rows(what)[0] ?? {})).toEqual([...fields, ...Object.keys(kind.detailSchema ?? {})]);
    expect(fields.filter((field) => !/^[a-z][a-zA-Z]*$/.test(field))).toEqual([]);
  });
});

describe('list buses', () => {
  it('has exactly the fields of the format, and null where something is not known', () => {
    const [nav] = rows('buses');
    expect(nav).toEqual({
      name: 'nav',
      cable: 'Trunk',
      devices: 2,
      loadUnits: 4,
      backboneMetres: null,
      dropTotalMetres: 3,
      lowestVolts: null,
      lowestDevice: null,
      ruleOfThumbVolts: null,
      utilisationPercent: 0,
      typicalPercent: 0,
      unknown: 'a span of backbone nav has no length',
      nodes: [
        { device: 'depth', volts: null, atMetres: 10, dropMetres: 2, loadUnits: 4 },
        { device: 'mute', volts: null, atMetres: null, dropMetres: 1, loadUnits: null },
      ],
      talkers: [],
      messages: [],
    });
    expect(listed('buses').list.summary).toBe('1 backbone with 2 devices.');
  });
});

describe('list views', () => {
  it('has exactly the fields of the format', () => {
    const [own, , , unknown] = rows('views');
    expect(own).toEqual({
      screen: 'plotter',
      source: 'keel',
      signal: 'sonar.side',
      visible: true,
      verdict: 'reached',
      by: 'own',
      path: ['keel', 'plotter'],
      needsPowered: [],
      reason: null,
      hops: [
        {
          device: 'plotter',
          port: 'sonar',
          why: 'linked to its port sonar',
          file: 'file:///boats/kittiwake.loft',
          range: { start: { line: 1, character: 7 }, end: { line: 1, character: 14 } },
        },
      ],
    });
    expect(unknown).toMatchObject({ screen: 'bow', source: 'cam', visible: null, verdict: 'unknown' });
    expect(unknown?.['hops']).toEqual([
      { device: 'cam', port: null, why: 'Cam says no port', file: null, range: null },
    ]);
  });

  it('is a table for a reader', () => {
    const { kind, list } = listed('views');
    expect(table(kind, list, PLAIN, undefined)).toBe(
      `Screen   Source  Signal      Shows    By   Path, or why not
-------  ------  ----------  -------  ---  -------------------------------------------------------------
plotter  keel    sonar.side  yes      own  keel - plotter
plotter  cam     video       no            cam is linked to nothing
bow      keel    sonar.side  no            bow.sonar accepts standard grade, and keel is high-definition
bow      cam     video       unknown       Cam says no port

4 views: 1 visible, 2 not, 1 unknown.
`,
    );
  });
});

describe('the other lists', () => {
  it('say what is known and leave open what is not', () => {
    expect(rows('sources')).toEqual([
      {
        source: 'keel',
        model: 'BeamHD',
        zone: 'bow',
        signal: 'sonar.side',
        grade: 'hd',
        seenBy: ['plotter'],
        unknownOn: [],
      },
      {
        source: 'cam',
        model: null,
        zone: null,
        signal: 'video',
        grade: null,
        seenBy: [],
        unknownOn: ['bow'],
      },
    ]);
    expect(
      rows('ports').map((row) => [row['device'], row['port'], row['plug'], row['free'], row['on']]),
    ).toEqual([
      ['hub', '1', null, false, ['bow.net']],
      ['hub', '2', null, true, []],
      ['radio', 'fist', 'handset', true, []],
    ]);
    expect(rows('cables')).toMatchObject([
      {
        id: 'bow.sonar--keel.plug',
        from: 'keel.plug',
        to: 'bow.sonar',
        label: 'T1',
        neededMetres: 6.504,
        piecesMetres: [5, 2],
        captiveMetres: null,
        unknown: null,
      },
      {
        id: 'bow.net--hub.1',
        from: '?',
        to: 'bow.sonar',
        label: null,
        medium: null,
        neededMetres: null,
        captiveMetres: 9,
        unknown: 'cam has no zone',
      },
    ]);
    expect(rows('needs')).toEqual([
      {
        need: 'bow show keel',
        met: false,
        reason: 'bow.sonar accepts standard grade, and keel is high-definition',
        file: 'file:///boats/kittiwake.loft',
        line: 5,
      },
      { need: 'house last 6 h', met: null, reason: 'not judged yet', file: null, line: null },
    ]);
    expect(rows('coverage')).toEqual([
      { kind: 'device', name: 'bow', covered: true, by: ['bow show keel'] },
      { kind: 'link', name: 'bow.net--hub.1', covered: false, by: [] },
    ]);
  });

  it('tell of feeds what the format says, and null where something is not known', () => {
    expect(rows('feeds')).toEqual([
      {
        number: '', // no feed of the vessel itself
        from: 'panel.1',
        to: 'bow.power',
        label: 'F1',
        lengthMetres: 3,
        typicalAmps: 1,
        maxAmps: 2,
        ampacityAmps: 35,
        dropVolts: 0.1235,
        dropPercent: 1.029,
        allowedPercent: 3,
        loadVolts: 11.8765,
        marginToLowest: 3.14,
        marginToCollapse: 1000,
        unknown: null,
        wire: { size: '14 AWG', computed: true, other: '2.5 mm2', governedBy: 'drop' },
        protection: [{ device: 'fuse', amps: 5, type: 'blade', at: 'panel', computed: false }],
      },
      {
        number: '', // no feed of the vessel itself
        from: 'panel.2',
        to: 'cam.power',
        label: null,
        lengthMetres: null,
        typicalAmps: null,
        maxAmps: null,
        ampacityAmps: null,
        dropVolts: null,
        dropPercent: null,
        allowedPercent: null,
        loadVolts: null,
        marginToLowest: null,
        marginToCollapse: null,
        unknown: 'Cam does not say what it draws',
        wire: { size: null, computed: true, other: null, governedBy: null },
        protection: [],
      },
    ]);
    expect(listed('feeds').list.summary).toBe('2 feeds: 1 wire worked out, 1 with something unknown.');
    expect(listed('wires').list.summary).toBe('2 wires of two conductors, 6.0 m in all, 1 of unknown size.');
  });

  it('tell of loads by their average, and null where something is not known', () => {
    const common = { mode: null, state: 'on', dutyPercent: 100, banks: [] };
    expect(rows('loads')).toEqual([
      {
        ...common,
        device: 'bow',
        terminal: 'bow.power',
        typicalAmps: 1,
        maxAmps: 2,
        maxDutyPercent: 25,
        averageAmps: 1.25,
        missing: null,
      },
      {
        ...common,
        device: 'cam',
        terminal: 'cam.power',
        typicalAmps: null,
        maxAmps: null,
        maxDutyPercent: 0,
        averageAmps: null,
        missing: 'Cam does not say what it draws',
      },
    ]);
    expect(listed('loads').list.summary).toBe('2 loads in 1 mode: 1 with something unknown.');
  });

  it('tell of energy mode by mode and day by day', () => {
    const none = {
      outAmpHours: null,
      inAmpHours: null,
      lowestPercent: null,
      comesBack: null,
      daysToDepth: null,
    };
    expect(rows('energy')).toEqual([
      // 50 Ah at 5 A.
      {
        ...none,
        bank: 'house',
        mode: 'night',
        day: null,
        usableAmpHours: 50,
        averageAmps: 5,
        hoursLow: 10,
        hoursHigh: 10,
        unknown: null,
      },
      // 20 Ah a day, and nothing charges: over 50 Ah on the third.
      {
        bank: 'house',
        mode: null,
        day: 'away',
        usableAmpHours: null,
        averageAmps: null,
        hoursLow: null,
        hoursHigh: null,
        outAmpHours: 20,
        inAmpHours: 0,
        lowestPercent: 80,
        comesBack: false,
        daysToDepth: 3,
        unknown: null,
      },
    ]);
  });

  it('never count a missing price as nought', () => {
    const { list } = listed('parts');
    expect(list.summary).toBe('3 lines, together 1200 USD; 1 without a price.');
    expect(rows('parts')[1]).toMatchObject({ unitPrice: null, totalPrice: null, currency: null });
  });
});

describe('comma-separated values', () => {
  const { kind, list } = listed('parts');
  const text = csv(kind, list);

  it('follow RFC 4180', () => {
    expect(text.split('\r\n')).toEqual([
      'kind,model,title,part,lengthMetres,quantity,unitPrice,totalPrice,currency,existing',
      'device,Tern8,"8-inch, ""sunlight"" display",\'-TRN-8,,1,1200,1200,USD,false',
      'cable,Patch,,,2,3,,,,false',
      "device,OldWind,'=cmd(),,,1,,,,true",
      '',
    ]);
  });

  it.each(['=1+1', '+1', '-1', '@x', '\tx', '\rx'])('make %j harmless', (title) => {
    const only = { kind: 'device', model: 'M', title, quantity: -1 };
    const cells = csv(kind, { rows: [only], summary: '' }).split('\r\n')[1] ?? '';
    expect(cells).toContain(`'${title}`);
    expect(cells.split(',')[5]).toBe('-1');
  });
});

describe('tables', () => {
  const { kind, list } = listed('views');

  it.each([100, 80, 60])('fit %d columns', (width) => {
    const text = table(kind, list, PLAIN, width);
    const body = text.split('\n').slice(0, -3);
    expect(Math.max(...body.map((line) => stringWidth(line)))).toBeLessThanOrEqual(width);
    // Nothing is lost by wrapping: every word of a cell is still there.
    for (const word of 'bow.sonar accepts standard grade, and keel is high-definition'.split(' '))
      expect(text).toContain(word);
  });

  it('keep columns aligned under wide characters', () => {
    const wide = {
      ...list,
      rows: list.rows.map((row, index) => (index === 0 ? { ...row, screen: '船橋' } : row)),
    };
    const lines = table(kind, wide, PLAIN, undefined).split('\n');
    expect(stringWidth((lines[2] ?? '').split('keel')[0] ?? '')).toBe(
      stringWidth((lines[3] ?? '').split('cam')[0] ?? ''),
    );
  });

  it('have no column that is empty, and keep texts with commas apart', () => {
    const rows = [{ kind: 'device', name: 'bow', covered: true, by: ['a, b show c', 'd'] }];
    const { kind: coverage } = listed('coverage');
    expect(table(coverage, { rows, summary: '' }, PLAIN, undefined)).toContain('a, b show c; d');
    const bare = table(coverage, { rows: [{ ...rows[0], by: [] }], summary: '' }, PLAIN, undefined);
    expect(bare.split('\n')[0]).toBe('Kind    Name  Covered');
    expect(table(coverage, { rows: [], summary: '' }, PLAIN, undefined)).toContain('Kind  Name  Covered  By');
  });

  it('have no character that a terminal acts upon', () => {
    const nasty = { ...list, rows: list.rows.map((row) => ({ ...row, source: 'a\u001b[2J\nb' })) };
    // eslint-disable-next-line no-control-regex -- the character that must not be there
    expect(table(kind, nasty, PLAIN, undefined)).not.toMatch(/\u001b/);
  });

  it('are escaped in Markdown', () => {
    const odd = { ...list, rows: list.rows.slice(0, 1).map((row) => ({ ...row, source: 'a|b<i>*x*' })) };
    expect(markdown(kind, odd).split('\n').slice(0, 3)).toEqual([
      '| Screen | Source | Signal | Shows | By | Path, or why not |',
      '| --- | --- | --- | --- | --- | --- |',
      '| plotter | a\\|b\\<i\\>\\*x\\* | sonar.side | yes | own | keel - plotter |',
    ]);
  });
});
