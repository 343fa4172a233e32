import { listOf } from '../../../vessel/words.js';
import { rule } from '../../rule.js';
import { compareIp, readIpCode } from '../ingress.js';

/**
 * `place/ingress`: a declared IP code (IEC 60529) is less than its zone asks. X7 alone where jets are to be expected is
 * information: X6 does not follow from it. Not for batteries, nor for what declares no code.
 */
export const ingress = rule(
  {
    code: 'place/ingress',
    severities: ['warning', 'information'],
    summary: 'A declared IP code is less than its zone asks.',
  },
  ({ vessel, lookup }, report) => {
    for (const device of vessel.devices) {
      const model = lookup.modelOf(device.name);
      const zone = lookup.zone(device.zone);
      if (model === undefined || model.class === 'battery' || zone?.exposure === undefined || device.leaving)
        continue;
      const declared = model.ingress.flatMap((code) => readIpCode(code) ?? []);
      if (declared.length === 0) continue;
      const { exposure } = zone;
      const failing = exposure.asks.flatMap((text) => {
        const asked = readIpCode(text);
        const found = asked === undefined ? 'enough' : compareIp(declared, asked);
        return found === 'enough' ? [] : [{ text, found }];
      });
      const at = { origin: device.origin, part: 'zone' };
      const less = failing.filter(({ found }) => found === 'less').map(({ text }) => text);
      const jets = failing.filter(({ found }) => found === 'immersion-only').map(({ text }) => text);
      const open = failing.filter(({ found }) => found === 'unstated').map(({ text }) => text);
      const related = [{ at: { origin: zone.origin }, message: `zone ${zone.name} is ${exposure.name}` }];
      const has = listOf(model.ingress);
      if (less.length > 0) {
        report.find({
          message: `${device.name} is ${has}, and zone ${zone.name} is ${exposure.name}, which asks ${listOf(less)}: water or dust gets in. Move it, or use a model that holds ${listOf(less)}.`,
          at,
          related,
        });
      } else if (jets.length > 0) {
        report.find({
          severity: 'information',
          message: `${device.name} is ${has}: tight under water, which says nothing of jets, and zone ${zone.name} is ${exposure.name}, which asks ${listOf(jets)} too (IEC 60529). Keep the hose away, or use a model that holds both.`,
          at,
          related,
        });
      } else if (open.length > 0) {
        report.unknown(at, `${model.name} is ${has}, which does not say whether it holds ${listOf(open)}`);
      }
    }
  },
);
