import { listOf } from '../../../vessel/words.js';
import { isPointToPoint } from '../../sharing/hosting.js';
import { portText } from '../../wiring/wiring.js';
import { rule } from '../../rule.js';

/** `sonar/no-host`: a transducer with a plug is linked to nothing. Not for one on a bus, nor for what is aboard already. */
export const noHost = rule(
  { code: 'sonar/no-host', severities: ['error'], summary: 'A transducer with a plug is linked to nothing.' },
  ({ vessel, lookup, wiring, sharing }, report) => {
    for (const device of vessel.devices) {
      const model = lookup.modelOf(device.name);
      if (model?.class !== 'transducer' || device.existing || device.leaving) continue;
      const plug = model.ports.find((port) => isPointToPoint(port.medium));
      const used = model.ports.some(
        (port) => port.medium !== 'dc' && wiring.useOf(device.name, port.name).length > 0,
      );
      if (plug === undefined || used || wiring.linksAt(device.name).length > 0) continue;
      const at = { origin: device.origin };
      if (sharing.hosting.mayBeLinked(device.name, isPointToPoint)) {
        report.unknown(at, `whether ${device.name} is linked: some link has an end that is not declared`);
        continue;
      }
      const grade = model.gives.some((give) => give.grade === 'hd') ? 'hd' : 'standard';
      const host = plug.medium === 'transducer' ? sharing.nearest.host(grade, undefined) : undefined;
      const signals =
        model.gives.length === 0 ? 'what it hears' : listOf(model.gives.map((give) => give.signal));
      const remedy =
        host === undefined
          ? `No free port aboard accepts ${grade}: it needs a display or a black box that does.`
          : `Link it to ${portText(host)}, which accepts ${host.port.accepts ?? grade}.`;
      report.find({
        message: `${device.name} is linked to nothing, so no screen shows ${signals}. ${remedy}`,
        at,
        repairs:
          host === undefined
            ? []
            : [
                {
                  title: `Link it to ${portText(host)}`,
                  preferred: true,
                  change: { kind: 'declare', after: at, text: `link ${device.name} -- ${portText(host)}` },
                },
              ],
      });
    }
  },
);
