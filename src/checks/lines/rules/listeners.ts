import { LISTENER_AMPS, MOST_LISTENERS } from '../../../vessel/serial.js';
import { count, listOf, number } from '../../../vessel/words.js';
import { portText } from '../../wiring/wiring.js';
import { rule } from '../../rule.js';

/** A hair, so that sums of fractions do not decide. */
const HAIR = 1e-9;

/**
 * `serial/listeners`: more listeners than the talker's driver carries. A listener counts as one of the standard, 2 mA at 2 V (IEC 61162-1),
 * unless its model states its load. Any driver carries one; where none is stated, an RS-422 driver's ten are the most there can be.
 */
export const listeners = rule(
  {
    code: 'serial/listeners',
    severities: ['warning'],
    summary: "More listeners are on an NMEA 0183 line than its talker's driver carries.",
  },
  ({ lines, lookup }, report) => {
    for (const line of lines) {
      const { talker, drives, units } = line;
      const [first] = line.listeners;
      if (first === undefined) continue;
      const at = { origin: first.link.link.origin };
      const most = drives ?? MOST_LISTENERS;
      if (units <= most + HAIR) {
        if (drives === undefined && units > 1 + HAIR)
          report.unknown(
            at,
            `${lookup.modelOf(talker.device)?.name ?? talker.device} does not say how many listeners port ${talker.port.name} drives`,
          );
        continue;
      }
      const heavy = line.listeners.filter((one) => one.units > 1 + HAIR);
      const load =
        heavy.length > 0
          ? `, which load it like ${number(units, 1)} (${listOf(heavy.map((one) => `${portText(one)} draws ${number(one.units * LISTENER_AMPS * 1000, 1)} mA, and the standard allows 2 mA`))})`
          : '';
      const carries =
        drives === undefined
          ? `an RS-422 driver carries ${MOST_LISTENERS} at most`
          : `its driver carries ${drives}`;
      report.find({
        message: `${line.id} has ${count(line.listeners.length, 'listener')}${load}, and ${carries}: the voltage falls until some of them miss sentences. Put a buffer or a multiplexer between, or take some off.`,
        at,
        related: line.listeners
          .slice(1, 9)
          .map((one) => ({ at: { origin: one.link.link.origin }, message: `${portText(one)} listens too` })),
      });
    }
  },
);
