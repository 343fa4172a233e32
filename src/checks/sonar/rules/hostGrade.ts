import { covers } from '../../../vessel/signals.js';
import { portText } from '../../wiring/wiring.js';
import { rule } from '../../rule.js';

/** `sonar/host-grade`: a high-definition transducer is linked to a port that accepts standard grade only. */
export const hostGrade = rule(
  {
    code: 'sonar/host-grade',
    severities: ['error'],
    summary: 'A high-definition transducer is linked to a port that accepts standard grade only.',
  },
  ({ vessel, lookup, sharing }, report) => {
    for (const device of vessel.devices) {
      const graded =
        lookup
          .modelOf(device.name)
          ?.gives.some((give) => give.grade === 'hd' && covers('sonar', give.signal)) ?? false;
      if (!graded) continue;
      for (const { other, links } of sharing.hosting.plugsOf(device.name)) {
        if (other.port.medium !== 'transducer' || other.port.accepts === 'hd') continue;
        const last = links.at(-1);
        if (last === undefined) continue;
        const at = { origin: last.link.origin, part: last.link.a.device === other.device ? 'a' : 'b' };
        if (other.port.accepts === undefined) {
          report.unknown(
            at,
            `the model of ${other.device} does not say which grade port ${other.port.name} accepts`,
          );
          continue;
        }
        const better = sharing.nearest.host('hd', other.device);
        const remedy =
          better === undefined
            ? 'No free port aboard accepts hd: it needs a display or a black box that does.'
            : `Link it to ${portText(better)}, which accepts hd.`;
        report.find({
          message: `${other.device} cannot host ${device.name}: its port ${other.port.name} accepts standard grade, ${device.name} is high-definition, so no screen gets its picture. ${remedy}`,
          at,
          related: [{ at: { origin: device.origin }, message: `${device.name} is high-definition` }],
          repairs:
            better === undefined
              ? []
              : [
                  {
                    title: `Link it to ${portText(better)}`,
                    preferred: true,
                    change: { kind: 'replace', at, text: portText(better) },
                  },
                ],
        });
      }
    }
  },
);
