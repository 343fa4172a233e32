import { portText } from '../../wiring/wiring.js';
import { rule } from '../../rule.js';
import { signallingOf, wiresText } from '../joining.js';

/** `serial/signalling`: a single-ended end meets a differential one. It can work, if the wires are joined the right way. */
export const signalling = rule(
  {
    code: 'serial/signalling',
    severities: ['warning'],
    summary: 'A single-ended end of an NMEA 0183 line meets a differential one.',
  },
  ({ lines, lookup }, report) => {
    for (const { talker, listeners } of lines) {
      for (const listener of listeners) {
        const kind = signallingOf(talker.port, listener.port);
        const at = { origin: listener.link.link.origin };
        if (kind === 'unknown') {
          const silent = talker.port.serial?.signalling === undefined ? talker : listener;
          report.unknown(
            at,
            `${lookup.modelOf(silent.device)?.name ?? silent.device} does not say whether port ${silent.port.name} is single-ended or differential`,
          );
        }
        if (kind !== 'single-to-differential' && kind !== 'differential-to-single') continue;
        const single = kind === 'single-to-differential';
        const wires = wiresText(portText(talker), portText(listener), kind, single) ?? '';
        report.find({
          message: `${portText(talker)} is ${single ? 'single-ended' : 'differential'} and ${portText(listener)} is ${single ? 'differential' : 'single-ended'}: wired plug to plug they may hear nothing, or only sometimes. ${wires}`,
          at,
        });
      }
    }
  },
);
