import { rule } from '../../rule.js';
import { freeBeside, useInstead, whatWouldAdd } from '../../wiring/advice.js';
import { endText } from '../../wiring/wiring.js';

/** `serial/two-talkers`: a second talker on a line that has one (IEC 61162-1: one talker, several listeners). */
export const twoTalkers = rule(
  {
    code: 'serial/two-talkers',
    severities: ['error'],
    summary: 'More than one talker is on an NMEA 0183 line.',
    waivable: false,
  },
  (context, report) => {
    const { wiring, vessel } = context;
    for (const problem of wiring.problems) {
      if (problem.kind !== 'taken' || problem.port.medium !== 'nmea0183') continue;
      const { device, port } = problem;
      const link = wiring.links.find((one) => one.link.origin === problem.at.origin)?.link;
      const second = link === undefined ? 'another' : endText(problem.at.part === 'a' ? link.b : link.a);
      const free = freeBeside(context, device, port);
      const gateways = Object.values(vessel.models)
        .filter(
          (model) =>
            model.class === 'gateway' &&
            model.ports.filter((one) => one.medium === 'nmea0183' && one.serial?.listensBaud !== undefined)
              .length > 1,
        )
        .map((model) => model.name)
        .sort();
      const multiplexer = gateways[0] === undefined ? 'a multiplexer' : `a multiplexer (${gateways[0]})`;
      const help =
        free.length > 0
          ? `Free on ${device}: ${free.slice(0, 6).join(', ')}.`
          : `Put ${multiplexer} between, which takes both and talks alone. ${whatWouldAdd(context, device, port.medium)}`;
      report.find({
        message: `${device}.${port.name} hears ${problem.by} already, and ${second} would talk on the same line: two at once garble each other, and neither is read (IEC 61162-1: one talker a line). ${help}`,
        at: problem.at,
        related: [{ at: problem.bySpot, message: `this talks to ${device}.${port.name}` }],
        repairs: useInstead(free, problem.at),
      });
    }
  },
);
