/**
 * The voltage lost on the way from the source to the end of a leg, by the practice's formula: a device at its maximum, the feeders
 * before it at the mode's demand. Currents are those at the nominal voltage, as both practices reckon.
 */
import type { Mode } from '../../../vessel/model.js';
import type { SupplyEdge } from '../supply/graph.js';
import type { Parts } from './sizing.js';
import type { Crossing } from './ways.js';

export interface Drop {
  /** On the leg itself, and on all before it; undefined where a fact is missing. */
  readonly ownVolts: number | undefined;
  readonly upstreamVolts: number | undefined;
  /** The voltage class that a limit is a share of. */
  readonly nominalVolts: number | undefined;
  /** At the far end: the battery's nominal voltage, or what a converter gives, less the drop. */
  readonly loadVolts: number | undefined;
  readonly amps: number;
  /** The mode in which it is greatest. */
  readonly mode: Mode | undefined;
  readonly missing: string | undefined;
}

export function dropOf(parts: Parts, unsized: string | undefined, edge: SupplyEdge, leg: number): Drop {
  const { flowOf, legOhms, supply, loads, ways } = parts;
  const flow = flowOf(edge, leg);
  const to = edge.legs[leg]?.to;
  const system = to === undefined ? undefined : supply.systemOf(to);
  const nominalVolts = system?.nominalVolts;
  const none = (missing: string | undefined): Drop => ({
    ownVolts: undefined,
    upstreamVolts: undefined,
    nominalVolts,
    loadVolts: undefined,
    amps: flow.maxAmps,
    mode: undefined,
    missing,
  });
  const ohms = legOhms(edge, leg);
  if (flow.missing !== undefined) return none(flow.missing);
  if (ohms === undefined)
    return none(edge.legs[leg]?.missing ?? unsized ?? `the wire of ${edge.text} is not known`);
  if (nominalVolts === undefined) return none(system?.missing ?? `the voltage of ${edge.text} is not known`);

  const loaded = flow.modes.some((one) => one.runningAmps + one.moreAmps > 0);
  if (!loaded || flow.chargeAmps > flow.maxAmps * (1 - 1e-9)) {
    const ownVolts = flow.chargeAmps * ohms;
    if (flow.chargeAmps > 0 || !loaded)
      return {
        ...none(undefined),
        ownVolts,
        upstreamVolts: 0,
        loadVolts: nominalVolts - ownVolts,
        amps: flow.chargeAmps,
      };
  }
  const runs = flow.modes.some((one) => one.runningAmps > 0);
  let worst: Drop | undefined;
  let missing: string | undefined;
  loads.modes.forEach((mode, index) => {
    const own = flow.modes[index];
    if (own === undefined || (runs && own.runningAmps === 0)) return;
    const ownVolts = (own.runningAmps + own.moreAmps) * ohms;
    const through = ({ edge: on, leg: at }: Crossing): number =>
      (flowOf(on, at).modes[index]?.runningAmps ?? 0) + own.moreAmps;
    let least: { readonly volts: number; readonly source: string } | undefined;
    for (const way of ways.waysFrom(edge, supply.stateIn(mode))) {
      let volts: number | undefined = 0;
      for (const crossing of way.crossings) {
        if (crossing.edge === edge && crossing.leg === leg) continue;
        const more = legOhms(crossing.edge, crossing.leg);
        if (more === undefined) missing ??= `the wire of ${crossing.edge.text} is not known`;
        volts = more === undefined || volts === undefined ? undefined : volts + more * through(crossing);
      }
      if (volts !== undefined && (least === undefined || volts < least.volts))
        least = { volts, source: way.source };
    }
    if (least === undefined) {
      missing ??= `nothing supplies ${edge.text}${mode === undefined ? '' : ` in mode ${mode.name}`}`;
      return;
    }
    const total = ownVolts + least.volts;
    if (worst !== undefined && total <= (worst.ownVolts ?? 0) + (worst.upstreamVolts ?? 0)) return;
    const source = supply.bankAt(least.source)?.nominalVolts ?? supply.outputAt(least.source)?.volts;
    worst = {
      ownVolts,
      upstreamVolts: least.volts,
      nominalVolts,
      loadVolts: (source ?? nominalVolts) - total,
      amps: own.runningAmps + own.moreAmps,
      mode,
      missing: undefined,
    };
  });
  return worst ?? none(missing);
}

/** Of both parts together, in volts. */
export function lostVolts({ ownVolts, upstreamVolts }: Drop): number | undefined {
  return ownVolts === undefined || upstreamVolts === undefined ? undefined : ownVolts + upstreamVolts;
}
