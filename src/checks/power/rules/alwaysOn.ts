import { rule } from '../../rule.js';
import { consumerLegs } from '../loads/consumers.js';
import { reachedFrom, withoutSwitch } from '../supply/walk.js';

/** `power/always-on`: an automatic bilge pump behind the battery switch. ABYC practice; common practice, no source. */
export const alwaysOn = rule(
  {
    code: 'power/always-on',
    severities: ['warning'],
    summary: 'An automatic bilge pump is behind the battery switch.',
  },
  ({ supply }, report) => {
    const calm = reachedFrom(
      supply,
      supply.banks.flatMap((bank) => bank.terminals),
      { join: withoutSwitch },
    );
    const switched = reachedFrom(
      supply,
      supply.banks.flatMap((bank) => bank.terminals),
      { join: (join, from) => join.kind === 'switch' || withoutSwitch(join, from) },
    );
    for (const { edge, leg, consumer } of consumerLegs(supply)) {
      if (consumer.model.kind !== 'bilgepump' || !consumer.model.automatic) continue;
      if (calm.has(consumer.id) || !switched.has(consumer.id)) continue;
      const banks = supply.systemOf(consumer.id)?.banks.map((bank) => bank.device) ?? [];
      const bank = banks.length === 1 ? (banks[0] ?? 'the battery') : 'the battery';
      const fuse = consumer.port.dc?.fuseAmps;
      report.find({
        message: `${consumer.device} is automatic and behind the battery switch: with the boat left switched off it does not pump. Feed it from ${bank} itself${fuse === undefined ? '' : `, with its own fuse of ${fuse} A there`}.`,
        at: { origin: edge.origin, part: `to ${leg.index}` },
      });
    }
  },
);
