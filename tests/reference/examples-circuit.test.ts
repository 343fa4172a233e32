/**
 * The voltages of the examples against ngspice 45. The netlist is written here from what the boats say, by code that shares nothing
 * with the circuit: only the lengths and sizes are taken over, as `list feeds` prints them.
 */
import { fileURLToPath } from 'node:url';
import { beforeAll, expect, it } from 'vitest';
import { createContext, type Context } from '../../src/checks/context.js';
import { feedResults } from '../../src/checks/power/sizing/feeds.js';
import type { Branch, Circuit, Load, Source } from '../../src/checks/power/solve/circuit.js';
import { openProject } from '../../src/language/project/open.js';
import type { Draw, Mode } from '../../src/vessel/model.js';
import { Spice } from '../support/spice.js';

/** Minimum circular mils (SAE conductors, as ABYC E-11 reckons). */
const CMIL: Readonly<Record<string, number>> = {
  '18': 1537, '16': 2336, '14': 3702, '12': 5833, '10': 9343, '8': 14810, '6': 24538, '4': 37360,
  '2': 62450, '1': 77790, '1/0': 98980, '2/0': 125100, '3/0': 158600, '4/0': 205500,
}; // prettier-ignore

/** Ohms of a metre of one conductor: ABYC 10.75 ohm-cmil/ft on minimum areas, ISO 0.0164 ohm-mm2/m on nominal ones. */
function ohmsOfMetre(text: string, practice: string): number {
  const [size = '', unit] = text.split(' ');
  if (practice === 'abyc') {
    const cmil = unit === 'AWG' ? (CMIL[size] ?? NaN) : (0.9 * Number(size)) / 5.067e-4;
    return 10.75 / (0.3048 * cmil);
  }
  const area =
    unit === 'mm2' ? Number(size) : (Math.PI / 4) * (0.127 * 92 ** ((36 - Number(size)) / 39)) ** 2;
  return 0.0164 / area;
}

interface Judged {
  readonly circuit: Circuit;
  /** Converters by their input: output terminal and efficiency. */
  readonly converters: readonly {
    readonly input: string;
    readonly output: string;
    readonly efficiency: number;
  }[];
}

