/** Which ports of a device may be named at an end of a link, a feed, a tee or a tap. The checks' own notions of fit decide. */
import { grouped } from '../../../checks/wiring/ends.js';
import { dcDirection, fit, isLinkable, sidesOf } from '../../../checks/wiring/fit.js';
import type { Cable, Medium, Model, Port } from '../../../vessel/model.js';
import type { Boat, DeviceAboard } from './boat.js';
import { around, heldAs, type Place } from './place.js';
import { partOf, partsOf, textOf, type Part } from './reading/parts.js';

/** What an end is for. */
export type Role =
  | { readonly kind: 'link'; readonly other: Other | undefined; readonly cable: Cable | undefined }
  | { readonly kind: 'from' | 'to'; readonly others: readonly string[]; readonly isTap: boolean }
  | { readonly kind: 'tee' }
  | { readonly kind: 'remove' };

/** The other end of a link. */
export interface Other {
  readonly device: DeviceAboard;
  /** The port it names, else every port that a link can reach. */
  readonly ports: readonly Port[];
}

/** The role of the end that a place is in. */
export function roleOf(place: Place, boat: Boat): Role | undefined {
  switch (heldAs(place)) {
    case 'LinkDecl.a':
      return linkRole(place, 'b', boat);
    case 'LinkDecl.b':
      return linkRole(place, 'a', boat);
    case 'FeedDecl.from':
      return { kind: 'from', others: endsOf(place, 'to'), isTap: false };
    case 'FeedDecl.to':
      return { kind: 'to', others: endsOf(place, 'from'), isTap: false };
    case 'TapItem.from':
      return { kind: 'from', others: [], isTap: true };
    case 'TeeItem.end':
    case 'Branch.end':
      return { kind: 'tee' };
    case 'RemoveEdit.a':
    case 'RemoveEdit.b':
      return { kind: 'remove' };
    default:
      return undefined;
  }
}

function linkRole(place: Place, side: 'a' | 'b', boat: Boat): Role {
  const owner = around(place, 'LinkDecl');
  const link = owner && place.whole(owner);
  return {
    kind: 'link',
    other: link && otherEnd(partOf(link, side), boat),
    cable: link && usedCable(link, boat),
  };
}

function endsOf(place: Place, side: 'from' | 'to'): string[] {
  const feed = around(place, 'FeedDecl');
  return feed ? partsOf(place.whole(feed), side).flatMap((end) => textOf(end, 'device') ?? []) : [];
}

/** What an end that is written stands for: the port it names, or every linkable one that passes. */
function otherEnd(
  end: Part | undefined,
  boat: Boat,
  passes = (device: string, port: Port) => boat.isFree(device, port),
): Other | undefined {
  const device = boat.device(end && textOf(end, 'device'));
  if (!end || !device?.model) return undefined;
  const name = textOf(end, 'port');
  const named = device.model.ports.filter((port) => port.name === name);
  const ports =
    named.length > 0
      ? named
      : device.model.ports.filter((port) => isLinkable(port.medium) && passes(device.name, port));
  return { device, ports };
}

/** The cable that a link, tee or backbone says it uses. */
function usedCable(part: Part, boat: Boat): Cable | undefined {
  const using = partsOf(part, 'clauses').find((clause) => clause.type === 'UsingClause');
  const name = using && textOf(using, 'cable');
  return name === undefined ? undefined : boat.cables().find(({ cable }) => cable.name === name)?.cable;
}

/** Ports of a device that fit and are free, the best first. */
export function fittingPorts(device: DeviceAboard, role: Role, boat: Boat): readonly Port[] {
  const { model } = device;
  if (!model) return [];
  switch (role.kind) {
    case 'link':
      return linkPorts(device, model, role, boat);
    case 'from':
    case 'to': {
      if (role.others.includes(device.name)) return [];
      const against = role.kind === 'from' ? 'in' : 'out';
      return model.ports
        .filter((port) => port.medium === 'dc' && (role.isTap ? isWay(port) : dcDirection(port) !== against))
        .filter((port) => boat.isFree(device.name, port))
        .sort((p, q) => directed(q) - directed(p));
    }
    case 'tee':
      return model.ports.filter((port) => port.medium === 'nmea2000' && boat.isFree(device.name, port));
    case 'remove':
      return model.ports.filter((port) => boat.uses(device.name, port.name).length > 0);
  }
}

