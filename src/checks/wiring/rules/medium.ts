import { mediumText } from '../../../vessel/mediumText.js';
import { listOf } from '../../../vessel/words.js';
import type { Context } from '../../context.js';
import type { Repair } from '../../finding.js';
import { rule } from '../../rule.js';
import type { Problem } from '../wiring.js';

type MediumProblem = Problem & { readonly kind: 'medium' };

/** `type/medium`: a connection joins what does not go together. */
export const medium = rule(
  {
    code: 'type/medium',
    severities: ['error'],
    summary:
      'A link joins ports of different media, or a cable or feed meets a port that is not of its medium.',
    waivable: false,
  },
  (context, report) => {
    for (const problem of context.wiring.problems) {
      if (problem.kind === 'medium')
        report.find({ message: message(problem), at: problem.at, repairs: repairs(context, problem) });
    }
  },
);

/** The medium of an end; a maker's own plug by its name, which is all that tells two of them apart. */
function text(medium: MediumProblem['aMedium'], plug?: string): string {
  if (medium === undefined) return 'of another medium';
  return medium === 'own' && plug !== undefined ? `maker's own "${plug}"` : mediumText(medium);
}

/** What each end has, where it has one medium only. */
function offers({ a, b, aMedium, bMedium, aPlug, bPlug }: MediumProblem): string {
  const each = [
    aMedium === undefined ? [] : [`${a} has ${text(aMedium, aPlug)}`],
    bMedium === undefined ? [] : [`${b} has ${text(bMedium, bPlug)}`],
  ].flat();
  return each.length === 0 ? '' : `: ${each.join(', ')}`;
}

function message(problem: MediumProblem): string {
  const { a, b, aMedium, bMedium, aPlug, bPlug } = problem;
  switch (problem.why) {
    case 'different':
      return `${a} is ${text(aMedium, aPlug)} and ${b} is ${text(bMedium, bPlug)}: their plugs do not meet. Link ports ${aMedium === bMedium ? 'with one plug' : 'of one medium'}.`;
    case 'no-fit':
      return `${a} and ${b} have no ports that go together${offers(problem)}. Link ports of one medium, or put a device between them that has both.`;
    case 'not-by-link':
      return aMedium === 'nmea2000' || bMedium === 'nmea2000'
        ? `${a} -- ${b}: NMEA 2000 devices do not link to each other; each takes a tee on a backbone. Write "tee" for each in a backbone.`
        : `${a} -- ${b}: supply goes by a feed, which has a direction and a fuse, not by a link. Write "feed FROM -> TO".`;
    case 'cable':
      return `cable ${problem.cable ?? ''} is ${text(bMedium)}, and ${a} -- ${b} is ${text(aMedium)}: it does not fit the plugs. Use a cable for ${text(aMedium)}.`;
    case 'not-dc':
      return `${a} is ${text(aMedium)}, and a feed carries dc. Feed a dc port of the device.`;
    case 'no-dc':
      return `${a} has no dc port, so nothing can be fed there (the other end is ${b}). Name a device that has one, or add the port to its model.`;
    case 'no-bus':
      return aMedium === undefined
        ? `${a} has no NMEA 2000 port, so it cannot be on ${b}. Take the tee out, or use a model with such a port.`
        : `${a} is ${text(aMedium)}, and ${b} takes NMEA 2000 ports.`;
    case 'alternative':
      return `${a} may also be a ${problem.model ?? ''}, which has no ${text(aMedium)} port that ${b} fits: a link has to fit every alternative. Name a port that each has, or leave that alternative out.`;
  }
}

function repairs({ vessel }: Context, problem: MediumProblem): readonly Repair[] {
  if (problem.why !== 'cable') return [];
  const fitting = Object.values(vessel.cables)
    .filter((cable) => cable.medium === problem.aMedium)
    .map((cable) => cable.name)
    .sort();
  return fitting.slice(0, 3).map((name, index) => ({
    title: `Use ${name}${index === 0 && fitting.length > 3 ? ` (or one of ${listOf(fitting.slice(3), 'or', 2)})` : ''}`,
    preferred: index === 0,
    change: { kind: 'replace', at: problem.at, text: name },
  }));
}
