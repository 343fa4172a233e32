/**
 * Failures against the boat with the element crossed out, element by element: needs, views, power and voltages, on the examples and on
 * random boats. The boat without it is a fresh one, and goes through the ordinary analysis; what of it has power is told by the circuit.
 */
import { join } from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Failure } from '../../../src/checks/analysis.js';
import { createContext, type Context } from '../../../src/checks/context.js';
import { computeFailures } from '../../../src/checks/failures/failures.js';
import { vesselWires } from '../../../src/checks/power/circuit/vesselCircuit.js';
import { openProject } from '../../../src/language/project/open.js';
import type { Model, Vessel } from '../../../src/vessel/model.js';
import { crossedOut, withoutBackbone, withoutDevice } from '../../support/crossedOut.js';
import { CABLES, MODELS } from '../../support/fleet.js';
import { build, recipes, type Recipe } from '../../support/randomBoat.js';
import { need, view } from '../../support/text.js';
import { boat, tap } from '../../support/vessel.js';

const met = {
  boats: 0,
  elements: 0,
  needsLost: 0,
  viewsLost: 0,
  dark: 0,
  enginesLost: 0,
  silentBuses: 0,
  otherPath: 0,
  voltages: 0,
  lowered: 0,
  collapses: 0,
};

/** Devices and backbones that have power as the boat lies, by the circuit of the whole boat or of what is left of it. */
function powered(
  whole: Context,
  left: Context,
): {
  readonly devices: Set<string>;
  readonly buses: Set<string>;
  readonly isStarted: (terminal: string) => boolean;
} {
  const { isAlive } = vesselWires(left, left.supply.stateIn(), { kind: 'nominal' });
  const isLive = (terminal: string): boolean => left.supply.terminals.has(terminal) && isAlive(terminal);
  const buses = new Set(
    left.vessel.backbones.flatMap(({ name }) => {
      const ids = [...whole.supply.terminals.values()].flatMap((one) =>
        one.kind === 'bus' && one.backbone.name === name && whole.supply.edgesAt(one.id).length > 0
          ? [one.id]
          : [],
      );
      return ids.every(isLive) ? [name] : [];
    }),
  );
  const devices = new Set<string>();
  const waiting = left.vessel.devices.filter((one) => !one.leaving).map(({ name }) => name);
  for (let size = -1; size !== devices.size;) {
    size = devices.size;
    for (const name of waiting)
      if (hasPower(name, { whole, left, isLive, buses, devices })) devices.add(name);
  }
  return { devices, buses, isStarted: isLive };
}

interface Ground {
  readonly whole: Context;
  readonly left: Context;
  readonly isLive: (terminal: string) => boolean;
  readonly buses: ReadonlySet<string>;
  readonly devices: ReadonlySet<string>;
}

const PASSIVE = ['panel', 'busbar', 'shunt', 'joint', 'batteryswitch', 'combiner', 'chargesplitter'];

function hasPower(name: string, { whole, left, isLive, buses, devices }: Ground): boolean {
  const model = whole.lookup.modelOf(name);
  const ports = model === undefined || PASSIVE.includes(model.class) ? [] : model.ports;
  const takes = ports.filter(
    ({ medium, dc }) => medium === 'dc' && dc?.cranks === undefined && (dc?.direction ?? 'in') === 'in',
  );
  const fed = takes.map((port) => `${name}.${port.name}`).filter((id) => whole.supply.edgesAt(id).length > 0);
  if (fed.some(isLive)) return true;
  const givers = (context: Context): string[] =>
    context.wiring.links.flatMap(({ a, b, state }) => {
      if (state !== 'made' || a === undefined || b === undefined) return [];
      const [own, other] = a.device === name ? [a, b] : [b, a];
      const carries =
        own.port.powered || (own.port.poe?.role === 'wants' && other.port.poe?.role === 'gives');
      return own.device === name && carries ? [other.device] : [];
    });
  if (givers(left).some((one) => devices.has(one))) return true;
  const ownSupply = fed.length + givers(whole).length + takes.length > 0;
  const busesOf = (context: Context): string[] =>
    context.wiring.backbones.flatMap(({ backbone, members }) =>
      members.some((one) => one.device === name) ? [backbone.name] : [],
    );
  const tapped = busesOf(whole).filter((bus) =>
    whole.vessel.backbones.some((one) => one.name === bus && one.items.some((item) => item.kind === 'tap')),
  );
  if (!ownSupply && tapped.length > 0) return busesOf(left).some((bus) => buses.has(bus));
  return fed.length + givers(whole).length === 0;
}

