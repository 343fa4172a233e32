import { number } from '../../../vessel/words.js';
import { portText } from '../../wiring/wiring.js';
import { rule } from '../../rule.js';

/** `sonar/power`: a sounder's output exceeds what the transducer takes. */
export const power = rule(
  {
    code: 'sonar/power',
    severities: ['warning'],
    summary: "A sounder's output exceeds what the transducer takes.",
  },
  ({ vessel, lookup, sharing }, report) => {
    for (const device of vessel.devices) {
      const model = lookup.modelOf(device.name);
      if (model?.class !== 'transducer') continue;
      for (const { other, links } of sharing.hosting.plugsOf(device.name)) {
        const { outputWatts } = other.port;
        const takes = model.takesWatts;
        const at = { origin: links[0]?.link.origin ?? device.origin };
        if (outputWatts === undefined && takes === undefined) continue;
        if (outputWatts === undefined)
          report.unknown(
            at,
            `the model of ${other.device} does not say the output of port ${other.port.name}`,
          );
        else if (takes === undefined)
          report.unknown(at, `${model.name} does not say how much power it takes`);
        else if (outputWatts > takes) {
          report.find({
            message: `${portText(other)} drives up to ${number(outputWatts)} W, and ${device.name} takes ${number(takes)} W: at full power it wears out its element. Turn the output down to ${number(takes)} W and waive this, or use a transducer that takes ${number(outputWatts)} W.`,
            at,
            related: [{ at: { origin: device.origin }, message: `${device.name} takes ${number(takes)} W` }],
          });
        }
      }
    }
  },
);
