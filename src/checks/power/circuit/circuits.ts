/** The voltages of a boat, mode by mode, each solved once and when first asked for. */
import type { Mode } from '../../../vessel/model.js';
import type { Context } from '../../context.js';
import type { Circuit, Refused, Solution } from '../solve/circuit.js';
import { prepareWires, solve, type PreparedWires } from '../solve/solve.js';
import { islandsOf } from './islands.js';
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
  /** The same; where a part of it collapses, part by part, so that one system does not hide what another comes to. */
  readonly parts: (mode: Mode | undefined, condition: Condition) => readonly ModeSolution[];
  /** The part that a load is in. */
  readonly solvedAt: (mode: Mode | undefined, condition: Condition, load: string) => ModeSolution;
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
  const solved: Circuits['solved'] = (mode, condition) => {
    const key = condition.kind === 'cranking' ? `cranking ${condition.banks.join()}` : condition.kind;
    const ofMode = known.get(mode) ?? new Map<string, ModeSolution>();
    known.set(mode, ofMode);
    const found = ofMode.get(key);
    if (found !== undefined) return found;
    const made = settle(contextOf(), mode, commonIn(mode, condition, key));
    ofMode.set(key, made);
    return made;
  };
  const split = new Map<ModeSolution, readonly ModeSolution[]>();
  const parts: Circuits['parts'] = (mode, condition) => {
    const whole = solved(mode, condition);
    if (whole.solution.kind !== 'collapsed') return [whole];
    const found = split.get(whole) ?? islandsOf(whole.circuit).map((circuit) => partOf(whole, circuit));
    split.set(whole, found);
    return found;
  };
  return {
    solved,
    parts,
    solvedAt: (mode, condition, load) => {
      const all = parts(mode, condition);
      const own =
        all.length < 2 ? undefined : all.find(({ circuit }) => circuit.loads.some(({ id }) => id === load));
      return own ?? solved(mode, condition);
    },
  };
}

/** What a converter draws for the loads of its output is left as it was found, which is at least what they draw. */
const partOf = (whole: ModeSolution, circuit: Circuit): ModeSolution => ({
  ...whole,
  circuit,
  solution: solve(circuit),
});

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
