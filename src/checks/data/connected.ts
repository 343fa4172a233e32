/** Which devices data can get between at all, by whatever is plugged together: what is apart need not be searched. */
import { createUnionFind } from '../../vessel/unionFind.js';
import type { Vessel } from '../../vessel/model.js';

/** Stands for every device at an end that does not resolve. */
const ANY = '';

/** Whether two devices may be joined, through however many others. Supply joins nothing. */
export function connections(vessel: Vessel): (a: string, b: string) => boolean {
  const sets = createUnionFind<string>();
  for (const { a, b } of vessel.links) sets.join(a.device ?? ANY, b.device ?? ANY);
  for (const backbone of vessel.backbones) {
    const bus = `backbone ${backbone.name}`;
    for (const item of backbone.items) {
      if (item.kind === 'tee')
        for (const end of [item.end, ...item.branches.map((branch) => branch.end)])
          if (end !== undefined) sets.join(bus, end.device ?? ANY);
      if (item.kind === 'terminator' && item.in !== undefined) sets.join(bus, item.in);
    }
  }
  return (a, b) => {
    const any = sets.find(ANY);
    const [one, other] = [sets.find(a), sets.find(b)];
    return one === other || one === any || other === any;
  };
}
