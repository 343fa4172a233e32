/** How conductors lie: what insulation, in an engine space or not, and with how many others that are loaded at the same time. */
import type { Laying } from '../../../vessel/conductors/ampacity.js';
import type { Mode, Run, Vessel } from '../../../vessel/model.js';
import { passesOn } from '../supply/banks.js';
import type { SupplyEdge, SupplyGraph } from '../supply/graph.js';

/** How a conductor lies; `missing` says which fact is not stated where it is not known. */
export interface LayingOf {
  readonly laying: Laying | undefined;
  readonly missing: string | undefined;
  /** The conduit or loom with the most conductors, where it lies in one. */
  readonly bundle: Run | undefined;
}

/** A circuit is two conductors, and both carry its current. */
const CONDUCTORS_OF_A_CIRCUIT = 2;

/** Prepare the layings of a vessel's conductors. Each is worked out when first asked for. */
export function createLayings(vessel: Vessel, graph: SupplyGraph): (edge: SupplyEdge) => LayingOf {
  let modes: readonly ((edge: SupplyEdge) => boolean)[] | undefined;
  const counts = new Map<Run, ReadonlyMap<number, number>>();
  const known = new Map<SupplyEdge, LayingOf>();

  /** Loaded circuits in a run for each mode, by the mode's number. */
  const circuitsIn = (run: Run): ReadonlyMap<number, number> => {
    const found = counts.get(run);
    if (found !== undefined) return found;
    modes ??= loadedIn(vessel, graph);
    const edges = graph.sharing(run);
    const made = new Map(
      modes.map((isLoaded, index) => [
        index,
        edges.reduce((total, edge) => total + (isLoaded(edge) ? legsIn(edge, run) : 0), 0),
      ]),
    );
    counts.set(run, made);
    return made;
  };

  const work = (edge: SupplyEdge): LayingOf => {
    let most = CONDUCTORS_OF_A_CIRCUIT;
    let bundle: Run | undefined;
    for (const run of new Set(edge.legs.flatMap((leg) => leg.bundles))) {
      const circuits = circuitsIn(run);
      modes ??= loadedIn(vessel, graph);
      modes.forEach((isLoaded, index) => {
        const own = legsIn(edge, run);
        const others = (circuits.get(index) ?? 0) - (isLoaded(edge) ? own : 0);
        // In a mode in which it carries nothing, the others do not warm it while it is loaded.
        const conductors = CONDUCTORS_OF_A_CIRCUIT * (isLoaded(edge) ? others + own : own);
        if (conductors <= most) return;
        most = conductors;
        bundle = run;
      });
    }
    const { ratedCelsius } = edge;
    const hot = edge.legs.map((leg) => leg.engineSpace);
    const engineSpace = hot.includes(true) || (hot.includes(undefined) ? undefined : false);
    const missing =
      ratedCelsius === undefined
        ? `the insulation of ${edge.text} has no rating`
        : engineSpace === undefined
          ? `the way of ${edge.text} is not known: ${edge.legs.find((leg) => leg.engineSpace === undefined)?.missing ?? 'a zone has no exposure'}`
          : undefined;
    const laying =
      ratedCelsius === undefined || engineSpace === undefined
        ? undefined
        : { ratedCelsius, engineSpace, loadedConductors: most };
    return { laying, missing, bundle };
  };

  return (edge) => {
    let found = known.get(edge);
    if (found === undefined) {
      found = work(edge);
      known.set(edge, found);
    }
    return found;
  };
}

function legsIn(edge: SupplyEdge, run: Run): number {
  return edge.legs.filter((leg) => leg.bundles.includes(run)).length;
}

/** Which conductors carry current in each mode; with no mode at all, all of them. A starter's seconds do not count. */
function loadedIn(vessel: Vessel, graph: SupplyGraph): readonly ((edge: SupplyEdge) => boolean)[] {
  if (vessel.modes.length === 0) return [(edge) => !edge.conductor.cranking];
  return vessel.modes.map((mode) => loadedInMode(mode, graph));
}

function loadedInMode(mode: Mode, graph: SupplyGraph): (edge: SupplyEdge) => boolean {
  const named = new Map<string, boolean>();
  let others = false;
  for (const duty of mode.duties) {
    if (duty.kind === 'on') named.set(duty.device, duty.duty !== 0);
    if (duty.kind === 'others') others = true;
  }
  const state = graph.stateIn(mode);
  return (edge) => {
    if (edge.conductor.cranking) return false;
    const output = edge.from === undefined ? undefined : graph.outputAt(edge.from);
    if (output !== undefined && output.kind !== 'converter') return state.charging.has(output.terminal);
    return edge.legs.some(({ to }) => {
      const terminal = to === undefined ? undefined : graph.terminals.get(to);
      if (terminal?.kind !== 'port') return true;
      const { device, model } = terminal;
      // Between banks, and from a splitter to a bank, current flows while something charges.
      if ((model.class === 'battery' && output === undefined) || model.class === 'combiner')
        return state.charging.size > 0;
      if (passesOn(model.class) || model.class === 'battery' || model.class === 'converter') return true;
      return named.get(device) ?? others;
    });
  };
}
