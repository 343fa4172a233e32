import { portText } from '../../wiring/wiring.js';
import { rule } from '../../rule.js';
import { speedOf } from '../lines.js';

/** `serial/baud`: talker and listener are set to different speeds. */
export const baud = rule(
  {
    code: 'serial/baud',
    severities: ['error'],
    summary: 'Talker and listener of an NMEA 0183 line have different speeds.',
  },
  ({ lines, lookup }, report) => {
    for (const { talker, listeners, baud: talks } of lines) {
      for (const listener of listeners) {
        const listens = speedOf(listener.port.serial?.listensBaud);
        const at = { origin: listener.link.link.origin };
        if (talks === undefined || listens === undefined) {
          const silent = talks === undefined ? talker : listener;
          report.unknown(
            at,
            `${lookup.modelOf(silent.device)?.name ?? silent.device} does not say how fast port ${silent.port.name} is`,
          );
          continue;
        }
        if (talks === listens) continue;
        report.find({
          message: `${portText(talker)} talks at ${talks} bit/s and ${portText(listener)} listens at ${listens} bit/s, so that nothing is understood. Set both to one speed, or put a multiplexer between that takes ${talks} and talks ${listens}.`,
          at,
          related: [talker, listener].flatMap(({ device, port }) => {
            const model = lookup.modelOf(device);
            return model === undefined
              ? []
              : [
                  {
                    at: { origin: model.origin, part: 'ports' },
                    message: `port ${port.name} of ${model.name}`,
                  },
                ];
          }),
        });
      }
    }
  },
);