/** Least volts at every load over all modes with the banks at their lowest. */
function leastVolts({ loads, circuits }: Context): Map<string, number> {
  const least = new Map<string, number>();
  for (const mode of loads.modes)
    for (const { solution, circuit } of circuits.parts(mode, { kind: 'lowest' })) {
      if (solution.kind === 'collapsed') for (const { id } of circuit.loads) least.set(id, -Infinity);
      if (solution.kind === 'solved')
        for (const [id, volts] of solution.loadVolts)
          least.set(id, Math.min(volts, least.get(id) ?? Infinity));
    }
  return least;
}

/** What is aboard does not change its wires as something fails: those that are left to the tool are written down. */
function asBuilt(vessel: Vessel): Vessel {
  const { sizing, supply } = createContext(vessel);
  const wire = (origin: string) => {
    const edge = supply.edgeOf(origin);
    const size = edge?.size === undefined && edge ? sizing.sizeOf(edge) : undefined;
    return size === undefined ? {} : { wire: size };
  };
  return {
    ...vessel,
    feeds: vessel.feeds.map((feed) => ({ ...feed, ...wire(feed.origin) })),
    backbones: vessel.backbones.map((one) => ({
      ...one,
      items: one.items.map((item) =>
        item.kind === 'tap' ? { ...item, conductor: { ...item.conductor, ...wire(item.origin) } } : item,
      ),
    })),
  };
}

/** What is left of a boat, and the same without what is dark as well once that is asked for. */
interface Left {
  readonly context: Context;
  readonly after: ReturnType<typeof powered>;
  bare?: Context;
}

function leftOf(left: Vessel, whole: Context): Left {
  const context = createContext(left);
  return { context, after: powered(whole, context) };
}

function compareAll(vessel: Vessel): void {
  const whole = createContext(vessel);
  const before = powered(whole, whole);
  const { failures, voltages } = computeFailures(whole);
  const lowest = new Map<string, number>();
  const normal = leastVolts(whole);
  // A fuse that opens takes its feed: what is left is the same boat, and is looked at once.
  const known = new Map<string, Left>();
  for (const failure of failures) {
    const left = crossedOut(vessel, failure);
    const { origin } = failure.spot;
    const isSupply = failure.kind === 'feed' || failure.kind === 'fuse';
    const key = isSupply
      ? JSON.stringify([origin, left.feeds.find((one) => one.origin === origin)?.to])
      : `${failure.kind} ${failure.name} ${failure.spot.part ?? ''}`;
    const found = known.get(key) ?? leftOf(left, whole);
    known.set(key, found);
    const { context, after } = found;
    const dark = [...before.devices].filter((name) => name !== failure.name && !after.devices.has(name));
    const label = `without ${failure.kind} ${failure.name}`;
    expect(failure.devicesDark, label).toEqual(dark.sort());
    const silent = left.backbones.filter(({ name }) => before.buses.has(name) && !after.buses.has(name));
    const bare = silent.reduce(
      (one, { name }) => withoutBackbone(one, name),
      dark.reduce(withoutDevice, left),
    );
    found.bare ??= bare === left ? context : createContext(bare);
    judge(whole, failure, context, found.bare);
    const starts = ({ isStarted }: typeof before): string[] =>
      whole.loads.starters.flatMap(({ terminal, device }) => (isStarted(terminal) ? [device] : []));
    const still = starts(after);
    const stuck = starts(before).filter((name) => name !== failure.name && !still.includes(name));
    expect(failure.enginesLost, label).toEqual([...new Set(stuck)].sort());
    met.enginesLost += stuck.length;
    met.dark += dark.length;
    met.silentBuses += silent.length;
    for (const [id, volts] of leastVolts(context)) {
      const device = id.startsWith('backbone ') ? id : id.slice(0, id.lastIndexOf('.'));
      if (!dark.includes(device)) lowest.set(id, Math.min(volts, lowest.get(id) ?? Infinity));
    }
  }
  for (const { terminal, device, lowestVolts, normalVolts, collapsing, failure } of voltages()) {
    if (terminal.startsWith('backbone ') || lowestVolts === undefined) continue;
    const expected = lowest.get(terminal) ?? Infinity;
    if (expected === -Infinity) expect(collapsing, terminal).not.toEqual([]);
    else {
      expect(lowestVolts, `${device} at its lowest`).toBeCloseTo(
        Math.min(expected, normal.get(terminal) ?? Infinity),
        4,
      );
      expect(collapsing).toEqual([]);
    }
    met.voltages++;
    if (expected === -Infinity) met.collapses++;
    if (failure !== undefined && lowestVolts < (normalVolts ?? Infinity)) met.lowered++;
  }
  met.boats++;
}

