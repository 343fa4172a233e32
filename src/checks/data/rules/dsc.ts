import { rule } from '../../rule.js';

/** `radio/dsc`: a radio with digital selective calling has no source of a position (ITU-R M.493). */
export const dsc = rule(
  {
    code: 'radio/dsc',
    severities: ['warning'],
    summary: 'A radio that calls digitally has no source of a position.',
  },
  ({ vessel, lookup, hearing }, report) => {
    for (const device of vessel.devices) {
      const model = lookup.modelOf(device.name);
      if (device.leaving || model?.dsc !== true) continue;
      if (model.gives.some((give) => give.signal === 'position')) continue;
      const at = { origin: device.origin };
      const { used, verdict, reason, givenBy } = hearing.of(device.name, 'position');
      if (used !== undefined) continue;
      if (verdict === 'unknown') {
        report.unknown(at, reason ?? `whether a position reaches ${device.name}`);
        continue;
      }
      const [near] = givenBy;
      const found =
        near === undefined
          ? 'nothing aboard gives one'
          : `${near} gives one, which does not get there (${reason ?? 'no way is known'})`;
      report.find({
        message: `${device.name} calls for help with one key, and has no position to send with the call: ${found}. Then nobody knows where to look. Link a position source to it by line or bus, or say that the radio gives position itself.`,
        at,
        related:
          near === undefined
            ? []
            : [
                {
                  at: { origin: lookup.device(near)?.origin ?? device.origin },
                  message: 'gives a position',
                },
              ],
      });
    }
  },
);
