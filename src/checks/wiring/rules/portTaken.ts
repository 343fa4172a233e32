import { rule } from '../../rule.js';
import { freeElsewhere, whatWouldAdd } from '../advice.js';

/** `type/port-taken`: a port already has its connection. */
export const portTaken = rule(
  {
    code: 'type/port-taken',
    severities: ['error'],
    summary: 'A port already has its connection.',
    waivable: false,
  },
  (context, report) => {
    const { wiring, lookup } = context;
    for (const problem of wiring.problems) {
      if (problem.kind !== 'taken') continue;
      const { device, port } = problem;
      const others = (lookup.modelOf(device)?.ports ?? []).filter(
        (one) =>
          one.medium === port.medium && one.name !== port.name && wiring.useOf(device, one.name).length === 0,
      );
      const heard = port.medium === 'nmea0183' ? ' (a listener hears one talker)' : '';
      const free = others.map((one) => `${device}.${one.name}`);
      const help =
        free.length > 0
          ? `Free on ${device}: ${free.slice(0, 6).join(', ')}.`
          : `${device} has no other free. ${freeElsewhere(context, device, port.medium)} ${whatWouldAdd(context, device, port.medium)}`;
      report.find({
        message: `${device}.${port.name} already has ${problem.by} on it${heard}, so this connection cannot be made. ${help}`,
        at: problem.at,
        related: [{ at: problem.bySpot, message: `this has ${device}.${port.name}` }],
        repairs: free.slice(0, 3).map((text, index) => ({
          title: `Use ${text}`,
          preferred: index === 0,
          change: { kind: 'replace', at: problem.at, text },
        })),
      });
    }
  },
);
