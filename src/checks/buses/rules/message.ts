import { isAddressed } from '../../../vessel/can.js';
import { pgns, standingOf } from '../../../vessel/pgns/pgns.js';
import { rule } from '../../rule.js';

/** `bus/message`: a device is said to send a message that there is not. */
export const message = rule(
  {
    code: 'bus/message',
    severities: ['error', 'warning'],
    summary: 'A device sends a message that there is not, or that the open table does not have.',
  },
  ({ buses }, report) => {
    const told = new Set<string>();
    for (const { bus } of buses)
      for (const { device, model, port, spot } of bus.nodes)
        for (const { message: text } of port?.sends ?? []) {
          const pgn = Number(text);
          const standing = standingOf(pgn);
          const key = `${device} ${text}`;
          if (standing === 'known' || standing === 'proprietary' || told.has(key)) continue;
          told.add(key);
          const what = `${device} (${model?.name ?? 'its model'}) sends ${text}`;
          const near = nearestTo(text);
          const meant = near === undefined ? '' : ` Did you mean ${near.pgn}, ${near.name}?`;
          report.find({
            message:
              standing === 'impossible'
                ? `${what}, which is no number of a message: ${Number.isInteger(pgn) && isAddressed(pgn) ? 'of an addressed one the last byte is nought' : 'they go from 0 to 262143'}. It counts for nothing.${meant}`
                : `${what}, which the open table of messages does not have: it may be new, or mistyped, and its load is not reckoned.${meant}`,
            at: spot,
            severity: standing === 'impossible' ? 'error' : 'warning',
          });
        }
  },
);

/** A message of the table whose number differs in one digit, or has one more or less. */
function nearestTo(text: string): { readonly pgn: number; readonly name: string } | undefined {
  for (const entry of pgns().values()) if (differByOne(String(entry.pgn), text)) return entry;
  return undefined;
}

function differByOne(one: string, other: string): boolean {
  if (Math.abs(one.length - other.length) > 1) return false;
  let at = 0;
  while (at < one.length && one[at] === other[at]) at++;
  const rest = (text: string, skip: number): string => text.slice(at + skip);
  return (
    rest(one, 1) === rest(other, 1) || rest(one, 1) === rest(other, 0) || rest(one, 0) === rest(other, 1)
  );
}
