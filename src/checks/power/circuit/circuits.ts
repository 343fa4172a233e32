/** The voltages of a boat, mode by mode, each solved once and when first asked for. */
import type { Mode } from '../../../vessel/model.js';
import type { Context } from '../../context.js';
import type { Circuit, Refused, Solution } from '../solve/circuit.js';
import { prepareWires, type PreparedWires } from '../solve/solve.js';
import { loadsOn, stateKey, vesselWires, type Condition, type VesselWires } from './vesselCircuit.js';

export interface ModeSolution {
  readonly mode: Mode | undefined;
  /** With what converters draw as it was found. */
  readonly circuit: Circuit;
  readonly solution: Solution;
  readonly missing: readonly string[];
}

export interface Circuits {
  readonly solved: (mode: Mode | undefined, condition: Condition) => ModeSolution;
}

/** Watts by which what converters draw may still move when they have come to rest. */
const REST_WATTS = 1e-6;

/** The network that several modes have in common. */
interface Common {
  readonly of: VesselWires;
  readonly prepared: PreparedWires | Refused;
}

/** Prepare the circuits of a boat; the context is asked for when the first is solved. */
export function createCircuits(contextOf: () => Context): Circuits {
  const known = new Map<Mode | undefined, Map<string, ModeSolution>>();
  const common = new Map<string, Common>();
  const commonIn = (mode: Mode | undefined, condition: Condition, key: string): Common => {
    const context = contextOf();
    const state = context.supply.stateIn(mode);
    const whole = `${key} ${stateKey(context.supply, state)}`;
    const found = common.get(whole);
    if (found !== undefined) return found;
    const of = vesselWires(context, state, condition);
    const made = { of, prepared: prepareWires(of.wires) };
    common.set(whole, made);
    return made;
  };
  return {
    solved: (mode, condition) => {
      const key = condition.kind === 'cranking' ? `cranking ${condition.banks.join()}` : condition.kind;
      const ofMode = known.get(mode) ?? new Map<string, ModeSolution>();
      known.set(mode, ofMode);
      const found = ofMode.get(key);
      if (found !== undefined) return found;
      const made = settle(contextOf(), mode, commonIn(mode, condition, key));
      ofMode.set(key, made);
      return made;
    },
  };
}

/**
 * An output does not feel its input, so that what converters draw is found from the last one backwards: after as many rounds as
 * there are converters in a row nothing moves any more.
 */
function settle(context: Context, mode: Mode | undefined, { of, prepared: wires }: Common): ModeSolution {
  const { conversions, missing } = of;
  const loads = loadsOn(context, mode, of);
  const circuit: Circuit = { ...of.wires, loads };
  const prepared = wires.kind === 'refused' ? wires : wires.loaded(loads);
  if (prepared.kind === 'refused') return { mode, circuit, solution: prepared, missing };
  const amounts = new Map(loads.map((load) => [load.id, load.amount]));
  const amountOf = ({ id }: { readonly id: string }): number => amounts.get(id) ?? 0;
  let solution = prepared.solve(amountOf);
  for (let round = 0; round <= conversions.length && solution.kind === 'solved'; round++) {
    let moved = 0;
    for (const { input, source, efficiency } of conversions) {
      if (!amounts.has(input)) continue;
      const amps = solution.sourceAmps.get(source) ?? 0;
      const volts = (solution.volts.get(`${source}+`) ?? 0) - (solution.volts.get(`${source}-`) ?? 0);
      const watts = Math.max(0, (amps * volts) / efficiency);
      moved = Math.max(moved, Math.abs(watts - (amounts.get(input) ?? 0)));
      amounts.set(input, watts);
    }
    if (moved <= REST_WATTS) break;
    solution = prepared.solve(amountOf);
  }
  if (conversions.length === 0) return { mode, circuit, solution, missing };
  const drawn = loads.map((load) => ({ ...load, amount: amountOf(load) }));
  return { mode, circuit: { ...circuit, loads: drawn }, solution, missing };
}
