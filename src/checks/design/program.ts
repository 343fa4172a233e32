/**
 * The cheapest network as a mixed-integer program: a tree of rooted arcs for each network, two binaries a cable, one unit of
 * flow to every site that has to be reached, ports as a limit on the arcs at a site, and a binary for every model. In this form
 * it is mostly proved at the first node; with undirected flow it is not.
 */
import type { Edge, Problem, Reach, Site } from './problem.js';

export interface Column {
  readonly cost: number;
  readonly lower: number;
  readonly upper: number;
  readonly integer: boolean;
}

/** Column numbers with their factors. */
export type Terms = readonly (readonly [column: number, factor: number])[];

export interface Row {
  readonly lower: number;
  readonly upper: number;
  readonly terms: Terms;
}

export interface Program {
  readonly columns: readonly Column[];
  readonly rows: readonly Row[];
  /** Columns by which an answer is read: a model at a site, a model of an open choice, a cable as its two arcs. */
  readonly models: readonly (readonly number[])[];
  readonly choices: readonly (readonly number[])[];
  /** How many new switches there are of each model: the first column for one or more, the second for two or more. */
  readonly counts: readonly (readonly number[])[];
  readonly arcs: readonly (readonly [there: number, back: number])[];
  /** Of each reach and spare, the column that gives it up; only where they may be. */
  readonly givenUp: { readonly reaches: readonly number[]; readonly spares: readonly number[] } | undefined;
}

/** Among answers of one price, the one that leaves more cables where they are: far under any price, so that it decides nothing else. */
const CHANGE = 1e-4;
const LEAST_JOINED = 3;
/** A need that is given up counts more than any price. */
const GIVEN_UP = 1;

/**
 * The program of a problem. With `relaxed`, needs may be given up and sites may be off the network, and the price counts nothing:
 * the answer gives up the fewest.
 */
