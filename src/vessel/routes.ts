/**
 * Shortest ways between zones along runs (Dijkstra, each search paused where its answer is found and taken up again for the
 * next question). Ties are broken by name, so that the order of declarations decides nothing.
 */
import type { Run, Vessel } from './model.js';
import { createHeap } from './heap.js';
import { compareText } from './words.js';

export type Route =
  | {
      readonly kind: 'route';
      readonly zones: readonly string[];
      readonly runs: readonly Run[];
      readonly metres: number;
    }
  /** The only way leads over a run of unknown length, or along a run that is not declared. */
  | { readonly kind: 'unknown'; readonly missing: string }
  | { readonly kind: 'none' };

export interface Routes {
  /**
   * The way from one zone to another, through the zones `via` in order, along the runs named in `by`.
   * Where `by` is given it decides the way and `via` is left out.
   */
  readonly between: (from: string, to: string, by?: readonly string[], via?: readonly string[]) => Route;
}

interface Edge {
  readonly to: string;
  readonly run: Run;
  readonly metres: number;
}

interface Reached {
  readonly metres: number;
  readonly from: string | undefined;
  readonly run: Run | undefined;
}

interface Search {
  readonly settled: Map<string, Reached>;
  readonly best: Map<string, Reached>;
  readonly frontier: ReturnType<typeof createHeap<{ readonly zone: string; readonly metres: number }>>;
}

/** Describes a run in a message: its name, or its two ends. */
export function runText(run: Run): string {
  return run.name ?? `${run.from} -- ${run.to}`;
}

/** Prepare the routes of a vessel. */
export function createRoutes(vessel: Vessel): Routes {
  const edges = new Map<string, Edge[]>();
  const unmeasured = new Map<string, Run[]>();
  const named = new Map<string, Run>();
  for (const run of vessel.runs) {
    if (run.name !== undefined && !named.has(run.name)) named.set(run.name, run);
    for (const [from, to] of [
      [run.from, run.to],
      [run.to, run.from],
    ] as const) {
      if (run.lengthMetres === undefined) push(unmeasured, from, run);
      else push(edges, from, { to, run, metres: run.lengthMetres });
    }
  }
  const searches = new Map<string, Search>();
  const remembered = new Map<string, Route>();

  const start = (from: string): Search => {
    const found = searches.get(from);
    if (found !== undefined) return found;
    const search: Search = {
      settled: new Map(),
      best: new Map([[from, { metres: 0, from: undefined, run: undefined }]]),
      frontier: createHeap((a, b) => a.metres - b.metres || compareText(a.zone, b.zone)),
    };
    search.frontier.push({ zone: from, metres: 0 });
    searches.set(from, search);
    return search;
  };

  const settle = (search: Search, target: string): void => {
    while (!search.settled.has(target)) {
      const next = search.frontier.pop();
      if (next === undefined) return;
      const reached = search.best.get(next.zone);
      if (reached === undefined || search.settled.has(next.zone)) continue;
      search.settled.set(next.zone, reached);
      for (const edge of edges.get(next.zone) ?? []) {
        if (search.settled.has(edge.to)) continue;
        const candidate: Reached = { metres: reached.metres + edge.metres, from: next.zone, run: edge.run };
        if (!better(candidate, search.best.get(edge.to))) continue;
        search.best.set(edge.to, candidate);
        search.frontier.push({ zone: edge.to, metres: candidate.metres });
      }
    }
  };

  /** The shortest way; worked out from the zone that comes first by name, so that both directions agree. */
  const direct = (from: string, to: string): Route => {
    if (from === to) return { kind: 'route', zones: [from], runs: [], metres: 0 };
    if (compareText(from, to) > 0) return reversed(direct(to, from));
    const key = `${from}\n${to}`;
    const known = remembered.get(key);
    if (known !== undefined) return known;
    const search = start(from);
    settle(search, to);
    const route = search.settled.has(to) ? trace(search, to) : withoutLength(from, to);
    remembered.set(key, route);
    return route;
  };

  const withoutLength = (from: string, to: string): Route => {
    const seen = new Set([from]);
    const queue = [from];
    let missing: Run | undefined;
    for (const zone of queue) {
      for (const run of [
        ...(edges.get(zone) ?? []).map((edge) => edge.run),
        ...(unmeasured.get(zone) ?? []),
      ]) {
        const next = run.from === zone ? run.to : run.from;
        if (
          run.lengthMetres === undefined &&
          (missing === undefined || compareText(run.origin, missing.origin) < 0)
        )
          missing = run;
        if (!seen.has(next)) {
          seen.add(next);
          queue.push(next);
        }
      }
    }
    if (!seen.has(to) || missing === undefined) return { kind: 'none' };
    return { kind: 'unknown', missing: `run ${runText(missing)} has no length` };
  };

  const along = (from: string, to: string, by: readonly string[]): Route => {
    let ways: readonly { readonly at: string; readonly route: Route }[] = [
      { at: from, route: { kind: 'route', zones: [from], runs: [], metres: 0 } },
    ];
    for (const name of by) {
      const run = named.get(name);
      if (run === undefined) return { kind: 'unknown', missing: `run ${name} is not declared` };
      const length = run.lengthMetres;
      if (length === undefined) return { kind: 'unknown', missing: `run ${runText(run)} has no length` };
      const next = [
        [run.from, run.to],
        [run.to, run.from],
      ] as const;
      ways = next.map(([enter, leave]) => ({
        at: leave,
        route: shortest(
          ways.map((way) =>
            joined(joined(way.route, direct(way.at, enter)), {
              kind: 'route',
              zones: [enter, leave],
              runs: [run],
              metres: length,
            }),
          ),
        ),
      }));
    }
    return shortest(ways.map((way) => joined(way.route, direct(way.at, to))));
  };

  return {
    between: (from, to, by = [], via = []) => {
      if (by.length > 0) return along(from, to, by);
      let route: Route = { kind: 'route', zones: [from], runs: [], metres: 0 };
      let at = from;
      for (const zone of [...via, to]) {
        route = joined(route, direct(at, zone));
        at = zone;
      }
      return route;
    },
  };
}

