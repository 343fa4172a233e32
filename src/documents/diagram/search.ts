/** The cheapest way of one wire over the field: short, with few bends and few crossings (A* over nodes and directions). */
import { ACROSS, DOWN, type Field } from './field.js';

const STEP = 2;
const BEND = 9;
const CROSSING = 14;

export interface Search {
  /** Nodes from start to goal, each the end of a stretch across, or undefined where no way leads or one of them is not on the field. */
  readonly find: (start: number, goal: number) => readonly number[] | undefined;
  /** What a way costs among what lies in the field now. */
  readonly price: (way: readonly number[]) => number;
  /** Whether the way that was found last is as cheap as any could be, were nothing else there. */
  readonly best: () => boolean;
}

/** What a search writes down. What is of a state counts only in the round that it is of, so that nothing is cleared. */
interface Tables {
  readonly columns: number;
  readonly nodes: number;
  readonly cost: Int32Array;
  readonly seen: Int32Array;
  readonly from: Int32Array;
  readonly done: Int32Array;
  readonly columnOf: Int32Array;
  readonly rowOf: Int32Array;
  /** The last entry of those whose ways cost the same at least, by that cost; -1 where there is none. */
  heads: Int32Array;
  /** Of each entry its state, and the entry before it of the same cost. */
  readonly states: Int32Array;
  readonly below: Int32Array;
  /** States that are tried from the goal, and the round in which each was. */
  readonly trail: Int32Array;
  readonly met: Int32Array;
  round: number;
}

/** A state is taken once, and three others are entered from it at most; the start has two. */
const entriesFor = (nodes: number): number => nodes * 2 * 3 + 2;
const FIRST_HEADS = 4096;

