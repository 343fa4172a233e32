/** Which banks carry which loads in a mode, and what charges them: everything that is joined as the switches stand. */
import { createUnionFind } from '../../../vessel/unionFind.js';
import { compareText } from '../../../vessel/words.js';
import type { ModeLoads } from '../loads/loads.js';
import type { TerminalLoad } from '../loads/load.js';
import type { Bank, Join, SupplyGraph, SupplyState } from '../supply/graph.js';
import { sourcesIn, type ChargeSource } from './sources.js';

/** Banks that are joined, with the loads that they carry together. */
export interface Pool {
  /** By name. */
  readonly banks: readonly Bank[];
  readonly loads: readonly TerminalLoad[];
  /** What charges it, alone or with other pools. */
  readonly sources: readonly ChargeSource[];
  /** Why it is not known what it carries. */
  readonly missing: string | undefined;
}

interface Draft {
  readonly banks: Bank[];
  readonly loads: TerminalLoad[];
  missing: string | undefined;
}

/** The pools of a mode; loads that no bank reaches are in none. */
export function poolsIn(graph: SupplyGraph, state: SupplyState, loads: ModeLoads): readonly Pool[] {
  const sets = createUnionFind<string>();
  for (const edge of graph.edges) {
    const ends = [edge.from, ...edge.legs.map((leg) => leg.to)].flatMap((end) => end ?? []);
    for (const end of ends.slice(1)) sets.join(ends[0] ?? end, end);
  }
  for (const bank of graph.banks)
    for (const terminal of bank.terminals) sets.join(bank.terminals[0] ?? terminal, terminal);
  const open: Join[] = [];
  const diodes = new Map<string, string[]>();
  for (const join of graph.joins) {
    if (join.kind === 'converter' || join.kind === 'diode') continue;
    const closed = state.closed(join);
    if (closed === true) sets.join(join.a, join.b);
    if (closed === undefined) open.push(join);
  }
  for (const { kind, a, b } of graph.joins) {
    if (kind !== 'diode') continue;
    const to = sets.find(b);
    const from = diodes.get(to) ?? [];
    if (!from.includes(sets.find(a))) from.push(sets.find(a));
    diodes.set(to, from);
  }

  const drafts = new Map<string, Draft>();
  for (const bank of [...graph.banks].sort((x, y) => compareText(x.device, y.device))) {
    const [terminal] = bank.terminals;
    if (terminal === undefined) continue;
    const root = sets.find(terminal);
    const draft = drafts.get(root) ?? { banks: [], loads: [], missing: undefined };
    draft.banks.push(bank);
    drafts.set(root, draft);
  }
  const drawn = new Set<string>();
  for (const load of loads.all) {
    if (load.state === 'off') continue;
    const root = sets.find(load.terminal);
    drawn.add(root);
    const carriers = carriersOf(root, drafts, diodes);
    for (const carrier of carriers) {
      if (carriers.length > 1) carrier.missing ??= `diodes let several banks carry ${load.device}`;
      else carrier.loads.push(load);
    }
  }
  for (const join of open) {
    const [a, b] = [sets.find(join.a), sets.find(join.b)];
    if (a === b) continue;
    const matters = (root: string): boolean => drawn.has(root) || drafts.has(root);
    const why =
      join.kind === 'switch'
        ? `it is not said how ${join.device} stands`
        : `${join.model.name} does not say at which voltage it closes`;
    for (const [here, there] of [
      [a, b],
      [b, a],
    ] as const) {
      const draft = drafts.get(here);
      if (draft !== undefined && matters(there)) draft.missing ??= why;
    }
  }
  for (const [root, draft] of drafts) {
    const before = [...upstreamOf(root, diodes)].flatMap((one) => drafts.get(one) ?? []);
    for (const one of before) {
      const why = `diodes let ${one.banks[0]?.device ?? 'another bank'} carry what hangs on ${draft.banks[0]?.device ?? 'it'}`;
      one.missing ??= why;
      draft.missing ??= why;
    }
  }
  const charging = sourcesIn(graph, state);
  return [...drafts].map(([root, draft]): Pool => {
    const behind = new Set([root, ...upstreamOf(root, diodes)]);
    return {
      ...draft,
      sources: charging.filter((source) => source.terminals.some((one) => behind.has(sets.find(one)))),
    };
  });
}

/** The pools that carry what hangs at a root: its own banks, else those that reach it through diodes. */
function carriersOf(
  root: string,
  drafts: ReadonlyMap<string, Draft>,
  diodes: ReadonlyMap<string, readonly string[]>,
): readonly Draft[] {
  const own = drafts.get(root);
  if (own !== undefined) return [own];
  return [...upstreamOf(root, diodes)].flatMap((one) => drafts.get(one) ?? []);
}

/** What feeds a root through diodes, one after another. */
function upstreamOf(root: string, diodes: ReadonlyMap<string, readonly string[]>): ReadonlySet<string> {
  const seen = new Set<string>();
  const queue = [root];
  for (const at of queue)
    for (const before of diodes.get(at) ?? []) {
      if (before === root || seen.has(before)) continue;
      seen.add(before);
      queue.push(before);
    }
  return seen;
}
