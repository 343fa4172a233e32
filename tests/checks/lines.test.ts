/** NMEA 0183 lines: each rule with its twins, what goes round, and random networks of multiplexers against an oracle of its own. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createContext } from '../../src/checks/context.js';
import type { Line } from '../../src/checks/lines/lines.js';
import { findMessageLoops } from '../../src/checks/lines/loops.js';
import type { MessageRate, Model, Port, SerialPort } from '../../src/vessel/model.js';
import { look, said, twins, unknown } from '../support/twins.js';
import { boat, model, serial, signals, type BoatParts } from '../support/vessel.js';

/** A serial port with some of its facts. */
function ear(name: string, facts: Partial<SerialPort> = {}): Port {
  const plain = serial(name, 'listens');
  return plain.serial === undefined ? plain : { ...plain, serial: { ...plain.serial, ...facts } };
}

function mouth(name: string, sends: readonly MessageRate[], facts: Partial<SerialPort> = {}): Port {
  const plain = serial(name, 'talks');
  return plain.serial === undefined ? plain : { ...plain, sends, serial: { ...plain.serial, ...facts } };
}

const says = (message: string, hertz?: number): MessageRate => ({ message, hertz });
const ALL = [
  ...[says('GGA', 1), says('RMC', 1), says('VTG', 1), says('HDT', 10), says('DPT', 1)],
  ...[says('MWV', 2), says('VHW', 1)],
];
const mux = (name: string, filter?: Model['passes'][number]['filter']): Model =>
  model(name, 'gateway', {
    ports: [ear('in1', { isolated: true }), ear('in2', { isolated: true }), mouth('out', [])],
    passes: [{ from: ['in1', 'in2'], to: 'out', filter }],
  });

const GEAR: readonly Model[] = [
  model('Chatter', 'instrument', { ports: [mouth('talk', ALL)], gives: signals('position') }),
  model('FastChatter', 'instrument', { ports: [mouth('talk', ALL, { talksBaud: 38400 })] }),
  model('Vane', 'instrument', {
    ports: [mouth('talk', [says('MWV', 2)], { drives: 2 })],
    gives: signals('wind'),
  }),
  model('Single', 'instrument', { ports: [mouth('talk', [says('MWV', 2)], { signalling: 'single' })] }),
  model('Ear', 'radio', { ports: [ear('listen', { signalling: 'differential' })] }),
  model('FastEar', 'radio', { ports: [ear('listen', { listensBaud: 38400 })] }),
  model('FloatingEar', 'radio', { ports: [ear('listen', { signalling: 'differential', isolated: true })] }),
  mux('Plain'),
  mux('WindOnly', { kind: 'with', messages: ['MWV'] }),
  mux('NoWind', { kind: 'without', messages: ['MWV'] }),
];

const named = (entries: readonly (readonly [string, string])[]): Record<string, string> =>
  Object.fromEntries(entries);
const parts = (devices: Readonly<Record<string, string>>, links: readonly string[]): BoatParts => ({
  models: GEAR,
  devices,
  links,
});

function linesOf(boatParts: BoatParts): readonly Line[] {
  return createContext(boat(boatParts)).lines;
}

