import { listOf, number } from '../../../vessel/words.js';
import { rule } from '../../rule.js';

/** `energy/endurance`: a `need ... last` is not met by what the bank may give. */
export const endurance = rule(
  {
    code: 'energy/endurance',
    severities: ['error'],
    summary: 'A bank does not last as long as a need asks, by its capacity, planned depth and loads.',
  },
  ({ vessel, needs, energy, lookup }, report) => {
    for (const { index, met, reason, spot, text } of needs) {
      const need = vessel.needs[index];
      if (need?.kind !== 'last') continue;
      if (met === null) report.unknown(spot, reason ?? 'something in it is not declared');
      if (met !== false || need.bank === undefined) continue;
      const flow = energy.flowOf(need.bank, need.mode);
      const wanted = (need.seconds ?? 0) / 3600;
      const short = flow?.hours !== undefined && flow.hours.high < wanted;
      // What would be enough at the same depth: in proportion, since Peukert's law only makes it less.
      const enough =
        short && flow.store !== undefined && flow.hours.low > 0
          ? ` (about ${number(Math.ceil((flow.store.ampHours * wanted) / flow.hours.low), 0)} Ah)`
          : '';
      const repair = short
        ? `Give it more capacity${enough}, switch ${listOf(
            flow.carries.slice(0, 2).map(({ load }) => load.device),
            'or',
          )} off or to a smaller share of the time, or charge in that mode.`
        : 'Ask it of the bank that the starter hangs on, or join the two by a switch.';
      report.find({
        message: `need ${text} is not met: ${reason ?? 'no reason is known'}. A bank that is drawn deeper ages early, and what hangs on it goes dark. ${repair}`,
        at: spot,
        related: [
          {
            at: { origin: lookup.device(need.bank)?.origin ?? need.bank },
            message: `the bank, ${need.bank}`,
          },
        ],
      });
    }
  },
);
