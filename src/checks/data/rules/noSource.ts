import { listOf } from '../../../vessel/words.js';
import { rule } from '../../rule.js';
import type { DataWant } from '../data.js';

/** `data/no-source`: what a device wants does not reach it, or nothing aboard gives it. */
export const noSource = rule(
  {
    code: 'data/no-source',
    severities: ['error', 'warning'],
    summary: 'What a device wants reaches it from no source.',
  },
  ({ hearing, lookup }, report) => {
    for (const want of hearing.wants()) {
      const at = { origin: want.origin };
      if (want.verdict === 'unknown' && want.used === undefined)
        report.unknown(at, want.reason ?? `whether ${want.signal} reaches ${want.device}`);
      if (want.verdict !== 'none') continue;
      // A radio with a distress key has a rule of its own for that.
      if (want.signal === 'position' && lookup.modelOf(want.device)?.dsc === true) continue;
      if (want.givenBy.length === 0 && isOptional(want)) continue;
      const [near] = want.givenBy;
      report.find({
        ...(isOptional(want) ? { severity: 'warning' as const } : {}),
        message: `${want.device} wants ${want.signal}, and ${near === undefined ? 'nothing aboard gives it' : `${listOf(want.givenBy)} ${want.givenBy.length === 1 ? 'gives' : 'give'} it without reaching ${want.device}: ${want.reason ?? 'no way is known'}`}. What ${want.device} does with ${want.signal}, it cannot do. ${near === undefined ? 'Put a source on its bus or line' : 'Join them by a bus, a line or a gateway'}.`,
        at,
        related:
          near === undefined
            ? []
            : [
                {
                  at: { origin: lookup.device(near)?.origin ?? want.origin },
                  message: `gives ${want.signal}`,
                },
              ],
      });
    }
  },
);

/** Displays and radars show their pictures without it, and many small boats have none: good ordinary practice. */
function isOptional({ class: kind }: DataWant): boolean {
  return kind === 'display' || kind === 'radar';
}