function push<T>(table: Map<string, T[]>, key: string, item: T): void {
  const list = table.get(key);
  if (list === undefined) table.set(key, [item]);
  else list.push(item);
}

function better(candidate: Reached, current: Reached | undefined): boolean {
  if (current === undefined) return true;
  if (candidate.metres !== current.metres) return candidate.metres < current.metres;
  return (
    (compareText(candidate.from ?? '', current.from ?? '') ||
      compareText(candidate.run?.origin ?? '', current.run?.origin ?? '')) < 0
  );
}

function trace(search: Search, to: string): Route {
  const zones: string[] = [];
  const runs: Run[] = [];
  let at: string | undefined = to;
  while (at !== undefined) {
    zones.push(at);
    const reached: Reached | undefined = search.settled.get(at);
    if (reached?.run !== undefined) runs.push(reached.run);
    at = reached?.from;
  }
  return {
    kind: 'route',
    zones: zones.reverse(),
    runs: runs.reverse(),
    metres: search.settled.get(to)?.metres ?? 0,
  };
}

function reversed(route: Route): Route {
  if (route.kind !== 'route') return route;
  return {
    kind: 'route',
    zones: [...route.zones].reverse(),
    runs: [...route.runs].reverse(),
    metres: route.metres,
  };
}

/** One way after another. No way at all outweighs an unknown one. */
function joined(first: Route, second: Route): Route {
  if (first.kind === 'none' || second.kind === 'none') return { kind: 'none' };
  if (first.kind === 'unknown') return first;
  if (second.kind === 'unknown') return second;
  return {
    kind: 'route',
    zones: [...first.zones, ...second.zones.slice(1)],
    runs: [...first.runs, ...second.runs],
    metres: first.metres + second.metres,
  };
}

function shortest(ways: readonly Route[]): Route {
  let best: Route = { kind: 'none' };
  for (const way of ways) {
    if (way.kind === 'none') continue;
    if (
      best.kind === 'none' ||
      (way.kind === 'route' && (best.kind === 'unknown' || way.metres < best.metres))
    )
      best = way;
  }
  return best;
}
