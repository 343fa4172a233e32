import { count, listOf } from '../../../vessel/words.js';
import { deviceSpot } from '../../sharing/conditions.js';
import { rule } from '../../rule.js';
import { findMessageLoops } from '../loops.js';

/** `serial/loop`: what a gateway sends comes back to it, over lines or backbones and other gateways, and goes round for ever. */
export const loop = rule(
  {
    code: 'serial/loop',
    severities: ['error'],
    summary: 'A sentence returns to its sender through gateways.',
  },
  ({ vessel, lookup, wiring, lines }, report) => {
    for (const { gateways, ports, signals } of findMessageLoops(vessel, lookup, wiring, lines)) {
      const [first] = gateways;
      if (first === undefined) continue;
      report.find({
        message: `what ${first} sends comes back to it: ${ports.join(' -> ')} passes ${listOf(signals, 'and', 4)} all the way round. Each message circles and crowds out the others, old values among them. Hold it back in one of ${count(gateways.length, 'gateway')} ("passes ... without"), or open the circle.`,
        at: deviceSpot(lookup.device(first), first),
        related: gateways.slice(1).map((name) => ({
          at: deviceSpot(lookup.device(name), name),
          message: `${name} passes it on`,
        })),
      });
    }
  },
);
