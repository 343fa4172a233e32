import { rule } from '../../rule.js';
import type { Problem } from '../wiring.js';

/** `type/direction`: two talkers, two listeners, two outputs, two inputs. */
export const direction = rule(
  {
    code: 'type/direction',
    severities: ['error'],
    summary: 'A link joins two talkers or two listeners, or a feed leaves an input or enters an output.',
    waivable: false,
  },
  ({ wiring }, report) => {
    for (const problem of wiring.problems)
      if (problem.kind === 'direction') report.find({ message: message(problem), at: problem.at });
  },
);

function message({ why, a, b }: Problem & { readonly kind: 'direction' }): string {
  switch (why) {
    case 'talkers':
      return `${a} and ${b} both talk and neither listens: on an NMEA 0183 line one talks and the others listen. Link a talker to a listener.`;
    case 'listeners':
      return `${a} and ${b} both listen and neither talks, so the line stays silent. Link a talker to a listener.`;
    case 'transducers':
      return `${a} and ${b} are both transducers: each needs a sounder to drive it. Link each to a display or a black box.`;
    case 'sounders':
      return `${a} and ${b} are both sounder ports, which drive a transducer: two outputs meet. Link a transducer to each, and join the devices by their network.`;
    case 'outputs':
      return `${a} and ${b} are both outputs, and drive against each other. Link an output to an input.`;
    case 'inputs':
      return `${a} and ${b} are both inputs, and nothing drives them. Link an output to an input.`;
    case 'from-input':
      return `${a} is an input, and a feed leaves there for ${b}: current would go backwards. Feed from an output, a battery or a busbar.`;
    case 'to-output':
      return `${a} is an output, and a feed from ${b} enters it: two outputs meet. Feed an input, or turn the feed round.`;
  }
}
