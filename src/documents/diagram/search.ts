/** The cheapest way of one wire over the field: short, with few bends and few crossings (A* over nodes and directions). */
import { ACROSS, DOWN, type Field } from './field.js';

const STEP = 2;
const BEND = 9;
const CROSSING = 14;

export interface Search {
  /** Nodes from start to goal, each the end of a stretch across, or undefined where no way leads. */
  readonly find: (start: number, goal: number) => readonly number[] | undefined;
  /** Whether the way that was found last is as cheap as any could be, were nothing else there. */
  readonly best: () => boolean;
}

/** What a search writes down. An entry counts only in the round that it is of, so that nothing is cleared. */
interface Tables {
  readonly columns: number;
  readonly nodes: number;
  readonly cost: Int32Array;
  readonly seen: Int32Array;
  readonly from: Int32Array;
  readonly done: Int32Array;
  readonly columnOf: Int32Array;
  readonly rowOf: Int32Array;
  round: number;
}

/** The tables of the last field, which serve the next one of its size: to make them takes longer than many a search. */
let lastTables: Tables | undefined;

function tablesFor(columns: number, nodes: number): Tables {
  if (lastTables?.columns === columns && lastTables.nodes === nodes && lastTables.round < MOST_ROUNDS)
    return lastTables;
  const table = (of: number): Int32Array => new Int32Array(of);
  const columnOf = table(nodes);
  const rowOf = table(nodes);
  for (let node = 0, x = 0, y = 0; node < nodes; node += 1) {
    columnOf[node] = x;
    rowOf[node] = y;
    x += 1;
    if (x === columns) {
      x = 0;
      y += 1;
    }
  }
  lastTables = {
    columns,
    nodes,
    cost: table(nodes * 2),
    seen: table(nodes * 2),
    from: table(nodes * 2),
    done: table(nodes * 2),
    columnOf,
    rowOf,
    round: 0,
  };
  return lastTables;
}

/** Rounds are counted in 32 bits. */
const MOST_ROUNDS = 2 ** 30;

/** Prepare searches over a field. */
export function createSearch(field: Field): Search {
  const { columns, rows, closed, across, down } = field;
  const nodes = columns * rows;
  const tables = tablesFor(columns, nodes);
  const { cost, seen, from, done, columnOf, rowOf } = tables;
  /** States by what a way through them costs at least; what is pushed last is taken first. */
  const buckets: number[][] = [];
  let highest = -1;
  let lowest = 0;
  let round = 0;
  let best = false;
  let goalX = 0;
  let goalY = 0;

  const push = (state: number, spent: number, before: number): void => {
    if (seen[state] === round && (cost[state] ?? 0) <= spent) return;
    seen[state] = round;
    cost[state] = spent;
    from[state] = before;
    const node = state >> 1;
    const dx = Math.abs((columnOf[node] ?? 0) - goalX);
    const dy = Math.abs((rowOf[node] ?? 0) - goalY);
    // One bend where the goal is aside of the line that this state is on.
    const aside = (state & 1) === ACROSS ? dy > 0 : dx > 0;
    const key = spent + (dx + dy) * STEP + (aside ? BEND : 0);
    while (buckets.length <= key) buckets.push([]);
    buckets[key]?.push(state);
    if (key < lowest) lowest = key;
    if (key > highest) highest = key;
  };

  const find: Search['find'] = (start, goal) => {
    tables.round += 1;
    ({ round } = tables);
    goalX = columnOf[goal] ?? 0;
    goalY = rowOf[goal] ?? 0;
    for (let key = 0; key <= highest; key += 1) {
      const bucket = buckets[key];
      if (bucket !== undefined) bucket.length = 0;
    }
    highest = -1;
    lowest = buckets.length;
    push(start * 2 + ACROSS, 0, -1);
    const least = highest;
    best = false;
    push(start * 2 + DOWN, BEND, -1);
    while (lowest <= highest) {
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
      if (node === goal) {
        best = spent <= least;
        return trace(state);
      }
      const first = from[state] === -1;
      const clear = first || (across[node] === 0 && down[node] === 0);
      // A bend needs the node to itself.
      if (clear && !first) push(node * 2 + (1 - way), spent + BEND, state);
      const x = columnOf[node] ?? 0;
      const before = way === ACROSS ? x > 0 : node >= columns;
      const after = way === ACROSS ? x < columns - 1 : node < nodes - columns;
      const step = way === ACROSS ? 1 : columns;
      if (before) go(node - step, way, spent, state, goal);
      if (after) go(node + step, way, spent, state, goal);
    }
    return undefined;
  };

  /** Take one step, where nothing stands there or runs along. */
  const go = (next: number, way: number, spent: number, state: number, goal: number): void => {
    if (closed[next] !== 0) return;
    const along = way === ACROSS ? across[next] : down[next];
    if (along !== 0) return;
    const over = way === ACROSS ? down[next] : across[next];
    if (over !== 0 && next === goal) return;
    push(next * 2 + way, spent + STEP + (over === 0 ? 0 : CROSSING), state);
  };

  const trace = (last: number): readonly number[] => {
    const way: number[] = [];
    for (let state = last; state !== -1; state = from[state] ?? -1) {
      const node = state >> 1;
      if (way.at(-1) !== node) way.push(node);
    }
    return way.reverse();
  };

  return { find, best: () => best };
}
