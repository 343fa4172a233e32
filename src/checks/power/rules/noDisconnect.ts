import { compareText, listOf, number } from '../../../vessel/words.js';
import type { Context } from '../../context.js';
import { rule } from '../../rule.js';
import type { Bank } from '../supply/graph.js';
import { consumerAt, type Consumer } from '../loads/consumers.js';
import { reachedFrom, withoutSwitch } from '../supply/walk.js';

/** ABYC E-11, 11.6.1.2.1. */
const MOST_CCA = 800;
/** The same, where the cold cranking amperes are not known. */
const MOST_AMP_HOURS = 100;
/** Loads that may be connected before the switch. */
const EXEMPT: ReadonlySet<string> = new Set(['bilgepump', 'alarm', 'memory', 'trolling']);

/** `power/no-disconnect`: loads on a bank over 800 CCA, or 100 Ah where that is unknown, without a battery switch between. */
export const noDisconnect = rule(
  {
    code: 'power/no-disconnect',
    severities: ['warning'],
    summary: 'A large bank feeds loads without a battery switch.',
  },
  (context, report) => {
    const { supply, lookup } = context;
    for (const bank of supply.banks) {
      const loads = [...unswitched(context, bank)].sort((x, y) => compareText(x.id, y.id));
      if (loads.length === 0) continue;
      const at = { origin: lookup.device(bank.device)?.origin ?? bank.device };
      const size = largeness(bank);
      if (size === undefined) {
        report.unknown(at, `${bank.model.name} says neither its cca nor its capacity`);
        continue;
      }
      if (!size.large) continue;
      report.find({
        message: `${bank.device} (${size.text}) feeds ${listOf(
          loads.map((load) => load.device),
          'and',
          4,
        )} without a battery switch: in a fire or a short circuit ${loads.length === 1 ? 'it' : 'they'} cannot be cut off. Put a battery switch between.`,
        at,
        related: loads.slice(0, 4).flatMap((load) =>
          supply.edgesAt(load.id).map((edge) => ({
            at: { origin: edge.origin },
            message: `${load.device} is fed here`,
          })),
        ),
      });
    }
  },
);

function largeness(bank: Bank): { readonly large: boolean; readonly text: string } | undefined {
  if (bank.ccaAmps !== undefined)
    return { large: bank.ccaAmps > MOST_CCA, text: `${number(bank.ccaAmps, 0)} CCA, over ${MOST_CCA}` };
  if (bank.ampHours !== undefined)
    return {
      large: bank.ampHours > MOST_AMP_HOURS,
      text: `${number(bank.ampHours, 0)} Ah, over ${MOST_AMP_HOURS}, its CCA unknown`,
    };
  return undefined;
}

function unswitched({ supply }: Context, bank: Bank): readonly Consumer[] {
  const reached = reachedFrom(supply, bank.terminals, {
    join: withoutSwitch,
    on: (terminal) => supply.bankAt(terminal) === undefined,
  });
  return [...reached].flatMap((terminal) => {
    const consumer = consumerAt(supply, terminal);
    if (consumer === undefined || EXEMPT.has(consumer.model.kind ?? '')) return [];
    // A converter that charges another bank is a charging path.
    const charges = supply
      .joinsAt(terminal)
      .some((join) => join.kind === 'converter' && (supply.systemOf(join.b)?.banks.length ?? 0) > 0);
    return charges ? [] : [consumer];
  });
}
