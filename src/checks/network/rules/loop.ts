import { count } from '../../../vessel/words.js';
import { deviceSpot } from '../../sharing/conditions.js';
import { rule } from '../../rule.js';

/** `net/loop`: an ethernet segment has a cycle. These devices run no spanning tree: one broadcast goes round for ever. */
export const loop = rule(
  { code: 'net/loop', severities: ['error'], summary: 'An ethernet segment has a cycle.' },
  ({ ethernet, lookup }, report) => {
    for (const { devices, links, extra } of ethernet.loops) {
      const [first] = [...devices].sort();
      const [start] = devices;
      if (first === undefined || start === undefined) continue;
      const surplus = links.at(-1);
      const more = extra > 1 ? ` (the segment has ${count(extra, 'link')} more than it needs)` : '';
      report.find({
        message: `the ethernet goes round in a loop: ${[...devices, start].join(' -- ')}${more}. These devices run no spanning tree, so a broadcast circles until the network stands still. Remove one of these links.`,
        at: deviceSpot(lookup.device(first), first),
        related: links.map((wired) => ({ at: { origin: wired.link.origin }, message: 'part of the loop' })),
        repairs:
          surplus === undefined
            ? []
            : [
                {
                  title: `Remove the link ${surplus.id.replace('--', ' -- ')}`,
                  preferred: false,
                  change: { kind: 'remove', at: { origin: surplus.link.origin } },
                },
              ],
      });
    }
  },
);