/** A boat at the lowest voltage of its banks, as the mode has it. Converters' inputs draw `watts`. */
function judgedOf(context: Context, mode: Mode, watts: ReadonlyMap<string, number>): Judged {
  const { vessel, lookup } = context;
  const branches: Branch[] = [];
  const sources: Source[] = [];
  const loads: Load[] = [];
  const converters: { input: string; output: string; efficiency: number }[] = [];
  let number = 0;
  const tie = (a: string, b: string, ohms = 0): void => {
    number += 1;
    branches.push({ id: `p${number}`, a: `${a}+`, b: `${b}+`, ohms });
    branches.push({ id: `n${number}`, a: `${a}-`, b: `${b}-`, ohms: 0 });
  };
  const draw = (at: string, given: Draw | undefined): void => {
    if (given !== undefined && given.amount > 0)
      loads.push({
        id: at,
        plus: `${at}+`,
        minus: `${at}-`,
        kind: given.unit === 'W' ? 'power' : 'current',
        amount: given.amount,
      });
  };
  const charges = mode.duties.some((duty) => duty.kind === 'charge');
  const others = mode.duties.some((duty) => duty.kind === 'others');
  for (const device of vessel.devices) {
    const kind = lookup.modelOf(device.name);
    if (kind === undefined) continue;
    const ports = kind.ports.filter((port) => port.medium === 'dc');
    const names = ports.map((port) => `${device.name}.${port.name}`);
    const [first = '', second = ''] = names;
    const said = mode.duties.find((duty) => duty.kind === 'on' && duty.device === device.name);
    const charged = mode.duties.some((duty) => duty.kind === 'charge' && duty.device === device.name);
    if (kind.class === 'battery')
      sources.push({
        id: device.name,
        plus: `${first}+`,
        minus: `${first}-`,
        volts: (kind.lowestVolts ?? NaN) * (device.series ?? 1),
        ohms: 0,
      });
    else if (['panel', 'busbar', 'joint'].includes(kind.class))
      names.slice(1).forEach((name) => tie(first, name));
    else if (kind.class === 'shunt') tie(first, second, kind.resistanceOhms);
    else if (kind.class === 'combiner') {
      if (charges) tie(first, second);
    } else if (kind.class === 'batteryswitch') {
      const set = mode.duties.find((duty) => duty.kind === 'set' && duty.device === device.name);
      const stands = set?.kind === 'set' ? set.position : device.normally;
      const joins = kind.positions.find((position) => position.name === stands)?.joins ?? [];
      joins.slice(1).forEach((post) => tie(`${device.name}.${joins[0] ?? ''}`, `${device.name}.${post}`));
    } else if (kind.class === 'converter') {
      const gives = ports.find((port) => port.dc?.outVolts !== undefined);
      const takes = ports.find((port) => port !== gives);
      const output = `${device.name}.${gives?.name ?? ''}`;
      const input = `${device.name}.${takes?.name ?? ''}`;
      converters.push({ input, output, efficiency: kind.efficiency ?? NaN });
      sources.push({
        id: output,
        plus: `${output}+`,
        minus: `${output}-`,
        volts: gives?.dc?.outVolts ?? NaN,
        ohms: 0,
      });
      draw(input, { amount: watts.get(input) ?? 0, unit: 'W' });
    } else if (kind.class !== 'chargesplitter') {
      const off = said?.kind === 'on' && said.duty === 0 && !said.atMax;
      const on = said !== undefined ? !off : others || charged;
      for (const [index, port] of ports.entries()) {
        const { dc } = port;
        if (dc?.direction !== 'in' || dc.cranks !== undefined) continue;
        const most = said?.kind === 'on' && said.atMax;
        draw(names[index] ?? '', on ? (most ? (dc.max ?? dc.draws) : (dc.draws ?? dc.max)) : dc.standby);
      }
    }
  }
  for (const backbone of vessel.backbones) {
    let stretch = 0;
    let units = 0;
    let awake = false;
    const close = (): void => {
      const at = stretch === 0 ? `backbone ${backbone.name}` : `backbone ${backbone.name} (${stretch + 1})`;
      if (awake) draw(at, { amount: 0.05 * units, unit: 'A' });
    };
    for (const item of backbone.items) {
      if (item.kind === 'isolate') {
        close();
        stretch += 1;
        units = 0;
        awake = false;
      }
      const ends = item.kind === 'tee' ? [item.end, ...item.branches.map((branch) => branch.end)] : [];
      for (const name of item.kind === 'terminator' ? [item.in] : ends.map((end) => end?.device)) {
        const device = name === undefined ? undefined : lookup.modelOf(name);
        const len = device?.ports.find((port) => port.medium === 'nmea2000')?.len;
        if (len === undefined || name === undefined) continue;
        units += len;
        const said = mode.duties.find((duty) => duty.kind === 'on' && duty.device === name);
        const charged = mode.duties.some((duty) => duty.kind === 'charge' && duty.device === name);
        awake ||= said !== undefined || others || charged;
      }
    }
    close();
  }
  for (const { from, to, lengthMetres, wire } of feedResults(context)) {
    // A wire that is not known counts as none.
    const known = lengthMetres !== undefined && wire.size !== undefined;
    const ohms = known ? lengthMetres * ohmsOfMetre(wire.size, vessel.practice ?? '') : 0;
    number += 1;
    branches.push({ id: `f${number}`, a: `${from}+`, b: `${to}+`, ohms });
    branches.push({ id: `r${number}`, a: `${from}-`, b: `${to}-`, ohms });
  }
  return { circuit: reached({ branches, sources, loads }), converters };
}