/** What hangs on the supply alone is told by the boat without the element; what hangs on data, without what is dark as well. */
function judge(base: Context, failure: Failure, left: Context, bare: Context): void {
  const label = `without ${failure.kind} ${failure.name}`;
  const lost = base.needs.filter(({ met: held, index }) => {
    const kind = base.vessel.needs[index]?.kind;
    const now = kind === 'last' ? left : bare;
    return held === true && kind !== 'cost' && now.needs[index]?.met !== true;
  });
  expect([...failure.needsLost].sort(), label).toEqual(lost.map(({ text }) => text).sort());
  const panes = ({ panes: found }: Context): Map<string, boolean> => {
    const all = new Map<string, boolean>();
    for (const { view: one, pane, shown } of found) {
      const name = `${one.name}/${pane.name}`;
      all.set(name, (all.get(name) ?? true) && shown.visible === true);
    }
    return all;
  };
  const still = panes(bare);
  const gone = [...panes(base)].flatMap(([name, seen]) => (seen && still.get(name) !== true ? [name] : []));
  expect([...failure.viewsLost].sort(), label).toEqual(gone.sort());
  met.elements++;
  met.needsLost += lost.length;
  met.viewsLost += gone.length;
  met.otherPath += failure.otherPath.length;
}

const EXAMPLES = join(import.meta.dirname, '..', '..', '..', 'examples');

describe('a failure equals the boat with the element crossed out', () => {
  it.each(['kittiwake/kittiwake', 'openboat/dunlin', 'sailing/whimbrel', 'motoryacht/razorbill'])(
    'on %s',
    async (name) => {
      const { report } = await openProject([join(EXAMPLES, `${name}.loft`)], {
        root: EXAMPLES,
        today: '2026-06-01',
      });
      const vessel = report.vessels[0]?.analysis.vessel;
      if (!vessel) throw new Error(`${name} is no vessel`);
      compareAll(asBuilt(vessel));
    },
    60_000,
  );

  it('on 200 random boats', () => {
    fc.assert(
      fc.property(recipes, supplies, (recipe, supply) => {
        // Of a boat with more aboard it takes long, and teaches no more.
        compareAll(supplied({ ...recipe, kinds: recipe.kinds.slice(0, 7) }, supply));
      }),
      { numRuns: 200 },
    );
    console.log('failures beside the boat with the element crossed out:', JSON.stringify(met));
    // Engines are aboard the examples alone.
    for (const [what, count] of Object.entries(met))
      expect(count, what).toBeGreaterThan(what === 'enginesLost' ? 5 : 20);
  }, 240_000);
});

// ---------------------------------------------------------------- random boats with a supply

interface Supply {
  readonly second: boolean;
  readonly panels: readonly number[];
  readonly ways: readonly number[];
  readonly twice: readonly boolean[];
  readonly metres: readonly number[];
  readonly amps: readonly number[];
}

const supplies: fc.Arbitrary<Supply> = fc.record({
  second: fc.boolean(),
  panels: fc.array(fc.nat(3), { minLength: 1, maxLength: 3 }),
  ways: fc.array(fc.nat(99), { minLength: 16, maxLength: 16 }),
  twice: fc.array(fc.boolean(), { minLength: 16, maxLength: 16 }),
  metres: fc.array(fc.integer({ min: 1, max: 25 }), { minLength: 24, maxLength: 24 }),
  amps: fc.array(fc.constantFrom(1, 2, 5, 12), { minLength: 6, maxLength: 6 }),
});

