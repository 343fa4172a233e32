import { rule } from '../../rule.js';

/** `radio/dsc`: a radio with digital selective calling has no source of a position (ITU-R M.493). */
export const dsc = rule(
  {
    code: 'radio/dsc',
    severities: ['warning'],
    summary: 'A radio that calls digitally has no source of a position.',
  },
  ({ vessel, lookup, sharing }, report) => {
    for (const device of vessel.devices) {
      const model = lookup.modelOf(device.name);
      if (device.leaving || model?.dsc !== true) continue;
      if (model.gives.some((give) => give.signal === 'position')) continue;
      const at = { origin: device.origin };
      const answers = [...sharing.sourcesOf('position', device.name)]
        .filter((one) => one.source !== device.name)
        .map((one) => sharing.hears(device.name, one.source, 'position'));
      if (answers.some((one) => one.visible === true)) continue;
      const open = answers.find((one) => one.visible === null);
      if (open !== undefined) {
        report.unknown(at, open.reason ?? `whether a position reaches ${device.name}`);
        continue;
      }
      const [near] = answers;
      const found =
        near === undefined
          ? 'nothing aboard gives one'
          : `${near.source} gives one, which does not get there (${near.reason ?? 'no way is known'})`;
      report.find({
        message: `${device.name} calls for help with one key, and has no position to send with the call: ${found}. Then nobody knows where to look. Link a position source to it by line or bus, or say that the radio gives position itself.`,
        at,
        related:
          near === undefined
            ? []
            : [
                {
                  at: { origin: lookup.device(near.source)?.origin ?? device.origin },
                  message: 'gives a position',
                },
              ],
      });
    }
  },
);
