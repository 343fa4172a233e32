/** The voltages that may be lost along each leg, so that everything beyond it still gets its share. */
import { ohmsPerMetre } from '../../../vessel/conductors/drop.js';
import type { Practice } from '../../../vessel/model.js';
import type { SupplyEdge, SupplyGraph } from '../supply/graph.js';
import type { FlowOf } from './flows.js';
import { dropLimitOf, legLimit } from './limits.js';
import { starting, type Crossing, type Ways } from './ways.js';

/** What flows when the limit is judged. */
export type FlowKind = 'load' | 'charge' | 'cranking';

/** From the source to a place `furtherMetres` beyond this leg, no more than `limitVolts` may be lost. */
export interface Allowance {
  readonly kind: FlowKind;
  readonly limitVolts: number;
  readonly furtherMetres: number;
}

export type AllowancesOf = (edge: SupplyEdge, leg: number) => readonly Allowance[];

interface Ground {
  readonly graph: SupplyGraph;
  readonly ways: Ways;
  readonly practice: Practice;
  readonly flowOf: FlowOf;
}

/** A wire as written that takes more than this of an allowance is itself to blame; what feeds it is not made larger for it. */
const WRITTEN_MOST = 0.75;

/**
 * Gather what is asked of each leg. What is left of an allowance is shared out by length: a leg may lose what its part of the way
 * ahead comes to, so that a long feeder leaves enough for the branches behind it; what wires as written will lose is taken off
 * first. Starters and charging currents: a tenth, as for
 * all that is not critical.
 */
export function gatherAllowances(
  { graph, ways, practice, flowOf }: Ground,
  starters: readonly string[],
): AllowancesOf {
  const all = new Map<SupplyEdge, Map<number, Map<string, Allowance>>>();
  const ask = ({ edge, leg }: Pick<Crossing, 'edge' | 'leg'>, one: Allowance): void => {
    const legs = all.get(edge) ?? new Map<number, Map<string, Allowance>>();
    all.set(edge, legs);
    const asked = legs.get(leg) ?? new Map<string, Allowance>();
    legs.set(leg, asked);
    const key = `${one.kind} ${one.limitVolts}`;
    const known = asked.get(key);
    if (known === undefined || known.furtherMetres < one.furtherMetres) asked.set(key, one);
  };
  const along = (crossings: readonly Crossing[], kind: FlowKind, limitVolts: number): void => {
    let furtherMetres = 0;
    let left = limitVolts;
    for (const crossing of crossings) {
      ask(crossing, { kind, limitVolts: left, furtherMetres });
      const { size } = crossing.edge;
      const flow = flowOf(crossing.edge, crossing.leg);
      const amps = kind === 'cranking' ? flow.crankingAmps : flow.maxAmps;
      const ohms = size === undefined ? undefined : ohmsPerMetre(size, practice);
      const lost = ohms === undefined ? undefined : 2 * lengthOf(crossing) * ohms * amps;
      if (lost !== undefined && limitVolts - (left - lost) <= limitVolts * WRITTEN_MOST) left -= lost;
      else furtherMetres += lengthOf(crossing);
    }
  };
  const asItLies = graph.stateIn();
  const wayOf = (terminal: string): readonly Crossing[] => {
    const now = ways.waysFrom(terminal, asItLies);
    const found = now.length > 0 ? now : ways.waysFrom(terminal, starting(graph));
    return found[0]?.crossings ?? ways.branchOf(terminal).crossings;
  };
  for (const edge of graph.edges) {
    for (const leg of edge.legs) {
      const volts = leg.to === undefined ? undefined : graph.systemOf(leg.to)?.nominalVolts;
      const terminal = leg.to === undefined ? undefined : graph.terminals.get(leg.to);
      if (volts === undefined || terminal === undefined) continue;
      const limit = legLimit(graph, edge, leg.index, practice);
      if (limit !== undefined) along(wayOf(terminal.id), 'load', limit.share * volts);
    }
  }
  for (const starter of starters) {
    const terminal = graph.terminals.get(starter);
    const volts = graph.systemOf(starter)?.nominalVolts;
    if (volts === undefined || terminal?.kind !== 'port') continue;
    const limitVolts = dropLimitOf(terminal.model, practice).share * volts;
    for (const way of ways.waysFrom(starter, starting(graph))) along(way.crossings, 'cranking', limitVolts);
  }
  for (const output of graph.outputs) {
    const volts = graph.systemOf(output.terminal)?.nominalVolts;
    if (volts === undefined) continue;
    const crossings = ways.charging(output.terminal, asItLies);
    const total = crossings.reduce((sum, crossing) => sum + lengthOf(crossing), 0);
    const limitVolts = dropLimitOf(output.model, practice).share * volts;
    for (const crossing of crossings)
      ask(crossing, { kind: 'charge', limitVolts, furtherMetres: total - lengthOf(crossing) });
  }
  return (edge, leg) => [...(all.get(edge)?.get(leg)?.values() ?? [])];
}

export function lengthOf({ edge, leg }: Pick<Crossing, 'edge' | 'leg'>): number {
  return edge.legs[leg]?.lengthMetres ?? 0;
}
