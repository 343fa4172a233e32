import { listOf } from '../../../vessel/words.js';
import type { Context } from '../../context.js';
import { rule } from '../../rule.js';
import type { SupplyEdge } from '../supply/graph.js';
import { terminalAt } from '../protection/net.js';
import { ampsText } from './text.js';
import { reachedFrom } from '../supply/walk.js';

/**
 * `power/switch-rating`: a battery switch whose intermittent rating is below the cranking current, or whose continuous rating
 * is below the sum of its mains or its feeder's ampacity, whichever is less (ABYC E-11, 11.6.1.2.3).
 */
export const switchRating = rule(
  {
    code: 'power/switch-rating',
    severities: ['error'],
    summary: 'A battery switch is rated below cranking, or below what its mains let through.',
  },
  (context, report) => {
    const { vessel, lookup, supply } = context;
    for (const device of vessel.devices) {
      const model = lookup.modelOf(device.name);
      if (model?.class !== 'batteryswitch' || lookup.device(device.name) !== device) continue;
      const at = { origin: device.origin };
      const terminals = model.ports.map((port) => `${device.name}.${port.name}`);
      const edges = [...new Set(terminals.flatMap((terminal) => supply.edgesAt(terminal)))];
      if (edges.length === 0) continue;
      const crank = crankingOn(context, device.name, terminals, edges);
      if (crank !== undefined) {
        if (model.crankingAmps === undefined)
          report.unknown(at, `${model.name} does not say what it stands while an engine cranks`);
        else if (crank.amps > model.crankingAmps)
          report.find({
            message: `${device.name} stands ${ampsText(model.crankingAmps)} for the seconds of a start, and ${crank.device} cranks with ${ampsText(crank.amps)}: its contacts burn. Use a switch rated for cranking that much.`,
            at,
          });
      }
      const mains = mainsOf(context, terminals, edges);
      if (mains === undefined) continue;
      if (model.carriesAmps === undefined) report.unknown(at, `${model.name} does not say what it carries`);
      else if (mains.amps > model.carriesAmps)
        report.find({
          message: `${device.name} carries ${ampsText(model.carriesAmps)}, and ${mains.by} ${ampsText(mains.amps)} through: it overheats before anything opens. Use a switch that carries as much, or smaller mains.`,
          at,
          related: mains.edges.map((edge) => ({ at: { origin: edge.origin }, message: edge.text })),
        });
    }
  },
);

interface Cranking {
  readonly device: string;
  readonly amps: number;
}

/** The strongest starter whose cable goes through the switch. Two engines are started one after the other. */
function crankingOn(
  { supply }: Context,
  device: string,
  terminals: readonly string[],
  edges: readonly SupplyEdge[],
): Cranking | undefined {
  if (!edges.some((edge) => edge.conductor.cranking)) return undefined;
  const reached = reachedFrom(supply, terminals, {
    join: (join) => join.device !== device && join.kind !== 'combiner' && join.kind !== 'converter',
    edge: (edge) => edge.conductor.cranking,
    // The starter of a boat's other bank is beyond its battery.
    on: (terminal) => supply.bankAt(terminal) === undefined,
  });
  let most: Cranking | undefined;
  for (const terminal of reached) {
    const found = supply.terminals.get(terminal);
    const cranks = found?.kind === 'port' ? found.port.dc?.cranks : undefined;
    if (found?.kind === 'port' && cranks !== undefined && cranks.amps > (most?.amps ?? 0))
      most = { device: found.device, amps: cranks.amps };
  }
  return most;
}

interface Mains {
  readonly amps: number;
  readonly by: string;
  readonly edges: readonly SupplyEdge[];
}

/** What the devices before the switch let through, or those behind it together, or the feeder's wire carries: the least. */
function mainsOf(
  { supply, protection }: Context,
  terminals: readonly string[],
  edges: readonly SupplyEdge[],
): Mains | undefined {
  const inside = new Set(terminals);
  const calm = edges.filter((edge) => !edge.conductor.cranking);
  const into = calm.filter((edge) => edge.legs.some((leg) => leg.to !== undefined && inside.has(leg.to)));
  const outOf = calm.filter((edge) => edge.from !== undefined && inside.has(edge.from));
  const bounds = [
    sum(
      into.map((edge) => ({ edge, amps: rated(edge) ?? upstream(protection, edge) })),
      'let',
    ),
    sum(
      outOf.map((edge) => ({ edge, amps: rated(edge) })),
      'let',
    ),
    sum(
      into.map((edge) => ({ edge, amps: protection.wireLimitOf(edge)?.ampacityAmps })),
      'carries',
    ),
  ].flatMap((bound) => bound ?? []);
  if (supply.banks.length === 0) return undefined;
  return [...bounds].sort((a, b) => a.amps - b.amps)[0];
}

/** The largest rating on a conductor. */
function rated(edge: SupplyEdge): number | undefined {
  const ratings = edge.devices.flatMap((device) => device.amps ?? []);
  return ratings.length === 0 ? undefined : Math.max(...ratings);
}

function upstream(protection: Context['protection'], edge: SupplyEdge): number | undefined {
  if (terminalAt(edge, 'from') === undefined) return undefined;
  const ratings = protection
    .reach(edge, 'from', () => true)
    .stoppedAt.flatMap(({ device }) => device.amps ?? []);
  return ratings.length === 0 ? undefined : Math.max(...ratings);
}

function sum(
  parts: readonly { readonly edge: SupplyEdge; readonly amps: number | undefined }[],
  verb: 'let' | 'carries',
): Mains | undefined {
  if (parts.length === 0 || parts.some(({ amps }) => amps === undefined)) return undefined;
  const texts = parts.map(({ edge }) => edge.text);
  return {
    amps: parts.reduce((total, { amps }) => total + (amps ?? 0), 0),
    by:
      verb === 'let'
        ? `the mains of ${listOf(texts, 'and', 3)} let`
        : `the wire of ${listOf(texts, 'and', 3)} brings`,
    edges: parts.map(({ edge }) => edge),
  };
}
