import { listOf } from '../../../vessel/words.js';
import { rule } from '../../rule.js';
import type { DataWant } from '../data.js';

/** What acts on a figure, or shows it as the truth. */
const CLASSES: readonly string[] = ['pilot', 'radar', 'transponder', 'display'];

/** `data/two-sources`: more than one source of a signal reaches something that wants it, and nothing says which counts. */
export const twoSources = rule(
  {
    code: 'data/two-sources',
    severities: ['information'],
    summary: 'More than one source of a signal reaches what wants it, and no "prefer" settles which counts.',
  },
  ({ hearing, lookup }, report) => {
    const bySignal = new Map<string, DataWant[]>();
    for (const want of hearing.wants())
      if (CLASSES.includes(want.class) && want.supplies.length > 1 && !want.settled)
        bySignal.set(want.signal, [...(bySignal.get(want.signal) ?? []), want]);
    for (const [signal, wants] of bySignal) {
      const sources = [...new Set(wants.flatMap((one) => one.supplies.map((supply) => supply.source)))];
      const [first] = sources;
      const [consumer] = wants;
      if (first === undefined || consumer === undefined) continue;
      report.find({
        message: `${listOf(sources)} all bring ${signal} to ${listOf(wants.map((one) => one.device))}: which one counts is left to each device, and two may differ. Write "prefer ${signal} from ${first}" (or another of them), and set the devices to it.`,
        at: { origin: lookup.device(first)?.origin ?? consumer.origin },
        related: wants.map((one) => ({ at: { origin: one.origin }, message: `wants ${signal}` })),
      });
    }
  },
);
