import { rule } from '../../rule.js';

/** `cable/no-route`: two zones have no run between them, and the length of the cable between them is not stated. */
export const noRoute = rule(
  { code: 'cable/no-route', severities: ['error'], summary: 'Two zones have no run between them.' },
  ({ passages, lookup }, report) => {
    for (const passage of passages) {
      const { from, to, what, spot, route } = passage;
      if (route.kind !== 'none' || passage.lengthStated) continue;
      const zones = [lookup.zone(from), lookup.zone(to)].flatMap((zone) => zone ?? []);
      report.find({
        message: `${what} goes from zone ${from} to zone ${to}, and no run leads there, so neither its way nor its length is known. Declare the runs on the way (as in "run ${from} -- ${to} 3 m"), or state its length.`,
        at: spot,
        related: zones.map((zone) => ({ at: { origin: zone.origin }, message: `zone ${zone.name}` })),
      });
    }
  },
);