describe('the rules of lines', () => {
  twins(
    'serial/two-talkers',
    'a second talker',
    parts({ v: 'Vane', w: 'Vane', e: 'Ear' }, ['v.talk -- e.listen', 'w.talk -- e.listen']),
    [/^link .*: e\.listen hears v\.talk already, and w\.talk would talk on the same line/],
    parts({ v: 'Vane', w: 'Vane', m: 'Plain', e: 'Ear' }, [
      'v.talk -- m.in1',
      'w.talk -- m.in2',
      'm.out -- e.listen',
    ]),
  );
  twins(
    'serial/baud',
    'slow to fast',
    parts({ v: 'Vane', e: 'FastEar' }, ['v.talk -- e.listen']),
    [/v\.talk talks at 4800 bit\/s and e\.listen listens at 38400 bit\/s/],
    parts({ v: 'Vane', e: 'Ear' }, ['v.talk -- e.listen']),
  );
  twins(
    'serial/budget',
    '484 characters a second on a line of 480',
    parts({ c: 'Chatter', e: 'Ear' }, ['c.talk -- e.listen']),
    [/c\.talk sends 484 characters a second, 100\.8 % of the 480 characters that 4800 bit\/s carry/],
    parts({ c: 'FastChatter', e: 'FastEar' }, ['c.talk -- e.listen']),
  );
  twins(
    'serial/listeners',
    'three where two are driven',
    parts({ v: 'Vane', a: 'Ear', b: 'Ear', c: 'Ear' }, ['v.talk -- a', 'v.talk -- b', 'v.talk -- c']),
    [/v\.talk has 3 listeners, and its driver carries 2/],
    parts({ v: 'Vane', a: 'Ear', b: 'Ear' }, ['v.talk -- a', 'v.talk -- b']),
  );
  twins(
    'serial/signalling',
    'single-ended to differential, and to one that floats',
    parts({ s: 'Single', e: 'Ear' }, ['s.talk -- e.listen']),
    [/B of e\.listen to the signal ground of s\.talk/],
    parts({ s: 'Single', e: 'FloatingEar' }, ['s.talk -- e.listen']),
  );
  twins(
    'serial/loop',
    'a ring, and one that lets nothing round',
    parts({ v: 'Vane', a: 'Plain', b: 'Plain' }, ['v.talk -- a.in1', 'a.out -- b.in1', 'b.out -- a.in2']),
    [/^device a: what a sends comes back to it: a\.out -> b\.in1 -> b\.out -> a\.in2/],
    parts({ v: 'Vane', a: 'WindOnly', b: 'NoWind' }, ['v.talk -- a.in1', 'a.out -- b.in1', 'b.out -- a.in2']),
  );

  it('says what is not stated, and judges nothing by it', () => {
    const vague = model('Vague', 'instrument', { ports: [mouth('talk', [says('MWV')], { talksBaud: 0 })] });
    const unsaid = { ...parts({ v: 'Vague', e: 'Ear' }, ['v.talk -- e.listen']), models: [...GEAR, vague] };
    expect(unknown(unsaid, 'serial/baud')).toEqual(['Vague does not say how fast port talk is']);
    expect(unknown(unsaid, 'serial/budget')).toEqual(['how fast v.talk talks']);
    for (const rule of ['serial/baud', 'serial/budget']) expect(said(unsaid, rule)).toEqual([]);
  });

  it('says that a line is too full although a rate is not known, where the rest is too much already', () => {
    const more = model('More', 'instrument', { ports: [mouth('talk', [...ALL, says('ZDA')])] });
    const full = { ...parts({ c: 'More', e: 'Ear' }, ['c.talk -- e.listen']), models: [...GEAR, more] };
    expect(said(full, 'serial/budget')).toHaveLength(1);
    expect(said(full, 'serial/budget')[0]).toContain('at least 484 characters');
  });
});

describe('bad input', () => {
  it('a talker without a listener is no line, and two listeners make none', () => {
    expect(linesOf(parts({ v: 'Vane', e: 'Ear', f: 'Ear' }, ['e.listen -- f.listen']))).toEqual([]);
  });

  it('a multiplexer that hears itself is one finding', () => {
    const self = parts({ m: 'Plain' }, ['m.out -- m.in1']);
    expect(said(self, 'serial/loop')).toHaveLength(1);
  });

  it('thirty multiplexers that each hear the one before on both inputs come to an end, with finite figures', () => {
    const count = 30;
    const devices = named([
      ['v', 'Vane'],
      ...Array.from({ length: count }, (_, n) => [`m${n}`, 'Plain'] as const),
    ]);
    const links = Array.from({ length: count }, (_, n) => {
      const from = n === 0 ? 'v.talk' : `m${n - 1}.out`;
      return [`${from} -- m${n}.in1`, `${from} -- m${n}.in2`];
    }).flat();
    const found = linesOf(parts(devices, links));
    expect(found).toHaveLength(count);
    for (const line of found) expect(Number.isFinite(line.charactersPerSecond), line.id).toBe(true);
  });

  it('a chain of two thousand ends, and a ring of three hundred is one loop', () => {
    const chain = (count: number, closed: boolean): BoatParts =>
      parts(named([['v', 'Vane'], ...Array.from({ length: count }, (_, n) => [`m${n}`, 'Plain'] as const)]), [
        'v.talk -- m0.in1',
        ...Array.from({ length: count - 1 }, (_, n) => `m${n}.out -- m${n + 1}.in1`),
        ...(closed ? [`m${count - 1}.out -- m0.in2`] : []),
      ]);
    const long = linesOf(chain(2000, false));
    // The last multiplexer talks to nobody; what reaches the one before it is the vane's, as it was said.
    expect(long.find((line) => line.id === 'm1998.out')?.charactersPerSecond).toBe(58);
    const context = createContext(boat(chain(300, true)));
    const loops = findMessageLoops(context.vessel, context.lookup, context.wiring, context.lines);
    expect(loops.map((loop) => loop.gateways.length)).toEqual([300]);
  });
});

/** Inputs of a random network: for each multiplexer, who talks to its two ears, and what it lets through. */
interface Net {
  readonly kinds: readonly ('Plain' | 'WindOnly' | 'NoWind')[];
  /** Talker of each ear: a vane, the chatterer, or another multiplexer by its number. */
  readonly ears: readonly (readonly [number, number])[];
}
const SOURCES = ['v', 'c'];
const NOBODY = -3;

const netOf = (size: number, acyclic: boolean): fc.Arbitrary<Net> => {
  const talker = (at: number): fc.Arbitrary<number> =>
    fc.integer({ min: NOBODY, max: (acyclic ? at : size) - 1 });
  return fc.record({
    kinds: fc.array(fc.constantFrom('Plain', 'WindOnly', 'WindOnly', 'NoWind', 'NoWind'), {
      minLength: size,
      maxLength: size,
    }),
    ears: fc.tuple(...Array.from({ length: size }, (_, at) => fc.tuple(talker(at), talker(at)))),
  });
};

