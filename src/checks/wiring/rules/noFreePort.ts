import { mediumText } from '../../../vessel/mediumText.js';
import { count, listOf } from '../../../vessel/words.js';
import { rule } from '../../rule.js';
import { freeElsewhere, whatWouldAdd } from '../advice.js';

/** `type/no-free-port`: no port of that medium is free; says which are elsewhere, and what would add one. */
export const noFreePort = rule(
  {
    code: 'type/no-free-port',
    severities: ['error'],
    summary: 'No port of the medium is free on a device.',
    waivable: false,
  },
  (context, report) => {
    for (const problem of context.wiring.problems) {
      if (problem.kind !== 'none-free') continue;
      const { device, ports, by } = problem;
      const [port] = ports;
      if (port === undefined) continue;
      const has = `${count(ports.length, `${mediumText(port.medium)} port`)}, taken by ${listOf(by)}`;
      report.find({
        message: `${device} has no free port for this: it has ${has}. ${freeElsewhere(context, device, port.medium)} ${whatWouldAdd(context, device, port.medium)}`,
        at: problem.at,
        related: ports
          .slice(0, 6)
          .flatMap((one) =>
            context.wiring
              .useOf(device, one.name)
              .map((use) => ({ at: use.spot, message: `this has ${device}.${one.name}` })),
          ),
      });
    }
  },
);
