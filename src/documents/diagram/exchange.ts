/** Two wires of which one lies in the other's way: laid anew in the other order, where that is cheaper for both together. */
import type { Field } from './field.js';
import type { Search } from './search.js';
import { hold, lay, mark, type Job, type Way } from './way.js';

/** As many bends lead from any end to any other, where nothing stands between. */
const FEW_BENDS = 2;

/** Exchange what can be of the ways that wires have; the field is kept with them. */
export function exchange(field: Field, search: Search, jobs: readonly Job[], ways: Map<Job, Way>): void {
  const byIndex = new Map(jobs.map((job) => [job.index, job]));
  for (const job of jobs) {
    const given = ways.get(job);
    if (!isBent(given)) continue;
    for (const index of besides(field, given)) {
      const own = ways.get(job);
      if (!isBent(own)) break;
      const other = byIndex.get(index);
      const theirs = other && ways.get(other);
      if (other === undefined || other === job || theirs === undefined) continue;
      mark(field, own, 0);
      const now = search.price(own);
      mark(field, theirs, 0);
      const found = layBoth(field, search, job, other, now);
      const isBetter =
        found !== undefined &&
        priceOf(field, search, job, ...found) < priceOf(field, search, job, own, theirs);
      const [first, second] = isBetter ? found : [own, theirs];
      mark(field, first, job.index);
      mark(field, second, other.index);
      ways.set(job, first);
      ways.set(other, second);
    }
  }
}

/** The first as if the second were not there, and the second beside it; undefined where the first gains nothing by it, or the second has no way. */
function layBoth(
  field: Field,
  search: Search,
  job: Job,
  other: Job,
  now: number,
): readonly [Way, Way] | undefined {
  hold(field, other, 1);
  const first = lay(field, search, job);
  hold(field, other, 0);
  if (first === undefined || search.price(first) >= now) return undefined;
  mark(field, first, job.index);
  const second = lay(field, search, other);
  mark(field, first, 0);
  return second && [first, second];
}

/** What two ways cost together, neither of which is in the field. Where they cross, that counts once. */
function priceOf(field: Field, search: Search, job: Job, first: Way, second: Way): number {
  const one = search.price(first);
  mark(field, first, job.index);
  const other = search.price(second);
  mark(field, first, 0);
  return one + other;
}

/** The wires that a way crosses, or bends beside. */
function besides(field: Field, way: Way): ReadonlySet<number> {
  const found = new Set<number>();
  way.forEach((node, index) => {
    found.add(field.across[node] ?? 0).add(field.down[node] ?? 0);
    const [before, after] = [way[index - 1] ?? node, way[index + 1] ?? node];
    if (node - before === after - node) return;
    for (const near of [node - 1, node + 1, node - field.columns, node + field.columns])
      found.add(field.across[near] ?? 0).add(field.down[near] ?? 0);
  });
  return found;
}

/** Whether a way has more bends than a draughtsman would have it. */
function isBent(way: Way | undefined): way is Way {
  if (way === undefined) return false;
  const steps = way.slice(1).map((node, index) => node - (way[index] ?? 0));
  return steps.filter((step, index) => index > 0 && step !== steps[index - 1]).length > FEW_BENDS;
}