const talkerName = (talker: number): string | undefined =>
  talker === NOBODY ? undefined : talker < 0 ? `${SOURCES[-talker - 1] ?? ''}.talk` : `m${talker}.out`;

function partsOf({ kinds, ears }: Net): BoatParts {
  const devices = named([
    ['v', 'Vane'],
    ['c', 'Chatter'],
    ...kinds.map((kind, n) => [`m${n}`, kind] as const),
    ...kinds.map((_, n) => [`e${n}`, 'Ear'] as const),
  ]);
  const links = ears.flatMap((pair, n) =>
    pair.flatMap((talker, side) => {
      const from = talkerName(talker);
      return from === undefined ? [] : [`${from} -- m${n}.in${side + 1}`];
    }),
  );
  return parts(devices, [...links, ...kinds.map((_, n) => `m${n}.out -- e${n}.listen`)]);
}

/** Published lengths; the oracle reads none of the program's tables. */
const LENGTHS: Readonly<Record<string, number>> = {
  GGA: 67,
  RMC: 70,
  VTG: 43,
  HDT: 19,
  DPT: 24,
  MWV: 29,
  VHW: 32,
};
const SAID: Readonly<Record<number, readonly (readonly [string, number])[]>> = {
  [-1]: [['MWV', 2]],
  [-2]: ALL.map(({ message, hertz }) => [message, hertz ?? 0]),
};
const lets = (kind: Net['kinds'][number] | undefined, message: string): boolean =>
  kind === 'Plain' || (kind === 'WindOnly') === (message === 'MWV');

/** Characters a second of a talker, by following each sentence by itself from where it is said. */
function charactersBy(net: Net, talker: number): number {
  if (talker === NOBODY) return 0;
  const own = SAID[talker];
  if (own !== undefined)
    return own.reduce((sum, [message, hertz]) => sum + (LENGTHS[message] ?? NaN) * hertz, 0);
  return Object.keys(LENGTHS).reduce(
    (sum, message) => sum + timesBy(net, talker, message) * (LENGTHS[message] ?? NaN),
    0,
  );
}

function timesBy(net: Net, talker: number, message: string): number {
  if (talker === NOBODY) return 0;
  const own = SAID[talker];
  if (own !== undefined) return own.find(([one]) => one === message)?.[1] ?? 0;
  if (!lets(net.kinds[talker], message)) return 0;
  return (net.ears[talker] ?? []).reduce((sum, one) => sum + timesBy(net, one, message), 0);
}

/** Whether some sentence can go from a multiplexer back to it, by trying every sentence from every one. */
function goesRound(net: Net): boolean {
  return Object.keys(LENGTHS).some((message) =>
    net.kinds.some((kind, start) => {
      const seen = new Set<number>();
      const queue = lets(kind, message) ? [start] : [];
      for (const at of queue) {
        for (const [next, pair] of net.ears.entries()) {
          if (!pair.includes(at) || !lets(net.kinds[next], message)) continue;
          if (next === start) return true;
          if (!seen.has(next)) queue.push(next);
          seen.add(next);
        }
      }
      return false;
    }),
  );
}

describe('random multiplexers', () => {
  it('send what an oracle adds up sentence by sentence', () => {
    let busy = 0;
    let full = 0;
    fc.assert(
      fc.property(netOf(5, true), (net) => {
        const found = new Map(linesOf(partsOf(net)).map((line) => [line.id, line.charactersPerSecond]));
        net.kinds.forEach((_, n) => {
          const expected = charactersBy(net, n);
          if (expected > 0) busy += 1;
          if (expected > 480) full += 1;
          expect(found.get(`m${n}.out`)).toBeCloseTo(expected, 6);
        });
      }),
      { numRuns: 300 },
    );
    expect(busy, 'lines with something on them').toBeGreaterThan(300);
    expect(full, 'lines that are too full').toBeGreaterThan(30);
  });

  it('have a loop where an oracle takes a sentence round, and only there', () => {
    const met = { loop: 0, ringHeldBack: 0, none: 0 };
    fc.assert(
      fc.property(netOf(4, false), (net) => {
        const round = goesRound(net);
        const open = goesRound({ ...net, kinds: net.kinds.map(() => 'Plain' as const) });
        met[round ? 'loop' : open ? 'ringHeldBack' : 'none'] += 1;
        expect(said(partsOf(net), 'serial/loop').length > 0).toBe(round);
      }),
      { numRuns: 600 },
    );
    for (const [what, times] of Object.entries(met)) expect(times, what).toBeGreaterThan(15);
  });

  it('never break the analysis, whatever is linked to what', () => {
    fc.assert(
      fc.property(netOf(6, false), (net) => {
        for (const finding of look(partsOf(net)).findings)
          expect(finding.message).not.toMatch(/NaN|Infinity|undefined/);
      }),
      { numRuns: 100 },
    );
  });
});
