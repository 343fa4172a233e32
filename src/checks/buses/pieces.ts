/** The pieces of cable that a backbone is made of: spans, drops and branches. */
import type { Backbone, BackboneItem, Cable, Drop, Port, Vessel } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import type { Routes } from '../../vessel/routes.js';
import type { Piece } from './bus.js';

export interface Ground {
  readonly vessel: Vessel;
  readonly lookup: Lookup;
  readonly routes: Routes;
}

type Item<K extends BackboneItem['kind']> = BackboneItem & { readonly kind: K };

/** The cable of a piece: its own, else the backbone's. */
function cableOf(
  { lookup }: Ground,
  backbone: Backbone,
  own: string | undefined,
): Pick<Piece, 'cable' | 'cableMissing'> {
  const cable: Cable | undefined = lookup.cable(own ?? backbone.cable);
  return {
    cable,
    cableMissing: cable === undefined ? `backbone ${backbone.name} does not say its cable` : undefined,
  };
}

type Length = Pick<Piece, 'lengthMetres' | 'stated' | 'missing'>;

const stated = (lengthMetres: number): Length => ({ lengthMetres, stated: true, missing: undefined });
const unknown = (missing: string): Length => ({ lengthMetres: undefined, stated: false, missing });

/** Along the runs, with the vessel's slack at both ends. */
function routed({ vessel, lookup, routes }: Ground, from: string, to: string): Length {
  for (const zone of [from, to])
    if (lookup.zone(zone) === undefined) return unknown(`zone ${zone} is not declared`);
  const route = routes.between(from, to);
  if (route.kind === 'unknown') return unknown(route.missing);
  if (route.kind === 'none') return unknown(`no run joins ${from} to ${to}`);
  return {
    lengthMetres: route.metres + 2 * (vessel.slackMetres ?? 0),
    stated: false,
    missing: undefined,
  };
}

export function spanPiece(ground: Ground, backbone: Backbone, item: Item<'span'>): Piece {
  const { origin, lengthMetres, between } = item;
  const length =
    lengthMetres !== undefined
      ? stated(lengthMetres)
      : between === undefined
        ? unknown(`a span of backbone ${backbone.name} has no length`)
        : routed(ground, ...between);
  return { origin, ...length, ...cableOf(ground, backbone, item.cable) };
}

/** What the tee says of its drop. A moulded tail that is longer than what is written stays as long as it is. */
export function dropPiece(
  ground: Ground,
  backbone: Backbone,
  item: Item<'tee'>,
  device: string,
  port: Port | undefined,
): Piece {
  const { lookup } = ground;
  const zone = lookup.plugZone(device);
  const fallback = (): Length =>
    item.zone !== undefined && zone !== undefined
      ? routed(ground, item.zone, zone)
      : unknown(`the drop of ${device} has no length`);
  return {
    origin: item.origin,
    ...lengthOf(item.dropMetres, port, fallback),
    ...cableOf(ground, backbone, item.cable),
  };
}

/** A branch of a box. Where its length is not said it has that of the tail, or the way from box to device. */
export function branchPiece(
  ground: Ground,
  backbone: Backbone,
  item: Item<'tee'>,
  branch: Drop,
  port: Port | undefined,
): Piece {
  const { lookup } = ground;
  const { device } = branch.end;
  const box = item.end?.device;
  const from = box === undefined ? undefined : lookup.plugZone(box);
  const to = device === undefined ? undefined : lookup.plugZone(device);
  const fallback = (): Length =>
    from !== undefined && to !== undefined && from !== to
      ? routed(ground, from, to)
      : unknown(`the branch to ${device ?? 'a device'} has no length`);
  return {
    origin: item.origin,
    ...lengthOf(branch.lengthMetres, port, fallback),
    ...cableOf(ground, backbone, item.cable),
  };
}

function lengthOf(written: number | undefined, port: Port | undefined, fallback: () => Length): Length {
  const tail = port?.captive?.lengthMetres;
  if (written !== undefined)
    return { lengthMetres: Math.max(written, tail ?? 0), stated: written >= (tail ?? 0), missing: undefined };
  return tail === undefined ? fallback() : { lengthMetres: tail, stated: false, missing: undefined };
}
