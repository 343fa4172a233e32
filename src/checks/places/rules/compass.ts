import { metres } from '../../../vessel/words.js';
import { rule } from '../../rule.js';
import { apart } from '../apart.js';

/** `place/compass`: a device is nearer to a magnetic compass than its declared safe distance (ISO 25862). */
export const compass = rule(
  {
    code: 'place/compass',
    severities: ['warning'],
    summary: 'A device is nearer to a magnetic compass than its safe distance.',
  },
  ({ vessel, lookup }, report) => {
    const aboard = vessel.devices.filter((device) => !device.leaving);
    for (const card of aboard) {
      if (lookup.modelOf(card.name)?.class !== 'compass') continue;
      for (const device of aboard) {
        const model = lookup.modelOf(device.name);
        const safe = model?.compassMetres;
        if (device === card || model === undefined || safe === undefined) continue;
        const { offset, atLeastMetres } = apart(lookup, card, device);
        if (atLeastMetres >= safe - 1e-9) continue;
        const at = { origin: device.origin };
        if (offset === undefined) {
          report.unknown(at, `how far ${device.name} is from ${card.name} (offsets say it)`);
          continue;
        }
        report.find({
          message: `${device.name} is ${metres(atLeastMetres)} from ${card.name}, and ${model.name} asks ${metres(safe)} from a magnetic compass: the card is drawn aside, and by how much changes with what is switched on (ISO 25862). Move ${device.name} ${metres(safe - atLeastMetres)} further away, or have the compass adjusted with it running.`,
          at,
          related: [{ at: { origin: card.origin }, message: `${card.name} is here` }],
        });
      }
    }
  },
);
