import type { Cable } from '../../../vessel/model.js';
import type { Context } from '../../context.js';
import type { Repair, Spot } from '../../finding.js';
import { rule, type Report } from '../../rule.js';

/**
 * `cable/not-sealed`: an unsealed ethernet or NMEA 2000 connector ends where an open connector takes harm. Plain patch cable
 * works, and is for bench and temporary use. Common practice, no source.
 */
export const notSealed = rule(
  {
    code: 'cable/not-sealed',
    severities: ['warning'],
    summary: 'An unsealed ethernet or NMEA 2000 connector ends in an exposed or machinery zone.',
  },
  (context, report) => {
    links(context, report);
    drops(context, report);
  },
);

function links(context: Context, report: Report): void {
  const { lookup, wiring } = context;
  for (const { link, medium, state, a, b, id } of wiring.links) {
    if (state === 'refused' || medium !== 'ethernet') continue;
    const tailed = a?.port.captive !== undefined || b?.port.captive !== undefined;
    const wet = [
      ...[link.a, link.b].flatMap((end) => wetZone(context, end.device)),
      ...link.joins.flatMap((joint) =>
        lookup.zone(joint.zone)?.exposure?.wet === true
          ? [{ what: 'a joint in it', zone: joint.zone ?? '' }]
          : [],
      ),
    ];
    const [first] = wet;
    if (first === undefined) continue;
    const cable = lookup.cable(link.cable);
    const what = id.replace('--', ' -- ');
    if (cable !== undefined)
      complain(context, report, cable, { origin: link.origin, part: 'cable' }, what, first);
    else if (!tailed)
      report.unknown(
        { origin: link.origin },
        `${what} does not say its cable, and ends in zone ${first.zone}`,
      );
  }
}

function drops(context: Context, report: Report): void {
  const { lookup, vessel } = context;
  for (const backbone of vessel.backbones) {
    for (const item of backbone.items) {
      if (item.kind !== 'tee') continue;
      const cable = lookup.cable(item.cable ?? backbone.cable);
      if (cable === undefined) continue;
      const devices = [item.end?.device, ...item.branches.map((branch) => branch.end.device)];
      const here =
        lookup.zone(item.zone)?.exposure?.wet === true ? [{ what: 'the tee', zone: item.zone ?? '' }] : [];
      const [first] = [...devices.flatMap((device) => wetZone(context, device)), ...here];
      if (first !== undefined)
        complain(
          context,
          report,
          cable,
          { origin: item.origin },
          `a drop of backbone ${backbone.name}`,
          first,
        );
    }
  }
}

interface WetEnd {
  readonly what: string;
  readonly zone: string;
}

function wetZone({ lookup }: Context, device: string | undefined): readonly WetEnd[] {
  if (device === undefined) return [];
  const zone = lookup.zone(lookup.plugZone(device));
  return zone?.exposure?.wet === true ? [{ what: device, zone: zone.name }] : [];
}

function complain(
  context: Context,
  report: Report,
  cable: Cable,
  at: Spot,
  what: string,
  { what: end, zone }: WetEnd,
): void {
  if (cable.sealed) return;
  const found = context.lookup.zone(zone);
  const sealed = sealedCables(context, cable);
  const better =
    sealed[0] === undefined
      ? 'Use a cable with sealed connectors.'
      : `Use a sealed cable, such as ${sealed[0]}.`;
  const repairs: readonly Repair[] =
    at.part === 'cable'
      ? sealed.slice(0, 3).map((name, index) => ({
          title: `Use ${name}`,
          preferred: index === 0,
          change: { kind: 'replace', at, text: name },
        }))
      : [];
  report.find({
    message: `${cable.name} has no sealed connectors, and ${what} ends at ${end} in zone ${zone}, which is ${found?.exposure?.name ?? 'wet'}: it works, and corrodes. Plain connectors are for the bench and for temporary use. ${better}`,
    at,
    related:
      found === undefined
        ? []
        : [{ at: { origin: found.origin }, message: `zone ${zone} is ${found.exposure?.name ?? 'wet'}` }],
    repairs,
  });
}

/** Sealed cables in scope for the same medium, by name. */
function sealedCables({ vessel }: Context, cable: Cable): readonly string[] {
  return Object.values(vessel.cables)
    .filter((one) => one.medium === cable.medium && one.sealed)
    .map((one) => one.name)
    .sort();
}