/**
 * Whether a port of the device has to be named there: where the ports that fit, free or not, do not stand for each other. The
 * first end of a link is not known to, before there is another.
 */
export function mustName(device: DeviceAboard, role: Role): boolean {
  const { model } = device;
  if (!model) return false;
  switch (role.kind) {
    case 'link': {
      const { other, cable } = role;
      if (!other) return false;
      const own = { device, ports: model.ports };
      const ports = model.ports
        .filter((port) => isLinkable(port.medium) && (cable === undefined || cable.medium === port.medium))
        .filter((port) => other.ports.some((q) => fits(port, own, q, other)));
      return grouped(model, ports).length > 1;
    }
    case 'from':
    case 'to': {
      const sides = sidesOf(model, new Set(), new Set());
      const against = role.kind === 'from' ? 'in' : 'out';
      const all = model.ports.filter((port) => port.medium === 'dc' && dcDirection(port) !== against);
      const ports = sides === undefined ? all : role.kind === 'to' ? sides.enters : sides.leaves;
      return grouped(model, ports).length > 1;
    }
    case 'tee':
      return (
        grouped(
          model,
          model.ports.filter((port) => port.medium === 'nmea2000'),
        ).length > 1
      );
    case 'remove':
      return false;
  }
}

/** Whether the port is there and fits the medium in every model that the device may turn out to be. */
export const isInEvery = (port: Port, device: DeviceAboard, boat: Boat): boolean =>
  boat
    .alternatives(device)
    .every((model) => model.ports.some((own) => own.name === port.name && own.medium === port.medium));

const isWay = (port: Port): boolean => dcDirection(port) === 'out';
const directed = (port: Port): number => (dcDirection(port) === undefined ? 0 : 1);

function linkPorts(
  device: DeviceAboard,
  model: Model,
  { other, cable }: Extract<Role, { kind: 'link' }>,
  boat: Boat,
): readonly Port[] {
  if (other?.device.name === device.name) return [];
  return model.ports
    .filter((port) => isLinkable(port.medium) && (cable === undefined || cable.medium === port.medium))
    .filter((port) => boat.isFree(device.name, port))
    .filter((port) => other === undefined || meets(port, device, other, boat))
    .sort((p, q) => hostRank(p, other) - hostRank(q, other));
}

/** Whether a port may be linked to the other end, in every alternative that the other end has. */
function meets(port: Port, device: DeviceAboard, { device: other, ports }: Other, boat: Boat): boolean {
  const own = device.model;
  const far = other.model;
  if (!own || !far) return false;
  return (
    ports.some((q) => fit({ port, class: own.class }, { port: q, class: far.class }) === 'fits') &&
    !refusesGrade(port, other, boat) &&
    !ports.every((q) => refusesGrade(q, device, boat))
  );
}

/** Whether a port hosts standard grade only, and the device on it gives more. */
function refusesGrade(host: Port, source: DeviceAboard, boat: Boat): boolean {
  return (
    host.accepts === 'standard' &&
    boat.alternatives(source).some((model) => model.class === 'transducer' && givesHd(model))
  );
}

const givesHd = (model: Model): boolean => model.gives.some((signal) => signal.grade === 'hd');

/** A port that says that it hosts what the other end gives comes before one that says nothing. */
function hostRank(port: Port, other: Other | undefined): number {
  if (port.medium !== 'transducer' || other?.device.model?.class !== 'transducer') return 0;
  return port.accepts === undefined ? 1 : 0;
}

/** Media that a link's two ends can meet in; undefined where neither end says. */
export function linkMedia(link: Part, boat: Boat): ReadonlySet<Medium> | undefined {
  const a = endAt(partOf(link, 'a'), boat);
  const b = endAt(partOf(link, 'b'), boat);
  const [one, two] = [a ?? b, b ?? a];
  if (!one || !two) return undefined;
  const met =
    one === two ? one.ports : one.ports.filter((port) => two.ports.some((q) => fits(port, one, q, two)));
  return new Set(met.map((port) => port.medium));
}

/** An end with every port that a link may have, free or not. */
function endAt(end: Part | undefined, boat: Boat): Other | undefined {
  return otherEnd(end, boat, () => true);
}

function fits(port: Port, one: Other, q: Port, two: Other): boolean {
  const [a, b] = [one.device.model, two.device.model];
  return (
    a !== undefined &&
    b !== undefined &&
    fit({ port, class: a.class }, { port: q, class: b.class }) === 'fits'
  );
}
