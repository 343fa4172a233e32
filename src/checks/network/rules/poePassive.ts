import { number } from '../../../vessel/words.js';
import { portText } from '../../wiring/wiring.js';
import { rule } from '../../rule.js';
import { poeMeetings } from '../powered.js';

/** How far two nominal voltages may be apart and still be the same supply. Common practice, no source. */
const SAME = 0.1;

/** `net/poe-passive`: passive power meets a port of the standard or one without power, or two voltages meet. */
export const poePassive = rule(
  {
    code: 'net/poe-passive',
    severities: ['error'],
    summary: 'Passive power over ethernet meets a standard port, one that wants none, or another voltage.',
  },
  ({ vessel, lookup, wiring }, report) => {
    for (const { near, poe, far, link } of poeMeetings(vessel, lookup, wiring)) {
      const volts = poe.passiveVolts;
      const other = far.port.poe;
      const at = { origin: link.link.origin };
      const [here, there] = [portText(near), portText(far)];
      if (poe.role === 'gives') {
        if (volts === undefined || other?.role === 'gives') continue;
        if (other === undefined)
          report.find({
            message: `${here} puts ${number(volts)} V on its cable whatever is there, and ${there} wants no power over ethernet: its port may be damaged. Use a port without power, or one of the standard, which asks first (IEEE 802.3).`,
            at,
          });
        else if (other.poeClass !== undefined)
          report.find({
            message: `${here} gives passive ${number(volts)} V, and ${there} wants class ${other.poeClass} of the standard, at ${STANDARD_VOLTS}: it does not start, or is damaged. Use a port that gives class ${other.poeClass} (IEEE 802.3).`,
            at,
          });
        else if (other.passiveVolts === undefined)
          report.unknown(at, `which voltage ${there} wants over ethernet`);
        else if (Math.abs(other.passiveVolts - volts) > SAME * other.passiveVolts)
          report.find({
            message: `${here} gives passive ${number(volts)} V, and ${there} wants ${number(other.passiveVolts)} V: nothing settles the voltage between them. Use an injector of ${number(other.passiveVolts)} V.`,
            at,
          });
      } else if (volts !== undefined && other?.role === 'gives' && other.poeClass !== undefined)
        report.find({
          message: `${here} wants passive ${number(volts)} V, and ${there} gives class ${other.poeClass} of the standard, which asks before it gives: ${near.device} does not answer and gets nothing (IEEE 802.3). Put a passive injector of ${number(volts)} V between, on a port without power.`,
          at,
        });
    }
  },
);

/** What a source of the standard may give, over all its types (IEEE 802.3af, at and bt). Value from memory. */
const STANDARD_VOLTS = '44 to 57 V';