/** Models of which the supply is known: what they draw, and the least that they work with. */
function drawing(model: Model, amps: number): Model {
  const bank = { volts: 12, lowestVolts: 11.4, chargesVolts: 14.4, resistanceOhms: 0.01 };
  return {
    ...model,
    ...(model.class === 'battery' ? bank : {}),
    ports: model.ports.map((port) =>
      port.dc === undefined || port.name !== 'power'
        ? port
        : {
            ...port,
            dc: { ...port.dc, draws: { amount: amps * 12, unit: 'W' }, inVolts: { low: 10.5, high: 16 } },
          },
    ),
  };
}

/** The network of a recipe, fed from one or two batteries over busbars, some of them from both sides. */
function supplied(recipe: Recipe, { second, panels, ways, twice, metres, amps }: Supply): Vessel {
  const { vessel: plain } = build(recipe);
  const names = plain.devices.map(({ name }) => name);
  const banks = ['house', ...(second ? ['start'] : [])];
  const bars = panels.map((_, index) => `bar${String(index)}`);
  const devices = [
    ...names.map((name): [string, string] => [
      name,
      plain.devices.find((one) => one.name === name)?.models[0] ?? '',
    ]),
    ...banks.map((name): [string, string] => [name, 'Battery']),
    ...bars.map((name): [string, string] => [name, 'Bar']),
  ];
  const takers = names.filter((_, index) => {
    const model = plain.models[plain.devices[index]?.models[0] ?? ''];
    return (ways[index] ?? 0) < 90 && model?.ports.some(({ medium }) => medium === 'dc') === true;
  });
  const at = (index: number): string => bars[index % bars.length] ?? 'house';
  const feeds = [
    ...bars.flatMap((bar, index) => {
      const whence =
        index === 0 ? 'house' : panels[index] === 0 ? (banks[1] ?? 'house') : (bars[index - 1] ?? 'house');
      const other = twice[index] === true && whence !== banks.at(-1) ? banks.at(-1) : undefined;
      return [`${whence} -> ${bar}`, ...(other === undefined ? [] : [`${other} -> ${bar}`])];
    }),
    ...takers.map((name, index) => `${at(ways[index] ?? 0)} -> ${name}`),
  ];
  const bar = {
    ...(MODELS.find(({ name }) => name === 'Cutoff') ?? MODELS[0]),
    name: 'Bar',
    class: 'busbar',
  } as Model;
  const stud = bar.ports[0];
  const models = [
    ...Object.values(plain.models),
    { ...bar, positions: [], ports: stud === undefined ? [] : [{ ...stud, name: 'stud' }] },
  ].map((model, index) => drawing(model, amps[index % amps.length] ?? 1));
  const all = new Set(names);
  const fed = boat({ models, cables: CABLES, devices: Object.fromEntries(devices), feeds });
  const onTee = (index: number): string | undefined =>
    ways[index] === undefined ? undefined : at(ways[index]);
  return {
    ...plain,
    practice: 'iso',
    models: fed.models,
    devices: fed.devices,
    feeds: fed.feeds.map((feed, index) => ({
      ...feed,
      lengthMetres: metres[index % metres.length] ?? 1,
      wire: { standard: 'mm2', size: '1.5' },
      protections: [
        {
          device: 'fuse',
          amps: 10,
          type: undefined,
          ratedVolts: undefined,
          interruptsAmps: undefined,
          at: feed.from.device,
          afterMetres: undefined,
        },
      ],
    })),
    backbones: plain.backbones.map((one, index) => {
      const from = onTee(index + 14);
      return from === undefined || twice[index] === true
        ? one
        : { ...one, items: [...one.items, tap(one.name, from)] };
    }),
    needs: [
      ...names
        .slice(0, 5)
        .flatMap((one) => [`${one} show chart`, `${one} show sonar`, `${one} hear position`]),
      'spare 3 ethernet',
      'spare 1 transducer',
    ].map((text, index) => ({ ...need(text, all), origin: `need ${String(index)}` })),
    views: names.slice(0, 4).map((one) => view(`V ${one} on ${one} left: sonar right: chart`, all)),
  };
}