/** After so many states it is worth a look from the goal whether any way leads there, and this is how far the look goes. */
const LONG = 500;
const MOST_MET = 500;

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
    heads: table(FIRST_HEADS).fill(-1),
    states: table(entriesFor(nodes)),
    below: table(entriesFor(nodes)),
    trail: table(MOST_MET + 4),
    met: table(nodes * 2),
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
  const { cost, seen, from, done, columnOf, rowOf, states, below, trail, met } = tables;
  let best = false;

  /** Whether so little leads to the goal that it is soon clear that no way does. */
  const isShutIn = (start: number, goal: number): boolean => {
    const { round } = tables;
    let count = 0;
    const meet = (state: number): void => {
      if (met[state] === round) return;
      met[state] = round;
      trail[count] = state;
      count += 1;
    };
    meet(goal * 2 + ACROSS);
    meet(goal * 2 + DOWN);
    for (let at = 0; at < count; at += 1) {
      if (count > MOST_MET) return false;
      const state = trail[at] ?? 0;
      const node = state >> 1;
      if (node === start) return false;
      const isAcross = (state & 1) === ACROSS;
      if (closed[node] !== 0 || (isAcross ? across : down)[node] !== 0) continue;
      if ((isAcross ? down : across)[node] === 0) meet(state ^ 1);
      else if (node === goal) continue;
      const place = (isAcross ? columnOf : rowOf)[node] ?? 0;
      const step = isAcross ? 1 : columns;
      if (place > 0) meet(state - 2 * step);
      if (place < (isAcross ? columns : rows) - 1) meet(state + 2 * step);
    }
    return true;
  };

  // In one piece, since most of the time of a drawing is spent here: what it counts with stays in registers.
  const find: Search['find'] = (start, goal) => {
    best = false;
    if (start < 0 || goal < 0) return undefined;
    tables.round += 1;
    const { round } = tables;
    let { heads } = tables;
    const goalX = columnOf[goal] ?? 0;
    const goalY = rowOf[goal] ?? 0;
    let entries = 0;
    let lowest = 0;
    let highest = -1;
    let least = 0;
    // Before the first there is the start, which has no state.
    let state = -1;
    let spent = 0;
    for (let taken = 0; ; taken += 1) {
      if (taken === LONG && isShutIn(start, goal)) {
        heads.fill(-1, lowest, highest + 1);
        return undefined;
      }
      const node = state < 0 ? start : state >> 1;
      const way = state & 1;
      const x = columnOf[node] ?? 0;
      const y = rowOf[node] ?? 0;
      // A bend, a step back and a step on; of the start, both ways to begin.
      for (let move = 0; move < 3; move += 1) {
        let next = node;
        let nextX = x;
        let nextY = y;
        let nextWay = way;
        let price = spent;
        if (state < 0) {
          if (move === 2) break;
          nextWay = move;
          price = move === DOWN ? BEND : 0;
        } else if (move === 0) {
          // A bend needs the node to itself, and is none where the way begins.
          if (from[state] === -1 || across[node] !== 0 || down[node] !== 0) continue;
          nextWay = 1 - way;
          price += BEND;
        } else {
          const step = move === 1 ? -1 : 1;
          let over: number | undefined;
          if (way === ACROSS) {
            nextX += step;
            if (nextX < 0 || nextX >= columns) continue;
            next += step;
            if (across[next] !== 0) continue;
            over = down[next];
          } else {
            nextY += step;
            if (nextY < 0 || nextY >= rows) continue;
            next += step * columns;
            if (down[next] !== 0) continue;
            over = across[next];
          }
          if (closed[next] !== 0) continue;
          price += STEP;
          if (over !== 0) {
            if (next === goal) continue;
            price += CROSSING;
          }
        }
        const entered = next * 2 + nextWay;
        if (seen[entered] === round && (cost[entered] ?? 0) <= price) continue;
        seen[entered] = round;
        cost[entered] = price;
        from[entered] = state;
        const dx = Math.abs(nextX - goalX);
        const dy = Math.abs(nextY - goalY);
        // One bend where the goal is aside of the line that this state is on.
        const aside = nextWay === ACROSS ? dy > 0 : dx > 0;
        const key = price + (dx + dy) * STEP + (aside ? BEND : 0);
        if (entries === 0) {
          lowest = key;
          least = key;
        }
        while (key >= heads.length) heads = tables.heads = widened(heads);
        states[entries] = entered;
        below[entries] = heads[key] ?? -1;
        heads[key] = entries;
        entries += 1;
        if (key < lowest) lowest = key;
        if (key > highest) highest = key;
      }
      // What was entered last is taken first.
      do {
        while (lowest <= highest && heads[lowest] === -1) lowest += 1;
        if (lowest > highest) return undefined;
        const entry = heads[lowest] ?? 0;
        heads[lowest] = below[entry] ?? -1;
        state = states[entry] ?? 0;
      } while (done[state] === round);
      done[state] = round;
      spent = cost[state] ?? 0;
      if (state >> 1 !== goal) continue;
      heads.fill(-1, lowest, highest + 1);
      best = spent <= least;
      return trace(state);
    }
  };

  const trace = (last: number): readonly number[] => {
    const way: number[] = [];
    for (let state = last; state !== -1; state = from[state] ?? -1) {
      const node = state >> 1;
      if (way.at(-1) !== node) way.push(node);
    }
    return way.reverse();
  };

  const price = (way: readonly number[]): number => {
    let sum = 0;
    let before = ACROSS;
    way.forEach((node, index) => {
      const last = way[index - 1];
      if (last === undefined) return;
      const heading = Math.abs(node - last) === 1 ? ACROSS : DOWN;
      if (heading !== before) sum += BEND;
      before = heading;
      sum += STEP + ((heading === ACROSS ? down : across)[node] === 0 ? 0 : CROSSING);
    });
    return sum;
  };

  return { find, price, best: () => best };
}

function widened(heads: Int32Array): Int32Array {
  const wide = new Int32Array(heads.length * 2).fill(-1);
  wide.set(heads);
  return wide;
}
