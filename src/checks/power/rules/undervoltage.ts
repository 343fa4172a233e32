import { number } from '../../../vessel/words.js';
import { rule, type Report } from '../../rule.js';
import type { ModeSolution } from '../circuit/circuits.js';
import { wayMissing } from '../circuit/unsure.js';
import { consumerAt, type Consumer } from '../loads/consumers.js';
import { marginOf } from '../solve/margin.js';
import type { System } from '../supply/graph.js';

/**
 * `power/undervoltage`: a device has less than its lowest voltage with the battery at its `lowest`, by the voltages of the whole
 * network. Where the supply's range alone leaves the device's, `power/wrong-voltage` says so.
 */
export const undervoltage = rule(
  {
    code: 'power/undervoltage',
    severities: ['error', 'information'],
    summary: 'A device has less than its lowest voltage when the battery is at its lowest.',
  },
  (context, report) => {
    const { loads, circuits, supply } = context;
    const found = new Map<string, { readonly volts: number; readonly at: ModeSolution }>();
    const unknown = new Map<string, string>();
    for (const mode of loads.modes) {
      for (const load of loads.loadsIn(mode).all) {
        const at = circuits.solvedAt(mode, { kind: 'lowest' }, load.terminal);
        const consumer = consumerAt(supply, load.terminal);
        const low = consumer?.port.dc?.inVolts?.low;
        if (low === undefined || consumer === undefined || load.state === 'off') continue;
        const missing = load.missing ?? wayMissing(context, load.terminal, at);
        if (missing !== undefined) unknown.set(load.terminal, missing);
        // A way that is not known counts as none: even so it may be too little.
        if (at.solution.kind !== 'solved') continue;
        // One that cuts itself out to spare the battery has no voltage here, and is as it is meant to be.
        const volts = at.solution.loadVolts.get(load.terminal);
        const least = supply.systemOf(load.terminal)?.volts?.low;
        if (volts === undefined || volts >= low - 1e-6 || (least !== undefined && least < low)) continue;
        if (volts < (found.get(load.terminal)?.volts ?? Infinity)) found.set(load.terminal, { volts, at });
      }
    }
    for (const terminal of supply.terminals.keys()) {
      const consumer = consumerAt(supply, terminal);
      if (consumer === undefined) continue;
      const worst = found.get(terminal);
      const missing = unknown.get(terminal);
      const origin = context.lookup.device(consumer.device)?.origin ?? context.vessel.origin;
      if (worst !== undefined)
        tell(report, consumer, origin, worst.volts, worst.at, supply.systemOf(terminal));
      else if (missing !== undefined) report.unknown({ origin }, missing);
    }
  },
);

function tell(
  report: Report,
  { id, device, port, model }: Consumer,
  origin: string,
  volts: number,
  { mode, circuit }: ModeSolution,
  system: System | undefined,
): void {
  const low = port.dc?.inVolts?.low ?? 0;
  // What a critical circuit may lose in good practice, and the supply does not have to spare: no wire is to blame.
  const usual = USUAL_SHARE * (system?.nominalVolts ?? 0);
  const tight = (system?.volts?.low ?? Infinity) - low < usual && volts >= low - usual;
  const margin = tight ? undefined : marginOf(circuit, new Map([[id, low]]));
  const share = margin?.toLowest.get(id);
  const where = `with the battery at its lowest${mode === undefined ? ' and everything on' : ` in mode ${mode.name}`}`;
  const margins =
    share === undefined
      ? ''
      : share < 0.005
        ? " Even a small load leaves it too little: its lowest voltage is the battery's own."
        : ` It would have enough with all loads at ${number(share, 2)} times what they are; the supply collapses at ${Number.isFinite(margin?.collapse ?? Infinity) ? number(margin?.collapse ?? 0, 2) : 'over 1000'} times.`;
  report.find({
    severity: tight ? 'information' : 'error',
    message: tight
      ? `${device} gets ${number(volts, 2)} V ${where}, and needs ${number(low, 1)} V: the battery at its lowest has nothing to spare for the wires, as good as they are. Charge earlier, or use one that works with less.`
      : `${device} gets ${number(volts, 2)} V ${where}, and needs ${number(low, 1)} V: it restarts or goes dark.${margins} Use larger wires on the way to it, or take load off them.`,
    at: { origin },
    related: [
      {
        at: { origin: model.origin, part: `port ${port.name}` },
        message: `${model.name} needs ${number(low, 1)} V`,
      },
    ],
  });
}

/** Of the nominal voltage: what the practices allow on the way to what is critical. */
const USUAL_SHARE = 0.03;
