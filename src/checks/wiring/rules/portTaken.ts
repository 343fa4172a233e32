import { rule } from '../../rule.js';
import { freeBeside, freeElsewhere, useInstead, whatWouldAdd } from '../advice.js';

/** `type/port-taken`: a port already has its connection. A second talker to an NMEA 0183 port is serial/two-talkers. */
export const portTaken = rule(
  {
    code: 'type/port-taken',
    severities: ['error'],
    summary: 'A port already has its connection.',
    waivable: false,
  },
  (context, report) => {
    for (const problem of context.wiring.problems) {
      if (problem.kind !== 'taken' || problem.port.medium === 'nmea0183') continue;
      const { device, port } = problem;
      const free = freeBeside(context, device, port);
      const help =
        free.length > 0
          ? `Free on ${device}: ${free.slice(0, 6).join(', ')}.`
          : `${device} has no other free. ${freeElsewhere(context, device, port.medium)} ${whatWouldAdd(context, device, port.medium)}`;
      report.find({
        message: `${device}.${port.name} already has ${problem.by} on it, so this connection cannot be made. ${help}`,
        at: problem.at,
        related: [{ at: problem.bySpot, message: `this has ${device}.${port.name}` }],
        repairs: useInstead(free, problem.at),
      });
    }
  },
);
