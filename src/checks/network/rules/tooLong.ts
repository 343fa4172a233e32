import { metres } from '../../../vessel/words.js';
import { rule } from '../../rule.js';
import { LONGEST_COPPER_METRES } from '../ethernet.js';

/** `net/too-long`: a copper ethernet link is over 100 m. */
export const tooLong = rule(
  { code: 'net/too-long', severities: ['error'], summary: 'A copper ethernet link is over 100 m.' },
  ({ cables }, report) => {
    for (const run of cables) {
      if (
        run.wired.medium !== 'ethernet' ||
        run.neededMetres === undefined ||
        run.neededMetres <= LONGEST_COPPER_METRES
      )
        continue;
      report.find({
        message: `${run.id.replace('--', ' -- ')} is ${metres(run.neededMetres)} long, and copper ethernet carries ${metres(LONGEST_COPPER_METRES)} at most (IEEE 802.3). Put a switch half way, or find a shorter route.`,
        at: { origin: run.link.origin },
      });
    }
  },
);
