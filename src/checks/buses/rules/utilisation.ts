import { listOf } from '../../../vessel/words.js';
import { rule } from '../../rule.js';
import { busText } from './text.js';

/** Planning ceilings of 50 to 70 % are common practice, no source; over 80 % urgent messages come late. */
const WARN_SHARE = 0.5;
const MOST_SHARE = 0.8;

const percentText = (share: number): string =>
  share > 0 && share < 0.01 ? 'under 1 %' : `${Math.round(share * 100)} %`;

/** `bus/utilisation`: what is sent on a backbone takes more of its time than is good, at worst. */
export const utilisation = rule(
  {
    code: 'bus/utilisation',
    severities: ['warning', 'error'],
    summary: 'What is sent on a backbone fills over half of it at worst.',
  },
  ({ buses }, report) => {
    for (const { bus, traffic } of buses) {
      const { worstShare, typicalShare, talkers, missing } = traffic();
      if (worstShare <= WARN_SHARE) {
        for (const { at, text } of missing) report.unknown(at, text);
        continue;
      }
      const most = talkers.map(({ device, share }) => `${device} ${percentText(share)}`);
      report.find({
        message: `What is sent on ${busText(bus)} fills ${percentText(worstShare)} of it at worst and ${percentText(typicalShare)} typically (250 kbit/s): messages come late, and the less urgent ones not at all. Most comes from ${listOf(most)}. Let these send less often, hold back what nobody wants, or part the backbone in two with a gateway.`,
        at: { origin: bus.backbone.origin },
        severity: worstShare > MOST_SHARE ? 'error' : 'warning',
      });
    }
  },
);
