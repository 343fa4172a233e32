/**
 * The cheapest designs of a boat, each checked by the ordinary rules before it is offered. What the program does not know (a
 * grade that is refused, a fuse that is too large for another display) turns up in that check, and the search goes on without.
 */
import type { Need, Vessel } from '../../vessel/model.js';
import { analyse } from '../analyse.js';
import type { Analysis } from '../analysis.js';
import { createContext } from '../context.js';
import type { Finding } from '../finding.js';
import { problemOf, type Keep } from './build.js';
import { designOf, gearOf, isChange, withDesign, type Chosen, type Design } from './design.js';
import { totalOf } from './prices.js';
import type { Problem } from './problem.js';
import { programOf, type Program, type Row } from './program.js';
import type { Solver } from './solver.js';

export interface Offer {
  readonly design: Design;
  readonly vessel: Vessel;
  readonly analysis: Analysis;
  /** Parts and work, in the vessel's currency. */
  readonly cost: number;
  /** Nothing changes. */
  readonly asItIs: boolean;
}

/** Why there is none. */
export interface Nothing {
  /** The fewest needs whose end would leave a design. */
  readonly giveUp: readonly Need[];
  /** What went wrong with the design that came nearest. */
  readonly nearest: readonly Finding[];
}

export interface Found {
  /** From the cheapest on. */
  readonly offers: readonly Offer[];
  readonly nothing: Nothing | undefined;
  readonly present: Analysis;
  /** What the boat costs as it is written. */
  readonly presentCost: number;
  /** The boat as it is written meets its needs and breaks no rule. */
  readonly presentHolds: boolean;
  readonly unpriced: readonly string[];
  /** Somebody stopped it; the offers are those found until then. */
  readonly stopped: boolean;
}

export interface SearchOptions {
  readonly today: string;
  readonly best: number;
  readonly keep: Keep;
  readonly stopped?: () => boolean;
  /** Is told of each design as it is found. */
  readonly progress?: (offer: Offer) => void;
}

/** A binary is read as one from here on. */
const HALF = 0.5;
/** Designs that fail the rules before the search gives up, and those among them that fail by the very same faults. */
const MOST_REFUSED = 60;
const MOST_ALIKE = 5;

/** Find the cheapest designs, which differ in their gear. */
export function search(vessel: Vessel, solver: Solver, options: SearchOptions): Found {
  const stopped = options.stopped ?? ((): boolean => false);
  const context = createContext(vessel);
  const problem = problemOf(context, options.keep);
  const present = analyse(vessel, { today: options.today });
  const tolerated = new Set(errorsOf(present).filter(isElsewhere).map(keyOf));
  const offers: Offer[] = [];
  let nearest: readonly Finding[] = [];
  let refused = 0;
  const alike = new Map<string, number>();
  const program = programOf(problem);
  const solving = solver(program, stopped);
  let halted = false;
  try {
    while (offers.length < options.best && refused < MOST_REFUSED) {
      if (stopped()) {
        halted = true;
        break;
      }
      const answer = solving.run();
      if (answer.kind === 'infeasible') break;
      // Stopped before it was proved the best: it is the best so far, and the last.
      halted = answer.kind === 'interrupted';
      if (answer.values === undefined) break;
      const chosen = read(program, answer.values);
      const design = designOf(context, problem, chosen);
      const offer = judge(vessel, design, options.today);
      const faults = errorsOf(offer.analysis).filter((finding) => !tolerated.has(keyOf(finding)));
      if (faults.length === 0 && offer.analysis.needs.every((need) => need.met !== false)) {
        if (offers.some((one) => gearOf(one.design) === gearOf(design))) refused += 1;
        else {
          offers.push(offer);
          options.progress?.(offer);
        }
        solving.add(otherGear(program, chosen, problem.sites));
      } else {
        if (nearest.length === 0 || faults.length < nearest.length) nearest = faults;
        refused += 1;
        const kind = faults.map(keyOf).sort().join(' ');
        const times = (alike.get(kind) ?? 0) + 1;
        alike.set(kind, times);
        if (times > MOST_ALIKE) break;
        // Faults that other cables have not mended are of the gear.
        solving.add(
          times > 1 || isOfGear(faults)
            ? otherGear(program, chosen, problem.sites)
            : otherDesign(program, chosen),
        );
      }
      if (halted) break;
    }
  } finally {
    solving.close();
  }
  return {
    ...ofPresent(vessel, present),
    offers: [...offers].sort((a, b) => a.cost - b.cost),
    nothing: offers.length > 0 || halted ? undefined : { giveUp: fewest(problem, solver, stopped), nearest },
    unpriced: problem.unpriced,
    stopped: halted,
  };
}

