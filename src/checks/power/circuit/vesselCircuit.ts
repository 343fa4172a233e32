/**
 * The supply of a boat in one state as a network with both conductors drawn out, by the practice's own resistivity and areas. Only
 * what some source reaches is in it. Modes in which the switches stand alike and the same sources give have it in common.
 */
import { createUnionFind, type UnionFind } from '../../../vessel/unionFind.js';
import type { Mode } from '../../../vessel/model.js';
import type { Context } from '../../context.js';
import type { Branch, Load, Source, Wires } from '../solve/circuit.js';
import { insideOhms } from '../supply/banks.js';
import type { Bank, Join, Output, SupplyState } from '../supply/graph.js';
import { loadOf, minusOf, plusOf } from './nodes.js';

/** How the banks stand. `lowest` and the sag of a start are voltages at their posts; `nominal` is behind their resistance. */
export type Condition =
  | { readonly kind: 'nominal' | 'lowest' }
  /** These banks sag while they turn an engine. */
  | { readonly kind: 'cranking'; readonly banks: readonly string[] };

/** A converter that carries what hangs on its output. */
export interface Conversion {
  readonly input: string;
  readonly source: string;
  readonly efficiency: number;
}

export interface VesselWires {
  readonly wires: Wires;
  /** From outputs to inputs: what an input draws is found from what its output gives. */
  readonly conversions: readonly Conversion[];
  /** Banks whose voltage is missing, each as a sentence: they give nothing here. */
  readonly missing: readonly string[];
  /** Whether a source reaches a terminal. */
  readonly isAlive: (terminal: string) => boolean;
}

export function vesselWires(context: Context, state: SupplyState, condition: Condition): VesselWires {
  const { supply } = context;
  const missing: string[] = [];
  const banks = supply.banks.flatMap((bank) => bankSource(bank, condition, missing));
  const bankless = (output: Output): boolean => supply.systemOf(output.terminal)?.banks.length === 0;
  const charging = supply.outputs.filter(
    (output) =>
      output.kind !== 'converter' &&
      state.charging.has(output.terminal) &&
      (condition.kind === 'nominal' || bankless(output)),
  );
  const sets = joined(context, state);
  const alive = new Set<string>();
  const light = (terminal: string): void => {
    alive.add(sets.find(terminal));
    for (const join of supply.joins)
      if (join.kind === 'diode' && sets.find(join.a) === sets.find(terminal) && !alive.has(sets.find(join.b)))
        light(join.b);
  };
  for (const bank of supply.banks) if (bank.terminals[0] !== undefined) light(bank.terminals[0]);
  for (const output of charging) light(output.terminal);

  const converters = supply.joins.filter((join) => join.kind === 'converter');
  const conversions: Conversion[] = [];
  const converted: Source[] = [];
  for (let again = true; again;) {
    again = false;
    for (const join of converters) {
      const output = supply.outputAt(join.b);
      const reached = alive.has(sets.find(join.a)) && output !== undefined && bankless(output);
      if (!reached || converted.some(({ id }) => id === join.b)) continue;
      if (output.volts === undefined) continue;
      converted.push(sourceOf(output, output.volts));
      // Without a stated efficiency the least that its input may draw is counted: voltages are then bounds from above.
      conversions.push({ input: join.a, source: join.b, efficiency: join.model.efficiency ?? 1 });
      light(join.b);
      again = true;
    }
  }
  const isAlive = (terminal: string): boolean => alive.has(sets.find(terminal));
  const inside = supply.joins
    .filter((join) => isAlive(join.a) && isAlive(join.b))
    // A way that nothing is on carries nothing.
    .filter((join) => join.kind !== 'way' || supply.edgesAt(join.b).length > 0)
    .map((join, index) => joinParts(join, index, state));
  return {
    wires: {
      branches: [
        ...supply.banks.flatMap((bank) => postsOf(bank)),
        ...inside.flatMap(({ branches }) => branches),
        ...edgeBranches(context, isAlive),
      ],
      // A diode's own voltage comes last: an island is measured from the first source in it.
      sources: [
        ...banks,
        ...charging.flatMap((output) => (output.volts === undefined ? [] : sourceOf(output, output.volts))),
        ...converted,
        ...inside.flatMap(({ sources }) => sources),
      ],
    },
    conversions,
    missing,
    isAlive,
  };
}

/** What is drawn in a mode from what is alive. */
export function loadsOn(
  { supply, loads }: Context,
  mode: Mode | undefined,
  { isAlive }: VesselWires,
): Load[] {
  const drawn: Load[] = [];
  for (const load of loads.loadsIn(mode).all) {
    if (!isAlive(load.terminal)) continue;
    const terminal = supply.terminals.get(load.terminal);
    const cutOut = terminal?.kind === 'port' ? terminal.port.dc?.cutoutVolts : undefined;
    const one = loadOf(load, plusOf(load.terminal), minusOf(load.terminal), cutOut);
    if (one !== undefined) drawn.push(one);
  }
  return drawn;
}

