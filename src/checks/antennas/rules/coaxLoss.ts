import { powerLeft } from '../../../vessel/coax.js';
import { listOf, metres, number } from '../../../vessel/words.js';
import { rule } from '../../rule.js';
import { portText } from '../../wiring/wiring.js';
import { antennaWays, PLUG_DECIBELS } from '../ways.js';

/** Half of the power. Common practice, no source. */
const MOST_DECIBELS = 3;

/** `cable/coax-loss`: between a VHF or AIS and its antenna more than half of the power is lost. */
export const coaxLoss = rule(
  {
    code: 'cable/coax-loss',
    severities: ['warning'],
    summary: 'A VHF or AIS antenna cable loses more than 3 dB at 156.8 MHz.',
  },
  ({ vessel, lookup, cables }, report) => {
    for (const way of antennaWays(vessel, lookup, cables)) {
      const [first, ...others] = way.cables;
      if (first === undefined) continue;
      const at = { origin: first.link.origin };
      if (way.decibels <= MOST_DECIBELS + 1e-9) {
        if (way.missing.length > 0) report.unknown(at, listOf([...new Set(way.missing)]));
        continue;
      }
      const length = way.cables.reduce((total, run) => total + (run.neededMetres ?? 0), 0);
      const between = way.betweenDecibels > 0 ? `, ${number(way.betweenDecibels)} dB between` : '';
      report.find({
        message: `${portText(way.radio)} loses ${way.missing.length > 0 ? 'at least ' : ''}${number(way.decibels, 1)} dB at 156.8 MHz on the way to ${way.antenna}: ${number(way.cableDecibels)} dB in ${metres(length)} of ${listOf([...new Set(way.cables.flatMap((run) => run.cable ?? []))])}, ${number(way.plugs * PLUG_DECIBELS)} dB in ${way.plugs} plugs${between}. Of each watt ${number(powerLeft(way.decibels), 2)} W is left, less than half, and it hears as much worse. Use a thicker cable or a shorter way.`,
        at,
        related: others.map((run) => ({ at: { origin: run.link.origin }, message: 'on the same way' })),
      });
    }
  },
);
