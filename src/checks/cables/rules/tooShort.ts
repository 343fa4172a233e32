import type { Context } from '../../context.js';
import { metres } from '../../../vessel/words.js';
import type { RoutedCable } from '../cables.js';
import { rule, type Report } from '../../rule.js';
import { reaches } from '../stock.js';

/** `cable/too-short`: no stock or joined length, no captive tail, or not the stated length, reaches along the route plus slack. */
export const tooShort = rule(
  {
    code: 'cable/too-short',
    severities: ['error'],
    summary: 'No length that is offered or stated reaches along the route plus slack.',
  },
  (context, report) => {
    for (const run of context.cables) {
      if (run.wired.state === 'made' && run.unknown !== undefined && run.route?.kind !== 'none') {
        report.unknown({ origin: run.link.origin }, run.unknown);
      }
      stated(context, run, report);
      if (run.tailOf === undefined) bought(context, run, report);
      else tail(run, run.tailOf, report);
    }
  },
);

function name(run: RoutedCable): string {
  return run.id.replace('--', ' -- ');
}

function wayText({ vessel }: Context, run: RoutedCable): string {
  const slack = vessel.slackMetres ?? 0;
  return `${run.zones.join(' -- ')} takes ${metres(run.routeMetres ?? 0)}${slack > 0 ? `, with ${metres(slack)} of slack at each end` : ''}`;
}

function stated(context: Context, run: RoutedCable, report: Report): void {
  const { statedMetres, routeMetres } = run;
  if (statedMetres === undefined || routeMetres === undefined || run.tailOf !== undefined) return;
  if (reaches(statedMetres + run.joinedMetres, routeMetres)) return;
  const at = { origin: run.link.origin, part: 'length' };
  report.find({
    message: `${name(run)} is said to be ${metres(statedMetres)} long, and the way ${wayText(context, run)}: it does not reach. Make it longer, or say which way it goes with "by".`,
    at,
  });
}

function bought({ lookup }: Context, run: RoutedCable, report: Report): void {
  const cable = lookup.cable(run.cable);
  const longest = cable?.stock.at(-1)?.lengthMetres;
  if (cable === undefined || longest === undefined || run.neededMetres === undefined || run.pieces.length > 0)
    return;
  report.find({
    message: `no length of ${cable.name} reaches: ${name(run)} needs ${metres(run.neededMetres)}, the longest sold is ${metres(longest)}, and three joined make ${metres(3 * longest)}. Use a cable that is cut to length, or find a shorter route.`,
    at: { origin: run.link.origin, part: 'cable' },
    related: [{ at: { origin: cable.origin }, message: `${cable.name} is sold up to ${metres(longest)}` }],
  });
}

/** A moulded tail reaches, with what is joined to it, or with the cable that lengthens it. */
function tail(run: RoutedCable, device: string, report: Report): void {
  const at = { origin: run.link.origin };
  if (run.cable !== undefined) return;
  if (run.captiveMetres === undefined) {
    report.unknown(at, `the model of ${device} does not say how long its tail is`);
    return;
  }
  const reach = run.captiveMetres + run.joinedMetres;
  if (run.routeMetres === undefined || reaches(reach, run.routeMetres)) return;
  const joined = run.joinedMetres > 0 ? ` with ${metres(run.joinedMetres)} joined to it` : '';
  report.find({
    message: `the tail of ${device} is ${metres(run.captiveMetres)} long${joined}, and ${name(run)} needs ${metres(run.routeMetres)}: it is ${metres(run.routeMetres - reach)} short. Put an extension in it with "join", or move one of the two.`,
    at,
    related: [{ at: { origin: `device ${device}` }, message: `${device} has a moulded tail` }],
  });
}