export function programOf(problem: Problem, relaxed = false): Program {
  const { sites, edges } = problem;
  const draft = new Draft(relaxed);
  const models = sites.map((site) =>
    site.candidates.map((candidate) => draft.binary(candidate.cost + (candidate.present ? 0 : CHANGE))),
  );
  const choices = problem.choices.map(({ candidates }) =>
    candidates.map((candidate) => draft.binary(candidate.cost + (candidate.present ? 0 : CHANGE))),
  );
  const roots = rootsOf(sites);
  // Nothing lies beyond a site that holds one cable, unless the tree grows from it.
  const leaf = sites.map((site, number) => roots.get(site.network) !== number && mostOf(site) <= 1);
  const arcs = edges.map((edge): readonly [number, number] => {
    const cost = edge.cost + (edge.present === undefined ? CHANGE : 0);
    const out = (from: number, to: number): number =>
      draft.binary(cost, leaf[from] === true || roots.get(sites[to]?.network ?? -1) === to ? 0 : 1);
    return [out(edge.a, edge.b), out(edge.b, edge.a)];
  });
  const groups = [...models.entries()].map(([number, columns]) => ({ site: sites[number], columns }));
  for (const { site, columns } of groups) {
    const needed = site?.kind === 'needed';
    draft.row(needed ? 1 : 0, 1, ones(columns));
  }
  for (const columns of choices) draft.row(1, 1, ones(columns));
  const at = incidence(sites.length, edges, arcs);
  edges.forEach((edge, number) => {
    const pair = arcs[number] ?? [0, 0];
    draft.row(edge.fixed ? 1 : 0, 1, ones(pair));
  });
  sites.forEach((site, number) => {
    const columns = models[number] ?? [];
    const { into, out } = at[number] ?? { into: [], out: [] };
    draft.row(-Infinity, 0, [
      ...ones([...into, ...out]),
      ...site.candidates.map((candidate, n): readonly [number, number] => [
        columns[n] ?? 0,
        -candidate.holds,
      ]),
    ]);
    // A new switch joins three or more; with two, one cable would do.
    if (site.kind === 'new')
      draft.row(0, Infinity, [
        ...ones([...into, ...out]),
        ...columns.map((column) => [column, -LEAST_JOINED] as const),
      ]);
    // What is not used has no cable.
    if (site.kind !== 'needed') for (const arc of out) draft.row(-Infinity, 0, [[arc, 1], ...minus(columns)]);
  });
  sites.forEach((site, number) => {
    const { into } = at[number] ?? { into: [] };
    const root = roots.get(site.network);
    if (root === number) draft.row(0, 0, ones(into));
    else if (site.kind !== 'needed') draft.row(0, 0, [...ones(into), ...minus(models[number] ?? [])]);
    else {
      const reached = relaxed ? draft.binary(0) : undefined;
      draft.row(reached === undefined ? 1 : 0, reached === undefined ? 1 : 0, [
        ...ones(into),
        ...(reached === undefined ? [] : ([[reached, -1]] as const)),
      ]);
      flow(draft, problem, arcs, { from: root ?? number, to: number, network: site.network }, reached);
    }
  });
  // With everything on, the tree joins them anyway.
  const reaches = problem.reaches.map((reach) =>
    relaxed || reach.off.size > 0 ? alive(draft, problem, arcs, reach) : -1,
  );
  const spares = problem.spares.map(({ sites: where, count }) => {
    const up = draft.givesUp();
    draft.row(count, Infinity, [
      ...where.flatMap((number) => [
        ...(sites[number]?.candidates ?? []).map((candidate, n): readonly [number, number] => [
          models[number]?.[n] ?? 0,
          candidate.ports,
        ]),
        ...minus([...(at[number]?.into ?? []), ...(at[number]?.out ?? [])]),
      ]),
      ...(up === undefined ? [] : ([[up, count]] as const)),
    ]);
    return up ?? -1;
  });
  // Of two that could be new in one zone, the first comes first: the other way round is the same design.
  sites.forEach((site, number) => {
    const before = sites[number - 1];
    if (
      site.kind === 'new' &&
      before?.kind === 'new' &&
      before.zone === site.zone &&
      before.network === site.network
    )
      draft.row(-Infinity, 0, [...ones(models[number] ?? []), ...minus(models[number - 1] ?? [])]);
  });
  // New switches by their model, wherever they go: where one goes makes no other gear.
  const counts = [
    ...new Set(
      sites
        .flatMap(({ kind, candidates }) => (kind === 'new' ? candidates : []))
        .map(({ model }) => model.name),
    ),
  ].map((name) => {
    const columns = sites.flatMap((site, number) =>
      site.kind === 'new'
        ? site.candidates.flatMap(({ model }, n) => (model.name === name ? (models[number]?.[n] ?? []) : []))
        : [],
    );
    const steps = columns.map(() => draft.binary(0));
    draft.row(0, 0, [...ones(columns), ...minus(steps)]);
    steps.slice(1).forEach((step, n) => {
      draft.row(-Infinity, 0, [
        [step, 1],
        [steps[n] ?? 0, -1],
      ]);
    });
    return steps;
  });
  // A new switch that takes direct current needs a way of a panel.
  const fed = sites.flatMap((site, number) =>
    site.kind !== 'new'
      ? []
      : site.candidates.flatMap(({ model }, n) =>
          model.ports.some((port) => port.medium === 'dc') ? (models[number]?.[n] ?? []) : [],
        ),
  );
  if (fed.length > 0) draft.row(-Infinity, problem.ways.length, ones(fed));
  return {
    columns: draft.columns,
    rows: draft.rows,
    models,
    choices,
    counts,
    arcs,
    givenUp: relaxed ? { reaches, spares } : undefined,
  };
}

/** Of each network the site that the tree grows from: of those that have to be there, the one that can hold the most cables. */
function rootsOf(sites: readonly Site[]): ReadonlyMap<number, number> {
  const roots = new Map<number, number>();
  sites.forEach((site, number) => {
    if (site.kind !== 'needed') return;
    const known = sites[roots.get(site.network) ?? -1];
    if (known === undefined || mostOf(site) > mostOf(known)) roots.set(site.network, number);
  });
  return roots;
}

function mostOf(site: Site): number {
  return Math.max(0, ...site.candidates.map((candidate) => candidate.holds));
}

class Draft {
  readonly columns: Column[] = [];
  readonly rows: Row[] = [];
  constructor(private readonly relaxed: boolean) {}

  /** With the price that counts; where needs may be given up, prices don't. */
  binary(cost: number, upper = 1): number {
    const counted = this.relaxed && cost !== GIVEN_UP ? 0 : cost;
    return this.columns.push({ cost: counted, lower: 0, upper, integer: true }) - 1;
  }

