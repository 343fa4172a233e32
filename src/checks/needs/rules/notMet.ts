import { deviceSpot } from '../../sharing/conditions.js';
import { rule } from '../../rule.js';

/** `need/not-met`: a need fails, with the reason the analysis gives. */
export const notMet = rule(
  {
    code: 'need/not-met',
    severities: ['error'],
    summary: 'A need fails, with the reason the analysis gives.',
  },
  ({ vessel, needs, lookup }, report) => {
    for (const need of needs) {
      // Hours on a battery have a rule of their own: energy/endurance.
      if (vessel.needs[need.index]?.kind === 'last') continue;
      const judged = need.reason !== null && need.met === null && need.answers.length === 0;
      if (need.met === null) report.unknown(need.spot, need.reason ?? 'something in it is not declared');
      if (judged || need.met !== false) continue;
      const failing = need.answers.find((answer) => answer.visible === false);
      const remedy =
        failing?.nearest === null || failing === undefined ? '' : ` To make it right: ${failing.nearest}.`;
      report.find({
        message: `need ${need.text} is not met: ${need.reason ?? 'no reason is known'}.${remedy}`,
        at: need.spot,
        related:
          failing === undefined
            ? []
            : [
                {
                  at: deviceSpot(lookup.device(failing.source), failing.source),
                  message: `the source, ${failing.source}`,
                },
                ...failing.hops.slice(-1).map((hop) => ({ at: hop.spot, message: hop.why })),
              ],
      });
    }
  },
);
