import { times } from '../../../vessel/words.js';
import { rule } from '../../rule.js';

/** `data/rate`: what a device wants comes less often than it wants it. */
export const rate = rule(
  {
    code: 'data/rate',
    severities: ['warning'],
    summary: 'What a device wants comes less often than it asks.',
  },
  ({ hearing, lookup }, report) => {
    for (const want of hearing.wants()) {
      const { device, signal, wantedHertz, used } = want;
      const at = { origin: want.origin };
      if (used === undefined || wantedHertz === undefined) continue;
      if (want.verdict === 'unknown')
        report.unknown(at, want.reason ?? `how often ${signal} comes to ${device}`);
      if (want.verdict !== 'slow') continue;
      report.find({
        message: `${device} wants ${signal} ${times(wantedHertz)} a second, and ${used.source} brings it ${times(used.hertz ?? 0)} (${used.path.join(' -> ')}): ${device} lags behind the boat. Use a faster source, a line of 38400 bit/s, or say by "prefer" which other source it listens to.`,
        at,
        related: [
          {
            at: { origin: lookup.device(used.source)?.origin ?? want.origin },
            message: `gives ${signal}`,
          },
        ],
      });
    }
  },
);
