import { metres } from '../../../vessel/words.js';
import { rule } from '../../rule.js';

/** IEEE 802.3 and ISO/IEC 11801: a copper channel of up to 100 m. Value from memory. */
const LONGEST_METRES = 100;

/** `net/too-long`: a copper ethernet link is over 100 m. */
export const tooLong = rule(
  { code: 'net/too-long', severities: ['error'], summary: 'A copper ethernet link is over 100 m.' },
  ({ cables }, report) => {
    for (const run of cables) {
      if (
        run.wired.medium !== 'ethernet' ||
        run.neededMetres === undefined ||
        run.neededMetres <= LONGEST_METRES
      )
        continue;
      report.find({
        message: `${run.id.replace('--', ' -- ')} is ${metres(run.neededMetres)} long, and copper ethernet carries ${metres(LONGEST_METRES)} at most (IEEE 802.3). Put a switch half way, or find a shorter route.`,
        at: { origin: run.link.origin },
      });
    }
  },
);
