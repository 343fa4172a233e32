/** Where fault current comes from and what breaks it, over the fixtures of the power rules; and twins written out by hand. */
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import fc from 'fast-check';
import { beforeAll, describe, expect, it } from 'vitest';
import { analyse } from '../../../src/checks/analyse.js';
import { createContext, type Context } from '../../../src/checks/context.js';
import { createProtection } from '../../../src/checks/power/protection/protection.js';
import type { PlacedDevice, SupplyEdge } from '../../../src/checks/power/supply/graph.js';
import { prospectiveAt, prospectiveAtTerminal } from '../../../src/checks/power/protection/prospective.js';
import { openProject } from '../../../src/language/project/open.js';
import type { Vessel } from '../../../src/vessel/model.js';
import { feed } from '../../support/text.js';
import { boat, dc, model } from '../../support/vessel.js';

const rules = fileURLToPath(new URL('../../rules', import.meta.url));
const examples = fileURLToPath(new URL('../../../examples', import.meta.url));
const today = '2026-11-25';
const OURS = /^(?:power|energy|place\/ignition|cable\/noise)/;

async function vesselsOf(root: string, paths: readonly string[]): Promise<readonly Vessel[]> {
  const { report } = await openProject(paths, { root, today });
  return report.vessels.filter(({ option }) => option === null).map(({ analysis }) => analysis.vessel);
}

async function fixture(name: string): Promise<Context> {
  const [vessel] = await vesselsOf(rules, [join(rules, 'power', name)]);
  if (vessel === undefined) throw new Error(`${name} has no vessel`);
  return createContext(vessel);
}

function edge({ supply }: Context, text: string): SupplyEdge {
  const found = supply.edges.find((one) => one.text === text);
  if (found === undefined) throw new Error(`no ${text}`);
  return found;
}

/** A device of some rating at an end, as the tool would fit it. */
const fitted = (amps: number, end: 'from' | number): PlacedDevice => ({
  protection: {
    device: 'fuse',
    amps,
    type: undefined,
    ratedVolts: undefined,
    interruptsAmps: undefined,
    at: undefined,
    afterMetres: undefined,
  },
  index: 0,
  end,
  elsewhere: false,
  amps,
  type: undefined,
  inWay: false,
  afterMetres: 0,
});

describe('gaps', () => {
  let covered: Context;
  beforeAll(async () => {
    covered = await fixture('unprotected-covered.loft');
  });
  const gaps = (text: string, limit?: number): readonly unknown[] =>
    covered.protection
      .gapsOf(edge(covered, text), limit)
      .map(({ end, at, source }) => [end, at, source.device]);

  it('of a conductor between two batteries are at both ends', () => {
    const bare = createProtection(covered.vessel, covered.supply, () => []);
    const between = bare.gapsOf(edge(covered, 'house -> start'));
    expect(between.map(({ end, at }) => [end, at])).toEqual([
      ['from', 'house'],
      [0, 'start'],
    ]);
    // The charger limits itself to 30 A, so that only the battery's end asks for one.
    const charging = bare.gapsOf(edge(covered, 'charge.out -> house'));
    expect(charging.map(({ end, at }) => [end, at])).toEqual([[0, 'house']]);
  });

  it('close behind a device upstream that is small enough, and open behind one that is not', () => {
    expect(gaps('bus -> ways')).toEqual([]);
    expect(gaps('bus -> ways', 50)).toEqual([]);
    expect(gaps('bus -> ways', 49)).toEqual([['from', 'bus', 'house']]);
  });

  it('are none on a starter cable, behind a diode, or behind a converter that limits itself', () => {
    expect(gaps('start -> engine.starter', 1)).toEqual([]);
    expect(gaps('other.charge -> diodes.in', 1)).toEqual([]);
    expect(gaps('own.out -> log', 0.5)).toEqual([]);
  });

  it('close outwards as devices are fitted', () => {
    const chosen = new Map<SupplyEdge, readonly PlacedDevice[]>();
    const protection = createProtection(covered.vessel, covered.supply, (one) => chosen.get(one) ?? []);
    const inwards = protection.outward.map((one) => one.text);
    expect(inwards.indexOf('house -> cutoff')).toBeLessThan(inwards.indexOf('cutoff -> bus'));
    expect(inwards.indexOf('cutoff -> bus')).toBeLessThan(inwards.indexOf('bus -> ways'));
    expect(protection.gapsOf(edge(covered, 'bus -> ways'), 60)).toHaveLength(1);
    chosen.set(edge(covered, 'house -> cutoff'), [fitted(60, 'from')]);
    expect(protection.gapsOf(edge(covered, 'bus -> ways'), 60)).toEqual([]);
    expect(protection.gapsOf(edge(covered, 'bus -> ways'), 59)).toHaveLength(1);
  });
});

