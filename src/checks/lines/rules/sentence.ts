import { kindOf } from '../../../vessel/serial.js';
import { SENTENCES } from '../../../vessel/sentences.js';
import { listOf } from '../../../vessel/words.js';
import type { Context } from '../../context.js';
import { rule } from '../../rule.js';

/**
 * `serial/sentence`: a port sends, or a gateway passes or holds back, a sentence that is not in the table. What cannot be a sentence at all
 * is a fault of the text.
 */
export const sentence = rule(
  {
    code: 'serial/sentence',
    severities: ['information'],
    summary: 'A sentence that a model names is not known.',
  },
  (context, report) => {
    for (const { device, model, port, message } of namedSentences(context)) {
      if (kindOf(message) !== 'unlisted') continue;
      report.find({
        message: `${device} names sentence ${message}, which is not in the table: neither its length nor what it brings is known, so neither is counted. ${near(message)}`,
        at: { origin: context.lookup.device(device)?.origin ?? `device ${device}`, part: 'model' },
        related: [{ at: { origin: model }, message: `port ${port} of ${device}` }],
      });
    }
  },
);

/** Sentences that share two letters in their places. */
function near(message: string): string {
  const like = Object.keys(SENTENCES).filter(
    (name) => [0, 1, 2].filter((index) => message[index] === name[index]).length >= 2,
  );
  return like.length === 0
    ? 'If it is right, nothing needs to be done.'
    : `Perhaps ${listOf(like, 'or', 4)} is meant.`;
}

interface Named {
  readonly device: string;
  readonly model: string;
  readonly port: string;
  readonly message: string;
}

function namedSentences({ vessel, lookup }: Context): readonly Named[] {
  const seen = new Set<string>();
  return vessel.devices.flatMap(({ name, leaving }) => {
    const model = lookup.modelOf(name);
    // What is to be said of a model is said once, at the first device of it.
    if (model === undefined || leaving || seen.has(model.name)) return [];
    seen.add(model.name);
    const sent = model.ports.flatMap((port) =>
      port.medium === 'nmea0183' ? port.sends.map(({ message }) => ({ port: port.name, message })) : [],
    );
    const filtered = model.passes.flatMap(({ to, filter }) =>
      (filter?.messages ?? []).map((message) => ({ port: to, message })),
    );
    const table = new Map([...sent, ...filtered].map((one) => [one.message, one]));
    return [...table.values()].map((one) => ({ device: name, model: model.origin, ...one }));
  });
}
