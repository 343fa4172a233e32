import { rule } from '../../rule.js';
import { collectUses } from '../uses.js';

/**
 * `unused/device`: declared, and nothing links, feeds or needs it. Not for gear that is aboard already or comes out, nor for
 * what has nothing to plug in.
 */
export const unusedDevice = rule(
  {
    code: 'unused/device',
    severities: ['information'],
    summary: 'A device is declared, and nothing links, feeds or needs it.',
  },
  ({ vessel, lookup }, report) => {
    const uses = collectUses(vessel);
    for (const device of vessel.devices) {
      const model = lookup.modelOf(device.name);
      if (uses.devices.has(device.name) || device.existing || device.leaving) continue;
      if (model === undefined || model.ports.length === 0) continue;
      const at = { origin: device.origin };
      if (uses.incomplete) {
        report.unknown(at, `whether ${device.name} is used: some connection names what is not declared`);
        continue;
      }
      report.find({
        message: `${device.name} is declared, and nothing links, feeds or needs it, so it does nothing aboard. Connect it, or remove it.`,
        at,
        repairs: [{ title: `Remove ${device.name}`, preferred: false, change: { kind: 'remove', at } }],
      });
    }
  },
);
