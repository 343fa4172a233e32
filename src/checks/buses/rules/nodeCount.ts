import { count } from '../../../vessel/words.js';
import { rule } from '../../rule.js';
import { busText } from './text.js';

/** NMEA 2000, IEC 61162-3. */
const MOST_DEVICES = 50;

/** `bus/node-count`: a backbone has more than 50 devices or nobody to talk to, or a box more branches than drops. */
export const nodeCount = rule(
  {
    code: 'bus/node-count',
    severities: ['error', 'information'],
    summary: 'A backbone has more than 50 devices or fewer than two, or a tee box more branches than drops.',
  },
  ({ buses, lookup }, report) => {
    for (const { bus } of buses) {
      const devices = new Set(bus.nodes.map((node) => node.device)).size;
      if (devices > MOST_DEVICES)
        report.find({
          message: `${busText(bus)} has ${count(devices, 'device')} and may have ${MOST_DEVICES}: more load the data wires than their drivers carry. Part it in two with a gateway.`,
          at: { origin: bus.backbone.origin },
        });
      // A capped tee says that more is to come; a backbone of which nothing is written has its terminators told of.
      const isGrowing = bus.open || bus.tees.some((tee) => tee.capped);
      if (devices < 2 && !isGrowing && bus.backbone.items.length > 0)
        report.find({
          severity: 'information',
          message:
            devices === 0
              ? `${busText(bus)} has no device on it. Name what is on its tees, leave a "tee capped" where a device is to come, or take it out.`
              : `${busText(bus)} has ${bus.nodes[0]?.device ?? 'one device'} alone on it: nobody hears it there, and it hears nobody. Name the others that are on it, leave a "tee capped" where one is to come, or take it out.`,
          at: { origin: bus.backbone.origin },
        });
      for (const tee of bus.tees) {
        const box = tee.device === undefined ? undefined : lookup.modelOf(tee.device);
        const most = box?.teePorts;
        if (most === undefined || tee.branches.length <= most) continue;
        report.find({
          message: `${tee.device ?? 'The box'} (${box?.name ?? 'a box'}) has ${count(most, 'drop')}, and ${tee.branches.length} devices branch off it. Use a larger box, or a second one.`,
          at: { origin: tee.origin },
        });
      }
    }
  },
);
