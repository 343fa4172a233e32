/** Which ports may meet, and how many connections each takes. Common practice, no source, unless said otherwise. */
import type { DeviceClass, Medium, Model, Port } from '../../vessel/model.js';

/** How two ports stand to each other. */
export type Fit = 'fits' | 'medium' | 'direction';

/** A port with what its device is. */
export interface Candidate {
  readonly port: Port;
  readonly class: DeviceClass;
}

/** Media that a link can join. NMEA 2000 takes a tee, and supply conductors are feeds. */
export function isLinkable(medium: Medium): boolean {
  return medium !== 'nmea2000' && medium !== 'dc';
}

/** Media whose connections are cables that run through the boat. */
export function isCabled(medium: Medium): boolean {
  return medium !== 'wireless';
}

/** Whether a link may join two ports. */
export function fit(a: Candidate, b: Candidate): Fit {
  const p = a.port;
  const q = b.port;
  if (p.medium !== q.medium || !isLinkable(p.medium)) return 'medium';
  if (p.medium === 'own' && p.ownPlug !== undefined && q.ownPlug !== undefined && p.ownPlug !== q.ownPlug)
    return 'medium';
  if (p.medium === 'nmea0183') return talksTo(p, q) || talksTo(q, p) ? 'fits' : 'direction';
  if (p.medium === 'transducer') {
    if (a.class === 'transducer' && b.class === 'transducer') return 'direction';
    if (isSounder(p) && isSounder(q)) return 'direction';
  }
  // Two outputs fight, and two inputs have nobody to drive them; a port that says neither could be either.
  if (p.direction !== undefined && p.direction === q.direction) return 'direction';
  return 'fits';
}

function isSounder(port: Port): boolean {
  return port.accepts !== undefined || port.outputWatts !== undefined;
}

/** Whether the first port talks to the second; a port that says neither could do both. */
export function talksTo(talker: Port, listener: Port): boolean {
  return talks(talker) && listens(listener);
}

export function talks(port: Port): boolean {
  return port.serial?.talksBaud !== undefined || !saysSerial(port);
}

function listens(port: Port): boolean {
  return port.serial?.listensBaud !== undefined || !saysSerial(port);
}

function saysSerial(port: Port): boolean {
  return port.serial?.talksBaud !== undefined || port.serial?.listensBaud !== undefined;
}

/** Which way current goes at a dc port. A starter that also charges takes and gives on one conductor. */
export function dcDirection(port: Port): 'in' | 'out' | undefined {
  const dc = port.dc;
  if (dc === undefined || (dc.cranks !== undefined && dc.outVolts !== undefined)) return undefined;
  return dc.direction;
}

/** Whether a port takes any number of connections. An NMEA 0183 port is judged by its direction, not here. */
export function takesMany(port: Port): boolean {
  if (port.medium === 'dc') return dcDirection(port) === undefined;
  return port.medium === 'wireless' || port.medium === 'ac';
}

/** The ports that stand for each other on a device: a range, or the two sides of a coupler. */
export function groupOf(model: Model, port: Port): string {
  if (model.class === 'joint' && model.ports.length === 2 && isLinkable(port.medium)) {
    const [first, second] = model.ports;
    if (first?.medium === second?.medium) return `coupler ${port.medium}`;
  }
  return port.group;
}

/** Where a feed may enter and leave a device whose dc ports have no direction. */
export interface Sides {
  readonly enters: readonly Port[];
  readonly leaves: readonly Port[];
}

/**
 * The two sides of a device that passes current on. A selector's common post, the one in every position, is where feeds
 * leave; a device with two like posts is fed on one and feeds on from the other, whichever way round. Undefined where
 * neither holds.
 */
export function sidesOf(
  model: Model,
  entered: ReadonlySet<string>,
  left: ReadonlySet<string>,
): Sides | undefined {
  const posts = model.ports.filter((port) => port.medium === 'dc');
  if (posts.some((port) => dcDirection(port) !== undefined)) return undefined;
  const [a, b] = posts;
  if (posts.length === 2 && a !== undefined && b !== undefined && PASSES_ON.has(model.class)) {
    const turned = entered.has(b.name) || left.has(a.name);
    const settled = entered.has(a.name) || left.has(b.name);
    return turned && !settled ? { enters: [b], leaves: [a] } : { enters: [a], leaves: [b] };
  }
  const joins = model.positions.map((position) => position.joins).filter((set) => set.length > 0);
  if (joins.length === 0) return undefined;
  const common = posts.filter((port) => joins.every((set) => set.includes(port.name)));
  if (common.length !== 1) return undefined;
  return { enters: posts.filter((port) => !common.includes(port)), leaves: common };
}

const PASSES_ON: ReadonlySet<DeviceClass> = new Set(['batteryswitch', 'combiner', 'shunt', 'joint']);
