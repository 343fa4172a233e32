/** How long the cable of each link is, and what is bought for it. */
import type { Link, Vessel } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import type { Route, Routes } from '../../vessel/routes.js';
import type { CableRun } from '../analysis.js';
import { isCabled } from '../wiring/fit.js';
import type { ResolvedLink, Wiring } from '../wiring/wiring.js';
import { choosePieces } from './stock.js';

/** A cable with its way, for the rules. */
export interface RoutedCable extends CableRun {
  readonly wired: ResolvedLink;
  /** Undefined where an end or its zone is not known. */
  readonly route: Route | undefined;
  /** Length that joints add. */
  readonly joinedMetres: number;
  /** The device whose tail it is. */
  readonly tailOf: string | undefined;
}

/** Work out the cable of every link that has one. A moulded tail is a cable that nobody buys. */
export function computeCables(
  vessel: Vessel,
  lookup: Lookup,
  routes: Routes,
  wiring: Wiring,
): readonly RoutedCable[] {
  const slack = vessel.slackMetres ?? 0;
  return wiring.links
    .filter((wired) => wired.medium === undefined || isCabled(wired.medium))
    .map((wired) => measure(lookup, routes, wired, slack));
}

function measure(lookup: Lookup, routes: Routes, wired: ResolvedLink, slackMetres: number): RoutedCable {
  const { link } = wired;
  const way = routeOf(lookup, routes, link);
  const tails = [wired.a, wired.b].flatMap((end) =>
    end?.port.captive === undefined ? [] : [{ device: end.device, tail: end.port.captive }],
  );
  const tailLengths = tails.map(({ tail }) => tail.lengthMetres);
  const captiveMetres =
    tails.length === 0 || tailLengths.includes(undefined)
      ? undefined
      : tailLengths.reduce<number>((total, length) => total + (length ?? 0), 0);
  const joinedMetres = link.joins.reduce((total, joint) => {
    const model = joint.model === undefined ? undefined : lookup.model(joint.model);
    return total + (model?.lengthMetres ?? 0);
  }, 0);
  const routeMetres = way.route?.kind === 'route' ? way.route.metres + 2 * slackMetres : undefined;
  const statedMetres = link.lengthMetres;
  const neededMetres = statedMetres ?? routeMetres;
  const cable = lookup.cable(link.cable);
  const toBuy =
    neededMetres === undefined ? undefined : Math.max(0, neededMetres - joinedMetres - (captiveMetres ?? 0));
  const stock = cable?.stock.map((piece) => piece.lengthMetres) ?? [];
  const route = way.route?.kind === 'route' ? way.route : undefined;
  return {
    link,
    wired,
    id: wired.id,
    cable: link.cable,
    route: way.route,
    zones: route?.zones ?? way.ends,
    runs: route?.runs ?? [],
    neededMetres,
    routeMetres,
    statedMetres,
    pieces: toBuy === undefined || stock.length === 0 ? [] : choosePieces(stock, toBuy),
    captiveMetres,
    joinedMetres,
    tailOf: tails[0]?.device,
    unknown: neededMetres === undefined ? way.missing : undefined,
  };
}

interface WayOf {
  readonly route: Route | undefined;
  readonly ends: readonly string[];
  readonly missing: string | undefined;
}

/** The way of a link from zone to zone, or what is missing for it. */
function routeOf(lookup: Lookup, routes: Routes, link: Link): WayOf {
  const zones: string[] = [];
  for (const end of [link.a, link.b]) {
    if (end.device === undefined)
      return { route: undefined, ends: [], missing: 'one of its ends is not declared' };
    const zone = lookup.plugZone(end.device);
    if (zone === undefined || lookup.zone(zone) === undefined) {
      return { route: undefined, ends: [], missing: `the zone of ${end.device} is not known` };
    }
    zones.push(zone);
  }
  const [from, to] = zones;
  if (from === undefined || to === undefined)
    return { route: undefined, ends: [], missing: 'one of its ends is not declared' };
  const via = link.joins.flatMap((joint) => joint.zone ?? []);
  const route = routes.between(from, to, link.by, via);
  const missing =
    route.kind === 'unknown'
      ? route.missing
      : route.kind === 'none'
        ? `no run joins ${from} to ${to}`
        : undefined;
  return { route, ends: zones, missing };
}
