import { listOf } from '../../../vessel/words.js';
import { sizeText } from '../../../vessel/conductors/sizes.js';
import type { Context } from '../../context.js';
import type { Repair } from '../../finding.js';
import { rule } from '../../rule.js';
import type { Gap, WireLimit } from '../protection/protection.js';
import type { SupplyEdge } from '../supply/graph.js';
import { ampsText, fittedSpot, fittedText, protectionText } from './text.js';

/**
 * `power/unprotected`: a positive conductor has no device, of at most 150 % (abyc) or 100 % (iso) of its ampacity, at an end
 * from which fault current can come. 33 CFR 183.455, ABYC E-11; ISO 13297. A conductor that says neither fuse nor
 * `protected` gets what it needs from the tool; a starter's is exempt.
 */
export const unprotected = rule(
  {
    code: 'power/unprotected',
    severities: ['error'],
    summary: 'A conductor has no fuse or breaker at an end from which fault current can come.',
  },
  (context, report) => {
    const { supply, protection, lookup, sizing } = context;
    for (const edge of supply.edges) {
      for (const end of sizing.of(edge).unfitted)
        report.unknown(
          { origin: edge.origin },
          `no fuse that is sold carries ${edge.text}, suits its wire and device, and breaks what may flow at ${end}: say which is fitted`,
        );
      const { conductor, devices } = edge;
      if (conductor.cranking || (devices.length === 0 && !conductor.protectedUpstream)) continue;
      const limit = protection.wireLimitOf(edge);
      const at = { origin: edge.origin };
      for (const gap of protection.gapsOf(edge)) {
        // One that is too large for its wire has a finding of its own.
        if (devices.some((device) => device.end === gap.end)) continue;
        if (!gap.source.certain) {
          report.unknown(
            at,
            `${gap.source.device} does not say to what it limits its current, and ${gap.at} has no device on ${edge.text}`,
          );
          continue;
        }
        report.find({
          message: wording(edge, gap, limit),
          at,
          repairs: repairsOf(context, edge, gap),
          related: [
            {
              at: { origin: lookup.device(gap.source.device)?.origin ?? gap.source.device },
              message: `${gap.source.device} feeds a fault on it`,
            },
            ...gap.passed.slice(0, 3).map(({ edge: other, device }) => ({
              at: { origin: other.origin, part: `protections ${device.index}` },
              message: `${fittedText(device)} is too large for it`,
            })),
          ],
        });
      }
    }
  },
);

/** The fuse that would be worked out there, in place of what was said to protect it; a starter's conductor needs none. */
function repairsOf({ sizing, supply }: Context, edge: SupplyEdge, gap: Gap): readonly Repair[] {
  const covered = { origin: edge.origin, part: 'protected' };
  const cranks = edge.legs.some(({ to }) => {
    const terminal = to === undefined ? undefined : supply.terminals.get(to);
    return terminal?.kind === 'port' && terminal.port.dc?.cranks !== undefined;
  });
  if (cranks) {
    if (!edge.conductor.protectedUpstream || edge.devices.length > 0) return [];
    return [
      {
        title: 'Say that it is a conductor for cranking',
        preferred: true,
        change: { kind: 'replace', at: covered, text: 'cranking' },
      },
    ];
  }
  const fuse = sizing.fuseFor(edge, gap);
  if (fuse?.amps === undefined) return [];
  const text = protectionText({
    ...fuse.protection,
    amps: fuse.amps,
    type: fuse.inWay ? undefined : fuse.type?.name,
    at: fuse.inWay ? undefined : gap.at,
  });
  const last = edge.devices.at(-1);
  const change: Repair['change'] = edge.conductor.protectedUpstream
    ? { kind: 'replace', at: covered, text: `fuse ${text}` }
    : last?.protection.device === 'fuse'
      ? { kind: 'append', at: fittedSpot({ edge, device: last }), text: `, ${text}` }
      : { kind: 'append', at: { origin: edge.origin }, text: `fuse ${text}` };
  return [{ title: `Put a fuse of ${ampsText(fuse.amps)} at ${gap.at}`, preferred: true, change }];
}

function wording(edge: SupplyEdge, gap: Gap, limit: WireLimit | undefined): string {
  const { source, at, passed } = gap;
  const direct = source.device === at;
  const comes = direct
    ? `${source.device} is a source of fault current on ${edge.text}, and there is no fuse at its end`
    : `fault current from ${source.device} comes to ${edge.text} at ${at}, and no fuse on the way stops it`;
  const most =
    limit?.amps === undefined || edge.size === undefined
      ? ''
      : ` of at most ${ampsText(limit.amps)} (${sizeText(edge.size)})`;
  const large =
    passed.length === 0
      ? ''
      : ` (${listOf(
          passed.map(({ device }) => fittedText(device)),
          'and',
          3,
        )} upstream: too large)`;
  const said = edge.conductor.protectedUpstream ? ', though it is said to be protected upstream' : '';
  return `${comes}${large}${said}: a short circuit heats the wire until it burns. Put a fuse${most} at ${direct ? at : `${at}, or at ${source.device}`}.`;
}
