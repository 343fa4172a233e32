import { listOf } from '../../../vessel/words.js';
import { deviceSpot } from '../../sharing/conditions.js';
import { rule } from '../../rule.js';

/** `net/family-mix`: devices on one segment have no family in common. Those without a family are neutral. */
export const familyMix = rule(
  {
    code: 'net/family-mix',
    severities: ['error'],
    summary: 'Devices on one ethernet segment have no family in common.',
  },
  ({ ethernet, lookup }, report) => {
    for (const segment of ethernet.segments) {
      // A segment has few sets of families, however many devices.
      const sets = new Map<string, { readonly families: readonly string[]; readonly devices: string[] }>();
      for (const device of segment.devices) {
        const families = [...(lookup.modelOf(device)?.families ?? [])].sort();
        if (families.length === 0) continue;
        const key = families.join(', ');
        const set = sets.get(key);
        if (set === undefined) sets.set(key, { families, devices: [device] });
        else set.devices.push(device);
      }
      const kinds = [...sets.values()];
      const strangers = kinds.filter((one) =>
        kinds.some((other) => !one.families.some((family) => other.families.includes(family))),
      );
      if (strangers.length === 0) continue;
      const [first] = segment.devices;
      const groups = strangers.map(
        (one) => `${listOf(one.devices, 'and', 3)} (${listOf(one.families, 'or')})`,
      );
      report.find({
        message: `on the ethernet segment of ${first ?? ''}, ${groups.join(' and ')} have no family in common: displays network only inside one family, so neither shows the other's sources, and they may disturb each other. Give each family a segment of its own.`,
        at: deviceSpot(lookup.device(first ?? ''), first ?? ''),
        related: strangers.map((one) => ({
          at: deviceSpot(lookup.device(one.devices[0] ?? ''), one.devices[0] ?? ''),
          message: `${one.devices[0] ?? ''} is of family ${listOf(one.families, 'or')}`,
        })),
      });
    }
  },
);
