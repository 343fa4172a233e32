import { capacity } from '../../../vessel/serial.js';
import { count, listOf, number } from '../../../vessel/words.js';
import { rule } from '../../rule.js';

/** Over this share of its characters a line has no room for the sentences that come now and then. Common practice, no source. */
const TIGHT = 0.8;

/** `serial/budget`: the sentences of a line need more characters a second than it carries, or nearly so. */
export const budget = rule(
  {
    code: 'serial/budget',
    severities: ['warning', 'error'],
    summary: 'The sentences of an NMEA 0183 line need over 80 % of its characters, or over all of them.',
  },
  ({ lines }, report) => {
    for (const line of lines) {
      const [first] = line.listeners;
      if (first === undefined) continue;
      const at = { origin: first.link.link.origin };
      const { baud, share, missing } = line;
      if (baud === undefined || share === undefined) {
        report.unknown(at, `how fast ${line.id} talks`);
        continue;
      }
      if (share <= TIGHT) {
        if (missing.length > 0) report.unknown(at, listOf(missing));
        continue;
      }
      const whole = missing.length > 0 ? 'at least ' : '';
      const largest = [...line.sentences]
        .map((one) => ({ ...one, each: (one.characters ?? 0) * (one.hertz ?? 0) }))
        .filter((one) => one.each > 0)
        .sort((x, y) => y.each - x.each)
        .slice(0, 4)
        .map(
          (one) =>
            `${one.formatter} ${number(one.each, 1)}${one.from === line.talker.device ? '' : ` from ${one.from}`}`,
        );
      const over = share > 1;
      report.find({
        severity: over ? 'error' : 'warning',
        message: `${line.id} sends ${whole}${number(line.charactersPerSecond, 1)} characters a second, ${number(share * 100, 1)} % of the ${count(capacity(baud), 'character')} that ${baud} bit/s carry: ${listOf(largest)}. ${
          over
            ? 'Sentences are dropped or come late, whichever they happen to be.'
            : 'Nothing is left for what comes now and then, such as alarms.'
        } Send less often, hold back what no listener wants, or use a port of 38400 bit/s.`,
        at,
        related: line.listeners.slice(1).map((one) => ({
          at: { origin: one.link.link.origin },
          message: 'on the same line',
        })),
      });
    }
  },
);
