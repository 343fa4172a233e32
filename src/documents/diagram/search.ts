/** The cheapest way of one wire over the field: short, with few bends and few crossings (A* over nodes and directions). */
import { ACROSS, DOWN, type Field } from './field.js';

const STEP = 2;
const BEND = 9;
const CROSSING = 14;

export interface Search {
  /** Nodes from start to goal, each the end of a stretch across, or undefined where no way leads. */
  readonly find: (start: number, goal: number) => readonly number[] | undefined;
}

/** Prepare searches over a field; its tables are used again from search to search. */
export function createSearch(field: Field): Search {
  const { columns, rows, closed, across, down } = field;
  const states = columns * rows * 2;
  const cost = new Int32Array(states);
  const seen = new Int32Array(states);
  const from = new Int32Array(states);
  const done = new Int32Array(states);
  let round = 0;

  const find: Search['find'] = (start, goal) => {
    round += 1;
    const goalX = goal % columns;
    const goalY = Math.floor(goal / columns);
    const left = (node: number): number => {
      const dx = Math.abs((node % columns) - goalX);
      const dy = Math.abs(Math.floor(node / columns) - goalY);
      return (dx + dy) * STEP + (dx > 0 && dy > 0 ? BEND : 0);
    };
    const buckets: number[][] = [];
    let lowest = Infinity;
    const push = (state: number, spent: number, before: number): void => {
      if (seen[state] === round && (cost[state] ?? 0) <= spent) return;
      seen[state] = round;
      cost[state] = spent;
      from[state] = before;
      const key = spent + left(state >> 1);
      (buckets[key] ??= []).push(state);
      if (key < lowest) lowest = key;
    };
    push(start * 2 + ACROSS, 0, -1);
    push(start * 2 + DOWN, BEND, -1);
    while (lowest < buckets.length) {
      const state = buckets[lowest]?.pop();
      if (state === undefined) {
        lowest += 1;
        continue;
      }
      if (done[state] === round) continue;
      done[state] = round;
      const node = state >> 1;
      const way = state & 1;
      const spent = cost[state] ?? 0;
      if (node === goal) return trace(state);
      const x = node % columns;
      const first = from[state] === -1;
      const clear = first || (across[node] === 0 && down[node] === 0);
      // A bend needs the node to itself.
      if (clear && !first) push(node * 2 + (1 - way), spent + BEND, state);
      const step = way === ACROSS ? 1 : columns;
      for (const next of [node - step, node + step]) {
        if (next < 0 || next >= columns * rows) continue;
        if (way === ACROSS && Math.abs((next % columns) - x) !== 1) continue;
        if (closed[next] !== 0) continue;
        const along = way === ACROSS ? across[next] : down[next];
        if (along !== 0) continue;
        const over = way === ACROSS ? down[next] : across[next];
        if (over !== 0 && next === goal) continue;
        push(next * 2 + way, spent + STEP + (over === 0 ? 0 : CROSSING), state);
      }
    }
    return undefined;
  };

  const trace = (last: number): readonly number[] => {
    const nodes: number[] = [];
    for (let state = last; state !== -1; state = from[state] ?? -1) {
      const node = state >> 1;
      if (nodes.at(-1) !== node) nodes.push(node);
    }
    return nodes.reverse();
  };

  return { find };
}