/** The part that some source reaches, each island tied to the first minus, so that all voltages have one reference. */
function reached({ branches, sources, loads }: Circuit): Circuit {
  const lit = new Set<string>();
  const ties: Branch[] = [];
  for (const source of sources) {
    if (lit.has(source.minus)) continue;
    if (ties.length + lit.size > 0)
      ties.push({ id: `t${ties.length}`, a: sources[0]?.minus ?? '', b: source.minus, ohms: 0.001 });
    const queue = [source.plus, source.minus];
    queue.forEach((node) => lit.add(node));
    for (const node of queue)
      for (const { a, b } of branches)
        if (a === node || b === node) {
          const next = a === node ? b : a;
          if (!lit.has(next)) {
            lit.add(next);
            queue.push(next);
          }
        }
  }
  return {
    branches: [...branches.filter(({ a, b }) => lit.has(a) && lit.has(b)), ...ties],
    sources,
    loads: loads.filter(({ plus }) => lit.has(plus)),
  };
}

const spice = new Spice();
beforeAll(() => spice.start(), 60_000);

it('ngspice finds the voltages of the examples within a millivolt, in every mode', async () => {
  const folder = fileURLToPath(new URL('../../examples', import.meta.url));
  const { report } = await openProject([folder], { root: folder, today: '2026-11-25' });
  const seen = { modes: 0, loads: 0, converters: 0 };
  let worst = 0;
  const apart: string[] = [];
  for (const { name, option, analysis } of report.vessels) {
    if (option !== null) continue;
    const context = createContext(analysis.vessel);
    for (const mode of analysis.vessel.modes) {
      const watts = new Map<string, number>();
      let judged = judgedOf(context, mode, watts);
      let volts = await spice.operatingPoint(judged.circuit, judged.circuit.sources[0]?.minus ?? '');
      for (const { input, output, efficiency } of judged.converters) {
        // What the output gives is what the loads take that hang on its minus.
        const island = judgedIsland(judged.circuit, output);
        const given = judged.circuit.loads
          .filter(({ plus }) => island.has(plus))
          .reduce((sum, load) => {
            const own = (volts?.get(load.plus) ?? NaN) - (volts?.get(load.minus) ?? NaN);
            return sum + (load.kind === 'power' ? load.amount / own : load.amount);
          }, 0);
        const held = judged.circuit.sources.find(({ id }) => id === output)?.volts ?? NaN;
        watts.set(input, (given * held) / efficiency);
        seen.converters += 1;
      }
      judged = judgedOf(context, mode, watts);
      volts = await spice.operatingPoint(judged.circuit, judged.circuit.sources[0]?.minus ?? '');
      const { solution } = context.circuits.solved(mode, { kind: 'lowest' });
      if (solution.kind !== 'solved') throw new Error(`${name} in ${mode.name} is ${solution.kind}`);
      seen.modes += 1;
      for (const load of judged.circuit.loads) {
        const theirs = (volts?.get(load.plus) ?? NaN) - (volts?.get(load.minus) ?? NaN);
        const ours = solution.loadVolts.get(load.id) ?? NaN;
        worst = Math.max(worst, Math.abs(theirs - ours));
        seen.loads += 1;
        if (!(Math.abs(theirs - ours) <= 1e-3))
          apart.push(`${name}, ${mode.name}, ${load.id}: ${theirs} V, ours ${ours} V`);
      }
    }
  }
  console.log(`examples against ngspice: ${JSON.stringify(seen)}, worst ${worst} V`);
  expect(apart).toEqual([]);
  expect(seen.modes).toBeGreaterThan(5);
  expect(seen.loads).toBeGreaterThan(30);
  expect(seen.converters).toBeGreaterThan(0);
}, 60_000);

function judgedIsland({ branches }: Circuit, terminal: string): ReadonlySet<string> {
  const island = new Set([`${terminal}+`]);
  for (const node of island)
    for (const { id, a, b } of branches)
      if (!id.startsWith('t')) {
        if (a === node) island.add(b);
        if (b === node) island.add(a);
      }
  return island;
}