describe('the laying of a conductor', () => {
  it('counts what lies in the same loom and is loaded with it', async () => {
    const context = await fixture('fuse-over-wire.loft');
    const two = context.protection.layingOf(edge(context, 'house -> two'));
    expect(two.laying).toEqual({ ratedCelsius: 105, engineSpace: true, loadedConductors: 4 });
    // 60 A of 10 AWG at 105 C, 0.85 in the engine space, 0.6 among four: 30.6 A, at most 45.9 A (33 CFR 183.455).
    const limit = context.protection.wireLimitOf(edge(context, 'house -> two'));
    expect(limit?.ampacityAmps).toBeCloseTo(30.6, 9);
    expect(limit?.amps).toBeCloseTo(45.9, 9);
    // Without a bundle, outside: at most 90 A.
    expect(context.protection.wireLimitOf(edge(context, 'bus -> one'))?.amps).toBeCloseTo(90, 9);
    // What the tool is to size has no written wire.
    expect(context.protection.wireLimitOf(edge(context, 'house -> bus'))).toBeUndefined();
  });
});

describe('the prospective current', () => {
  it('is that of the bank behind its own resistance and both wires', async () => {
    const context = await fixture('interrupting.loft');
    // Two batteries of 4 mohm in parallel: 12 V / 2 mohm.
    expect(prospectiveAt(context, edge(context, 'house -> a'), 'from').amps).toBeCloseTo(6000, 6);
    // The wire of the panel is left to the tool: the same is then a bound.
    const way = prospectiveAt(context, edge(context, 'ways.1 -> d'), 'from');
    expect(way.amps).toBeCloseTo(6000, 6);
    expect(way.bound).toContain('house -> ways');
    // 1 m of 1/0 AWG there and back. Minimum area 98,980 cmil, 10.75 ohm cmil per foot (ABYC E-11):
    // 2 x 3.281 ft x 10.75 / 98,980 = 0.7126 mohm, and 12 V / 2.7126 mohm = 4424 A.
    expect(prospectiveAt(context, edge(context, 'near.1 -> e'), 'from').amps).toBeCloseTo(4423.8, 0);
  });

  it('counts the banks behind a bank', () => {
    // Each 12 V / 4 mohm = 3 kA; 0.5 m of 1/0 AWG there and back is 0.3563 mohm, so 12 / 4.3563 mohm = 2755 A come from the other.
    const post = (name: string) =>
      model(name, 'battery', { volts: 12, resistanceOhms: 0.004, ports: [dc('post')] });
    const wired = (text: string) => ({
      ...feed(text),
      lengthMetres: 0.5,
      wire: { standard: 'AWG' as const, size: '1/0' },
    });
    const context = createContext(
      boat({
        models: [post('Bank'), model('Lamp', 'load', { ports: [dc('power', 'in')] })],
        devices: { one: 'Bank', two: 'Bank', lamp: 'Lamp' },
        more: { practice: 'abyc', feeds: [wired('one -> two'), wired('one -> lamp')] },
      }),
    );
    expect(prospectiveAt(context, edge(context, 'one -> lamp'), 'from').amps).toBeCloseTo(3000 + 2754.6, 0);
    const { supply, vessel, sizing } = context;
    const posts = prospectiveAtTerminal(
      { supply, vessel, protection: sizing.protection },
      'two.post',
      sizing.sizeOf,
    );
    expect(posts.amps).toBeCloseTo(3000 + 2754.6, 0);
    expect(posts.banks.map(({ device }) => device)).toEqual(['one', 'two']);
  });
});