/** What a search in another thread comes to: designs are plain data, and what they are judged by is worked out anew. */
export function foundOf(
  vessel: Vessel,
  { today, keep }: Pick<SearchOptions, 'today' | 'keep'>,
  {
    designs,
    nothing,
    stopped,
  }: {
    readonly designs: readonly Design[];
    readonly nothing: Nothing | undefined;
    readonly stopped: boolean;
  },
): Found {
  return {
    ...ofPresent(vessel, analyse(vessel, { today })),
    offers: designs.map((design) => judge(vessel, design, today)).sort((a, b) => a.cost - b.cost),
    nothing,
    unpriced: problemOf(createContext(vessel), keep).unpriced,
    stopped,
  };
}

function ofPresent(
  vessel: Vessel,
  present: Analysis,
): Pick<Found, 'present' | 'presentCost' | 'presentHolds'> {
  return {
    present,
    presentCost: totalOf(vessel, present.parts()),
    presentHolds: errorsOf(present).every(isElsewhere) && present.needs.every((need) => need.met !== false),
  };
}

function judge(vessel: Vessel, design: Design, today: string): Offer {
  const made = withDesign(vessel, design);
  const analysis = analyse(made, { today });
  return { design, vessel: made, analysis, cost: totalOf(made, analysis.parts()), asItIs: !isChange(design) };
}

function errorsOf(analysis: Analysis): readonly Finding[] {
  return analysis.findings.filter((finding) => finding.severity === 'error' && finding.waived === null);
}

/** Faults that plugging cannot mend are in every design alike: of the supply, of places, of other buses. */
function isElsewhere({ rule }: Finding): boolean {
  return !/^(?:need|net|type|view|choice|energy)\//.test(rule);
}

/** Faults that another cable would not mend. */
function isOfGear(faults: readonly Finding[]): boolean {
  return faults.length > 0 && faults.every(({ rule }) => !/^(?:need|net|type|view|cable)\//.test(rule));
}

function keyOf({ rule, at }: Finding): string {
  return `${rule} ${at.origin} ${at.part ?? ''}`;
}

function read(program: Program, values: Float64Array): Chosen {
  const isOn = (column: number): boolean => (values[column] ?? 0) > HALF;
  const first = (columns: readonly number[]): number | undefined => {
    const at = columns.findIndex(isOn);
    return at < 0 ? undefined : at;
  };
  return {
    models: program.models.map(first),
    choices: program.choices.map(first),
    counts: program.counts.map((columns) => columns.filter(isOn).length),
    edges: program.arcs.flatMap((pair, number) => (pair.some(isOn) ? [number] : [])),
  };
}

/** Another choice of models and switches, wherever new switches go. */
function otherGear(program: Program, { models, choices, counts }: Chosen, sites: Problem['sites']): Row {
  return cut([
    ...program.models.flatMap((columns, number) =>
      sites[number]?.kind === 'new' ? [] : columns.map((column, n) => ({ column, on: models[number] === n })),
    ),
    ...program.choices.flatMap((columns, number) =>
      columns.map((column, n) => ({ column, on: choices[number] === n })),
    ),
    ...program.counts.flatMap((columns, number) =>
      columns.map((column, n) => ({ column, on: n < (counts[number] ?? 0) })),
    ),
  ]);
}

/** Another choice of models, switches or cables. */
function otherDesign(program: Program, { models, choices, edges }: Chosen): Row {
  const laid = new Set(edges);
  return cut([
    ...program.models.flatMap((columns, number) =>
      columns.map((column, n) => ({ column, on: models[number] === n })),
    ),
    ...program.choices.flatMap((columns, number) =>
      columns.map((column, n) => ({ column, on: choices[number] === n })),
    ),
    ...program.arcs.map((pair, number) => ({ column: pair, on: laid.has(number) })),
  ]);
}

/** At least one of these comes out otherwise. Two columns of which at most one is set count as one. */
function cut(
  choices: readonly { readonly column: number | readonly [number, number]; readonly on: boolean }[],
): Row {
  const terms: [number, number][] = [];
  let lower = 1;
  for (const { column, on } of choices) {
    for (const one of typeof column === 'number' ? [column] : column) terms.push([one, on ? -1 : 1]);
    if (on) lower -= 1;
  }
  return { lower, upper: Infinity, terms };
}

/** The fewest needs to give up so that the rest can be met; none where the rules refuse what the program allows. */
function fewest(problem: Problem, solver: Solver, stopped: () => boolean): readonly Need[] {
  const program = programOf(problem, true);
  const solving = solver(program, stopped);
  try {
    const answer = solving.run();
    if (answer.kind !== 'optimal' || program.givenUp === undefined) return [];
    const isOn = (column: number | undefined): boolean =>
      column !== undefined && (answer.values[column] ?? 0) > HALF;
    return [
      ...new Set([
        ...problem.reaches
          .filter((_, number) => isOn(program.givenUp?.reaches[number]))
          .map(({ need }) => need),
        ...problem.spares
          .filter((_, number) => isOn(program.givenUp?.spares[number]))
          .map(({ need }) => need),
      ]),
    ];
  } finally {
    solving.close();
  }
}
