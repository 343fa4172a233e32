/** What flows through panels and busbars: the declared draws of what hangs below them, mode by mode. A bound from below. */
import type { Mode, Vessel } from '../../../vessel/model.js';
import type { Protection } from '../protection/protection.js';
import type { Node } from '../protection/net.js';
import type { SupplyGraph } from '../supply/graph.js';
import { consumerAt, drawAmps } from './consumers.js';

export interface Demand {
  /** Amperes through a terminal, of what hangs below it. */
  readonly amps: number;
  readonly mode: string | undefined;
  /** Something below it that does not say its draw. */
  readonly silent: string | undefined;
}

/** The greatest demand of any mode at every terminal; with no mode, of everything at once. */
export function demandOf(
  vessel: Vessel,
  graph: SupplyGraph,
  protection: Protection,
): (terminal: string) => Demand {
  const worst = new Map<string, Demand>();
  const consumers = [...graph.terminals.keys()]
    .filter((terminal) => consumerAt(graph, terminal) !== undefined)
    .map((terminal) => ({ terminal, way: wayUp(graph, protection, terminal) }));
  for (const mode of vessel.modes.length > 0 ? vessel.modes : [undefined]) {
    const duties = mode === undefined ? undefined : dutiesOf(mode);
    const sums = new Map<string, { amps: number; silent: string | undefined }>();
    for (const { terminal, way } of consumers) {
      const load = loadAt(graph, terminal, duties);
      if (load === undefined) continue;
      for (const { at, factor } of way) {
        const sum = sums.get(at) ?? { amps: 0, silent: undefined };
        sum.amps += (load.amps ?? 0) * factor;
        if (load.amps === undefined) sum.silent = first(sum.silent, load.device);
        sums.set(at, sum);
      }
    }
    for (const [terminal, { amps, silent }] of sums) {
      const known = worst.get(terminal);
      if (known === undefined || amps > known.amps)
        worst.set(terminal, { amps, mode: mode?.name, silent: first(known?.silent, silent) });
      else worst.set(terminal, { ...known, silent: first(known.silent, silent) });
    }
  }
  return (terminal) => worst.get(terminal) ?? { amps: 0, mode: undefined, silent: undefined };
}

/** The name that comes first, so that the order of declarations decides nothing. */
function first(a: string | undefined, b: string | undefined): string | undefined {
  if (a === undefined || b === undefined) return a ?? b;
  return a < b ? a : b;
}

interface Drawn {
  readonly device: string;
  readonly amps: number | undefined;
}

/** What a consumer draws in a mode; undefined where it is off, no consumer, or passes on what others draw. */
function loadAt(graph: SupplyGraph, terminal: string, duties: Duties | undefined): Drawn | undefined {
  const consumer = consumerAt(graph, terminal);
  const dc = consumer?.port.dc;
  if (consumer === undefined || dc === undefined || consumer.model.class === 'converter') return undefined;
  if (dc.direction !== 'in' || (dc.cranks !== undefined && dc.draws === undefined)) return undefined;
  const { device } = consumer;
  const volts = graph.systemOf(terminal)?.nominalVolts;
  const on = duties === undefined ? { atMax: false } : (duties.named.get(device) ?? duties.others);
  if (on === 'off') {
    const standby = drawAmps(dc.standby, volts);
    return standby === undefined ? undefined : { device, amps: standby };
  }
  const draws = drawAmps(dc.draws ?? dc.max, volts);
  const most = drawAmps(dc.max ?? dc.draws, volts);
  return { device, amps: on.atMax ? most : draws };
}

type On = { readonly atMax: boolean } | 'off';

interface Duties {
  readonly named: ReadonlyMap<string, On>;
  readonly others: On;
}

/** What is on in a mode. A duty is a share of the time: while it runs, a device draws the whole. */
function dutiesOf(mode: Mode): Duties {
  const named = new Map<string, On>();
  let others: On = 'off';
  for (const one of mode.duties) {
    if (one.kind === 'others') others = { atMax: false };
    if (one.kind === 'on' && !named.has(one.device))
      named.set(one.device, one.duty === 0 && !one.atMax ? 'off' : { atMax: one.atMax });
  }
  return { named, others };
}

interface Step {
  readonly at: string;
  /** What an ampere at the start comes to here. */
  readonly factor: number;
}

/** The terminals from a consumer up to the sources, through converters too. */
function wayUp(graph: SupplyGraph, protection: Protection, start: string): readonly Step[] {
  const way: Step[] = [];
  const seen = new Set<Node>();
  let factor = 1;
  let node: Node | undefined = start;
  while (node !== undefined && !seen.has(node)) {
    seen.add(node);
    if (typeof node === 'string') way.push({ at: node, factor });
    const up: Node | undefined = protection.rootOf(node);
    const here: string | undefined = typeof node === 'string' ? node : undefined;
    node = up;
    if (up !== undefined || here === undefined) continue;
    const converter = graph.joinsAt(here).find((join) => join.kind === 'converter' && join.b === here);
    if (converter === undefined) break;
    const given = graph.outputAt(converter.b)?.volts;
    const taken = graph.systemOf(converter.a)?.nominalVolts;
    if (given === undefined || taken === undefined) break;
    factor *= given / taken / (converter.model.efficiency ?? 1);
    node = converter.a;
  }
  return way;
}