describe('what is found', () => {
  it('is the same in any order of the declarations, over fixtures and examples', async () => {
    const folders = ['power', 'energy'].map((name) => join(rules, name));
    const files = folders.flatMap((folder) => readdirSync(folder).map((name) => join(folder, name)));
    const vessels = [...(await vesselsOf(rules, files)), ...(await vesselsOf(examples, [examples]))];
    let found = 0;
    for (const vessel of vessels) {
      const turned: Vessel = {
        ...vessel,
        devices: [...vessel.devices].reverse(),
        feeds: [...vessel.feeds].reverse(),
        links: [...vessel.links].reverse(),
        backbones: [...vessel.backbones].reverse(),
        modes: [...vessel.modes].reverse(),
        negatives: [...vessel.negatives].reverse(),
      };
      const portrait = (one: Vessel): readonly string[] => {
        const { findings, unknowns } = analyse(one, { today });
        found += findings.filter(({ rule }) => OURS.test(rule)).length;
        return [
          ...findings.map(({ rule, at, message }) => JSON.stringify([rule, at, message])),
          ...unknowns
            .filter(({ rule }) => OURS.test(rule))
            .map(({ rule, at, missing }) => JSON.stringify([rule, at, missing])),
        ].sort();
      };
      expect(portrait(turned)).toEqual(portrait(vessel));
    }
    expect(vessels.length).toBeGreaterThan(40);
    expect(found).toBeGreaterThan(100);
  });
});

describe('a boat of which pieces are missing', () => {
  it('is judged as far as it goes, without a crash and without a figure that is none', async () => {
    const folders = ['power', 'energy'].map((name) => join(rules, name));
    const files = folders.flatMap((folder) => readdirSync(folder).map((name) => join(folder, name)));
    const vessels = [...(await vesselsOf(rules, files)), ...(await vesselsOf(examples, [examples]))];
    let said = 0;
    fc.assert(
      fc.property(
        fc.constantFrom(...vessels),
        fc.array(fc.nat(9), { minLength: 30, maxLength: 30 }),
        (vessel, keys) => {
          const torn = tear(vessel, keys);
          const { findings, unknowns } = analyse(torn, { today });
          const texts = [
            ...findings.map(({ message }) => message),
            ...unknowns.map(({ missing }) => missing),
          ];
          said += texts.length;
          expect(texts.filter((text) => /NaN|Infinity|undefined|\[object/.test(text))).toEqual([]);
        },
      ),
      { numRuns: 300, seed: 7 },
    );
    expect(said).toBeGreaterThan(1000);
  });
});

/** Takes facts, devices and feeds out here and there, as in a spec that is being written. */
function tear(vessel: Vessel, keys: readonly number[]): Vessel {
  let turn = 0;
  const gone = (outOf: number): boolean => (keys[turn++ % keys.length] ?? 0) < outOf;
  const facts = <T extends object>(item: T, names: readonly (keyof T)[]): T => {
    const copy = { ...item };
    for (const name of names) if (gone(2)) Object.assign(copy, { [name]: undefined });
    return copy;
  };
  const models = Object.entries(vessel.models).map(([name, model]) => [
    name,
    {
      ...facts(model, [
        'volts', 'lowestVolts', 'chargesVolts', 'resistanceOhms', 'ccaAmps', 'capacity', 'chemistry', 'carriesAmps',
        'crankingAmps', 'forwardVolts', 'closesVolts', 'efficiency', 'kind',
      ]), // prettier-ignore
      ports: model.ports
        .filter(() => !gone(1))
        .map((port) => ({
          ...port,
          dc:
            port.dc &&
            facts(port.dc, ['inVolts', 'outVolts', 'draws', 'max', 'fuseAmps', 'limitsAmps', 'studs']),
        })),
    },
  ]);
  const devices = vessel.devices
    .filter(() => !gone(1))
    .map((device) => facts(device, ['zone', 'series', 'normally']));
  const aboard = new Set(devices.map(({ name }) => name));
  const end = <T extends { readonly device: string | undefined }>(one: T): T =>
    one.device !== undefined && aboard.has(one.device) ? one : { ...one, device: undefined };
  return {
    ...facts(vessel, ['practice', 'wiringCelsius', 'slackMetres']),
    models: Object.fromEntries(models) as Vessel['models'],
    devices,
    runs: vessel.runs.filter(() => !gone(1)),
    modes: gone(3) ? [] : vessel.modes,
    feeds: vessel.feeds
      .filter(() => !gone(1))
      .map((feed) => ({
        ...facts(feed, ['wire', 'wireRatedCelsius', 'lengthMetres']),
        from: end(feed.from),
        to: feed.to.map(end),
        protections: feed.protections
          .filter(() => !gone(1))
          .map((protection) => facts(protection, ['amps', 'type', 'at', 'afterMetres'])),
      })),
    fuseTypes: gone(1) ? {} : vessel.fuseTypes,
  };
}
