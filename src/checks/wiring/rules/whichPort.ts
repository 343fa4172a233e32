import { listOf } from '../../../vessel/words.js';
import { rule } from '../../rule.js';

/** `type/which-port`: several ports fit that do not stand for each other, so one must be named. */
export const whichPort = rule(
  {
    code: 'type/which-port',
    severities: ['error'],
    summary: 'Several ports fit, so one must be named.',
    waivable: false,
  },
  ({ wiring }, report) => {
    for (const problem of wiring.problems) {
      if (problem.kind !== 'which') continue;
      const { device, model } = problem;
      const texts = problem.ports.map((port) => `${device}.${port.name}`);
      const free = problem.ports
        .filter((port) => wiring.useOf(device, port.name).length === 0)
        .map((port) => `${device}.${port.name}`);
      const as = model === undefined ? '' : ` as a ${model}`;
      report.find({
        message: `${device}${as} has several ports that fit here: ${listOf(texts, 'or')}. Which one it is decides what is joined. Name it, as in ${free[0] ?? texts[0] ?? device}.`,
        at: problem.at,
        repairs: (model === undefined ? free : []).slice(0, 6).map((text, index) => ({
          title: `Name ${text}`,
          preferred: index === 0,
          change: { kind: 'replace', at: problem.at, text },
        })),
      });
    }
  },
);