/** The same for states of which wires are the same: how each join that may be open stands, and what charges. */
export function stateKey({ joins }: Context['supply'], state: SupplyState): string {
  const standing = joins.flatMap((join) =>
    join.kind === 'switch' || join.kind === 'combiner' ? [String(state.closed(join))] : [],
  );
  return `${standing.join()} ${[...state.charging].sort().join()}`;
}

/** Terminals that conductors join in a state. */
function joined({ supply }: Context, state: SupplyState): UnionFind<string> {
  const sets = createUnionFind<string>();
  for (const join of supply.joins)
    if (join.kind !== 'diode' && join.kind !== 'converter' && state.closed(join) !== false)
      sets.join(join.a, join.b);
  for (const { from, legs } of supply.edges)
    for (const { to } of legs) if (from !== undefined && to !== undefined) sets.join(from, to);
  for (const { terminals } of supply.banks)
    for (const terminal of terminals) sets.join(terminals[0] ?? terminal, terminal);
  return sets;
}

function bankSource(bank: Bank, condition: Condition, missing: string[]): readonly Source[] {
  const [post] = bank.terminals;
  if (post === undefined) return [];
  const sags = condition.kind === 'cranking' && condition.banks.includes(bank.device);
  const volts = sags ? bank.sagsVolts : condition.kind === 'lowest' ? bank.lowestVolts : bank.nominalVolts;
  if (volts === undefined || !(volts > 0)) {
    missing.push(
      `${bank.model.name} does not say ${sags ? 'to what it sags' : condition.kind === 'lowest' ? 'its lowest voltage' : 'its voltage'}`,
    );
    return [];
  }
  const atPosts = sags || condition.kind === 'lowest';
  return [
    {
      id: bank.device,
      plus: plusOf(post),
      minus: minusOf(post),
      volts,
      // Without a stated resistance a bank is taken as stiff: what collapses even so collapses.
      ohms: atPosts ? 0 : (insideOhms(bank) ?? 0),
    },
  ];
}

function postsOf({ device, terminals }: Bank): readonly Branch[] {
  const [first] = terminals;
  return terminals.slice(1).flatMap((post): Branch[] =>
    first === undefined
      ? []
      : [
          { id: `${device} ${post}+`, a: plusOf(first), b: plusOf(post), ohms: 0 },
          { id: `${device} ${post}-`, a: minusOf(first), b: minusOf(post), ohms: 0 },
        ],
  );
}

function sourceOf({ terminal, limitsAmps }: Output, volts: number): Source {
  return {
    id: terminal,
    plus: plusOf(terminal),
    minus: minusOf(terminal),
    volts,
    ohms: 0,
    ...(limitsAmps === undefined ? {} : { limitAmps: limitsAmps }),
  };
}

interface Inside {
  readonly branches: readonly Branch[];
  readonly sources: readonly Source[];
}

function joinParts(join: Join, index: number, state: SupplyState): Inside {
  const none: Inside = { branches: [], sources: [] };
  if (join.kind === 'converter' || state.closed(join) === false) return none;
  const id = `${join.device} ${index}`;
  const minus: Branch = { id: `${id}-`, a: minusOf(join.a), b: minusOf(join.b), ohms: 0 };
  if (join.kind === 'diode') {
    const forward = join.model.forwardVolts ?? 0;
    const before = forward > 0 ? `${id}|` : plusOf(join.a);
    return {
      branches: [{ id: `${id}+`, a: before, b: plusOf(join.b), ohms: 0, oneWay: true }, minus],
      sources:
        forward > 0 ? [{ id: `${id}|`, plus: plusOf(join.a), minus: before, volts: forward, ohms: 0 }] : [],
    };
  }
  return {
    branches: [{ id: `${id}+`, a: plusOf(join.a), b: plusOf(join.b), ohms: join.ohms ?? 0 }, minus],
    sources: [],
  };
}

/** Both conductors of every leg. One whose resistance is not known counts as none: what lies behind it is a bound from above. */
function edgeBranches(
  { supply, sizing }: Context,
  isAlive: (terminal: string) => boolean,
): readonly Branch[] {
  return supply.edges.flatMap((edge) =>
    edge.legs.flatMap(({ index, to }): Branch[] => {
      const { from } = edge;
      if (from === undefined || to === undefined || !isAlive(from)) return [];
      const half = (sizing.legOhms(edge, index) ?? 0) / 2;
      const id = `${edge.origin} ${index}`;
      return [
        { id: `${id}+`, a: plusOf(from), b: plusOf(to), ohms: half },
        { id: `${id}-`, a: minusOf(to), b: minusOf(from), ohms: half },
      ];
    }),
  );
}
