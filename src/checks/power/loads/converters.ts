/** What converters draw for what hangs on their outputs. */
import type { Draw } from '../../../vessel/model.js';
import type { Join, SupplyGraph, SupplyState } from '../supply/graph.js';
import { reachedFrom } from '../supply/walk.js';
import { averageAmps, NO_DRAW, type TerminalLoad } from './load.js';

/**
 * The loads of the converters' inputs, in watts: what hangs on the output by its voltage, over the efficiency. Where several
 * converters feed the same loads, each carries its share. One with a battery on its output charges it where the mode says so
 * (`charge`), with its limit by the level that is given, and rests where it does not.
 */
export function converterLoads(
  graph: SupplyGraph,
  state: SupplyState,
  plain: readonly TerminalLoad[],
): readonly TerminalLoad[] {
  const joins = new Map<string, Join>();
  for (const join of graph.joins) if (join.kind === 'converter') joins.set(join.a, joins.get(join.a) ?? join);
  if (joins.size === 0) return [];
  const byTerminal = new Map(plain.map((load) => [load.terminal, load]));
  const done = new Map<string, TerminalLoad>();
  const under = new Set<string>();
  const reachOf = new Map<string, ReadonlySet<string>>();
  const loadOf = (join: Join): TerminalLoad => {
    const known = done.get(join.a);
    if (known !== undefined) return known;
    under.add(join.a);
    const reach = reachOf.get(join.b) ?? downstreamOf(graph, state, join.b);
    reachOf.set(join.b, reach);
    const outputs = [...joins.values()].filter(({ b }) => reach.has(b)).length;
    const loads = [...reach].flatMap((terminal): readonly TerminalLoad[] => {
      const next = joins.get(terminal);
      // A ring of converters feeds itself: it has nothing to count.
      if (next !== undefined) return under.has(next.a) ? [] : [loadOf(next)];
      const load = byTerminal.get(terminal);
      return load === undefined ? [] : [load];
    });
    under.delete(join.a);
    const banked = [...reach].some((terminal) => graph.bankAt(terminal) !== undefined);
    const load = banked
      ? chargingLoad(graph, state, join)
      : carriedLoad(graph, join, loads, Math.max(1, outputs));
    done.set(join.a, load);
    return load;
  };
  return [...joins.values()].map(loadOf);
}

/** Everything that an output feeds as the switches stand; a switch whose position is not said passes. */
function downstreamOf(graph: SupplyGraph, state: SupplyState, output: string): ReadonlySet<string> {
  return reachedFrom(graph, [output], {
    join: (join, from) =>
      join.kind !== 'converter' && state.closed(join) !== false && (join.kind !== 'diode' || from === join.a),
  });
}

function chargingLoad(graph: SupplyGraph, state: SupplyState, join: Join): TerminalLoad {
  const charge = state.mode?.duties.find((one) => one.kind === 'charge' && one.device === join.device);
  const level = charge?.kind === 'charge' ? Math.min(1, charge.level ?? 1) : 0;
  const { volts, limitsAmps } = graph.outputAt(join.b) ?? {};
  const { efficiency } = join.model;
  const most =
    volts === undefined || limitsAmps === undefined || efficiency === undefined
      ? undefined
      : watts((volts * limitsAmps * level) / efficiency);
  return ofOutput(join, {
    typical: most,
    maximum: most,
    running: most,
    average: most,
    missing:
      level > 0 && most === undefined
        ? `${join.model.name} does not say its output's limit or its efficiency`
        : undefined,
    on: level > 0,
  });
}

/** Without a stated efficiency or voltage the least that is possible is counted, and said to be so. */
function carriedLoad(
  graph: SupplyGraph,
  join: Join,
  loads: readonly TerminalLoad[],
  sharers: number,
): TerminalLoad {
  const { model } = join;
  const volts = graph.outputAt(join.b)?.volts;
  const into = (wattsOf: (load: TerminalLoad) => number): Draw =>
    watts(loads.reduce((total, load) => total + wattsOf(load), 0) / (model.efficiency ?? 1) / sharers);
  const on = loads.filter(({ state }) => state !== 'off');
  const capable =
    (of: 'typical' | 'maximum') =>
    (load: TerminalLoad): number =>
      inWatts(load.state === 'on' ? load[of] : load.running, volts);
  const own =
    volts === undefined
      ? `${model.name} does not say what its output gives`
      : model.efficiency === undefined
        ? `${model.name} does not say its efficiency`
        : undefined;
  return ofOutput(join, {
    typical: into(capable('typical')),
    maximum: into(capable('maximum')),
    running: into((load) => inWatts(load.running, volts)),
    average: into((load) => (averageAmps(load, volts) ?? 0) * (volts ?? 0)),
    missing: on.length > 0 ? (own ?? on.find(({ missing }) => missing !== undefined)?.missing) : undefined,
    on: on.length > 0,
  });
}

interface Given {
  readonly typical: Draw | undefined;
  readonly maximum: Draw | undefined;
  readonly running: Draw | undefined;
  readonly average: Draw | undefined;
  readonly missing: string | undefined;
  readonly on: boolean;
}

function ofOutput({ a, device }: Join, given: Given): TerminalLoad {
  const { typical, maximum, running, average, missing, on } = given;
  return {
    terminal: a,
    kind: 'converter',
    device,
    state: on ? 'on' : 'off',
    typical,
    maximum,
    standby: undefined,
    duty: on ? 1 : 0,
    maxDuty: 0,
    running: on ? running : NO_DRAW,
    average: on ? average && [{ draw: average, share: 1 }] : [],
    missing,
  };
}

const watts = (amount: number): Draw => ({ amount, unit: 'W' });

function inWatts(draw: Draw | undefined, volts: number | undefined): number {
  if (draw === undefined) return 0;
  return draw.unit === 'W' ? draw.amount : draw.amount * (volts ?? 0);
}