  /** Whether a column can be anything but nought. */
  isOpen(column: number): boolean {
    return (this.columns[column]?.upper ?? 0) > 0;
  }

  share(): number {
    return this.columns.push({ cost: 0, lower: 0, upper: 1, integer: false }) - 1;
  }

  /** A column by which a need is given up; undefined where none may be. */
  givesUp(): number | undefined {
    return this.relaxed ? this.binary(GIVEN_UP) : undefined;
  }

  row(lower: number, upper: number, terms: Terms): void {
    this.rows.push({ lower, upper, terms: merged(terms) });
  }
}

const ones = (columns: readonly number[]): Terms => columns.map((column) => [column, 1] as const);
const minus = (columns: readonly number[]): Terms => columns.map((column) => [column, -1] as const);

function merged(terms: Terms): Terms {
  const sums = new Map<number, number>();
  for (const [column, factor] of terms) sums.set(column, (sums.get(column) ?? 0) + factor);
  return [...sums].filter(([, factor]) => factor !== 0);
}

type Arcs = readonly (readonly [there: number, back: number])[];

function incidence(
  count: number,
  edges: readonly Edge[],
  arcs: Arcs,
): readonly { readonly into: number[]; readonly out: number[] }[] {
  const at = Array.from({ length: count }, () => ({ into: [] as number[], out: [] as number[] }));
  edges.forEach(({ a, b }, number) => {
    const [there, back] = arcs[number] ?? [0, 0];
    at[a]?.out.push(there);
    at[b]?.into.push(there);
    at[b]?.out.push(back);
    at[a]?.into.push(back);
  });
  return at;
}

interface Ends {
  readonly from: number;
  readonly to: number;
  readonly network: number;
}

/** One unit from the root of a network to a site, along arcs of the tree; as much as `amount` where that is a column. */
function flow(
  draft: Draft,
  { sites, edges }: Problem,
  arcs: Arcs,
  ends: Ends,
  amount: number | undefined,
): void {
  const balance: [number, number][][] = sites.map(() => []);
  edges.forEach(({ a, b }, number) => {
    if (sites[a]?.network !== ends.network) return;
    const [there, back] = arcs[number] ?? [0, 0];
    for (const [from, to, arc] of [
      [a, b, there],
      [b, a, back],
    ] as const) {
      if (!draft.isOpen(arc)) continue;
      const moved = draft.share();
      draft.row(-Infinity, 0, [
        [moved, 1],
        [arc, -1],
      ]);
      balance[from]?.push([moved, 1]);
      balance[to]?.push([moved, -1]);
    }
  });
  leave(draft, sites, balance, ends, amount, 1);
}

function leave(
  draft: Draft,
  sites: readonly Site[],
  balance: readonly (readonly [number, number][])[],
  { from, to, network }: Ends,
  amount: number | undefined,
  sign: 1 | -1,
): void {
  sites.forEach((site, number) => {
    if (site.network !== network || (number !== from && number !== to)) {
      if (site.network === network) draft.row(0, 0, balance[number] ?? []);
      return;
    }
    if (from === to) return;
    const out = number === from ? 1 : -1;
    if (amount === undefined) draft.row(out, out, balance[number] ?? []);
    else if (sign > 0) draft.row(0, 0, [...(balance[number] ?? []), [amount, -out]]);
    else draft.row(out, out, [...(balance[number] ?? []), [amount, out]]);
  });
}

/** A way from what hosts a source to a screen that passes no device that is off. The column gives it up. */
function alive(draft: Draft, { sites, edges }: Problem, arcs: Arcs, reach: Reach): number {
  const network = sites[reach.to]?.network ?? -1;
  const up = draft.givesUp();
  const balance: [number, number][][] = sites.map(() => []);
  edges.forEach(({ a, b }, number) => {
    if (sites[a]?.network !== network || reach.off.has(a) || reach.off.has(b)) return;
    const [there, back] = arcs[number] ?? [0, 0];
    for (const [from, to] of [
      [a, b],
      [b, a],
    ] as const) {
      const moved = draft.share();
      draft.row(-Infinity, 0, [
        [moved, 1],
        [there, -1],
        [back, -1],
      ]);
      balance[from]?.push([moved, 1]);
      balance[to]?.push([moved, -1]);
    }
  });
  leave(draft, sites, balance, { from: reach.from, to: reach.to, network }, up, -1);
  return up ?? -1;
}
