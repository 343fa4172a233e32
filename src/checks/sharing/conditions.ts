/** The conditions of sharing, one function each. */
import type { Device, Model } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import { anyCovers, covers } from '../../vessel/signals.js';
import { listOf } from '../../vessel/words.js';
import type { Ethernet, Step } from '../network/ethernet.js';
import { hasEthernet } from '../network/ethernet.js';
import { portText } from '../wiring/wiring.js';
import type { Hosting, Plug } from './hosting.js';
import { condition, type Condition, type Question } from './steps.js';
import type { Nearest } from './nearest.js';

/** What the conditions look things up in. */
export interface Ground {
  readonly lookup: Lookup;
  readonly ethernet: Ethernet;
  readonly hosting: Hosting;
  readonly nearest: Nearest;
}

function model(ground: Ground, device: string): Model | undefined {
  return ground.lookup.modelOf(device);
}

export function deviceSpot(device: Device | undefined, name: string): { readonly origin: string } {
  return { origin: device?.origin ?? `device ${name}` };
}

function at(
  ground: Ground,
  device: string,
): { readonly device: string; readonly spot: { readonly origin: string } } {
  return { device, spot: deviceSpot(ground.lookup.device(device), device) };
}

/** The source's own statement, which opens every trace. */
export function gives(ground: Ground, q: Question): Condition {
  const grade = q.grade === undefined ? '' : `, ${q.grade} grade`;
  return condition(true, 'not-linked', at(ground, q.source), `${q.source} gives ${q.signal}${grade}`);
}

/** The source is plugged into a port. */
export function plugged(plug: Plug): Condition {
  const [link] = plug.links;
  const through = plug.through.length > 0 ? ` through ${listOf(plug.through)}` : '';
  return condition(
    true,
    'not-linked',
    {
      device: plug.other.device,
      port: plug.other.port.name,
      ...(link === undefined ? {} : { spot: { origin: link.link.origin } }),
    },
    `${plug.self.device} is plugged into ${portText(plug.other)}${through}`,
  );
}

/**
 * A host's port accepts the grade. Only sonar has grades, and only transducer ports accept them. What is not marked as
 * high-definition is of standard grade, but a port that names no grade is not known to accept any.
 */
export function accepts(ground: Ground, q: Question, plug: Plug): Condition | undefined {
  const { other } = plug;
  if (other.port.medium !== 'transducer' || !covers('sonar', q.signal)) return undefined;
  const where = {
    device: other.device,
    port: other.port.name,
    spot: { origin: plug.links[0]?.link.origin ?? '' },
  };
  const { accepts: accepted } = other.port;
  if (accepted === undefined) {
    return condition(
      null,
      'grade-refused',
      where,
      `the model of ${other.device} does not say which grade port ${other.port.name} accepts`,
    );
  }
  if (accepted === 'hd') return condition(true, 'grade-refused', where, `port ${portText(other)} accepts hd`);
  const nearest = (): string => {
    const port = ground.nearest.host(q.grade, q.screen);
    return port === undefined
      ? 'link it to a port that accepts hd'
      : `link it to ${portText(port)}, which accepts hd`;
  };
  return condition(
    q.grade !== 'hd',
    'grade-refused',
    where,
    q.grade !== 'hd'
      ? `port ${portText(other)} accepts standard`
      : `port ${portText(other)} accepts standard grade, ${q.source} is high-definition`,
    nearest,
  );
}

/** A host puts the signal on the network. A black box that does not say what it shares is not judged. */
export function shares(ground: Ground, host: string, q: Question): Condition {
  const found = model(ground, host);
  if (found === undefined)
    return condition(null, 'not-shared', at(ground, host), `${host} has no known model`);
  if (anyCovers(found.shares, q.signal))
    return condition(true, 'not-shared', at(ground, host), `${host} shares ${q.signal}`);
  if (found.shares.length === 0 && found.class === 'sonar') {
    return condition(null, 'not-shared', at(ground, host), `${found.name} does not say what it shares`);
  }
  return condition(
    false,
    'not-shared',
    at(ground, host),
    `${host} does not share ${q.signal}${found.shares.length > 0 ? `: it shares ${listOf(found.shares)}` : ''}`,
    () => `plug ${q.source} into a device that shares ${q.signal}`,
  );
}

/** What the way over ethernet comes to: conditions and the devices passed. */
export interface Way {
  readonly conditions: readonly Condition[];
  readonly powered: Condition | undefined;
  readonly passed: readonly string[];
}

/** A way over ethernet between two devices. */
export function way(ground: Ground, from: string, to: string, off: ReadonlySet<string>): Way {
  if (from === to) return { conditions: [], powered: undefined, passed: [] };
  const { ethernet } = ground;
  const found = ethernet.path(from, to, off);
  if (found !== undefined)
    return { conditions: hopsOf(found, to), powered: undefined, passed: passedOf(found) };
  const ignoring = off.size > 0 ? ethernet.path(from, to, NONE) : undefined;
  if (ignoring !== undefined) {
    const dark = passedOf(ignoring).find((device) => off.has(device)) ?? to;
    const names = [from, ...ignoring.map((step) => step.to)].join(' -> ');
    const powered = condition(
      false,
      'not-powered',
      at(ground, dark),
      `${dark} is off, and the only way is ${names}`,
      () => `it would be seen with ${dark} on`,
    );
    return { conditions: hopsOf(ignoring, to), powered, passed: passedOf(ignoring) };
  }
  if (!hasEthernet(model(ground, from))) {
    return lost(
      condition(
        false,
        'no-path',
        at(ground, from),
        `${from} has no ethernet port, so nothing it hosts leaves it`,
      ),
    );
  }
  if (!hasEthernet(model(ground, to)))
    return lost(condition(false, 'no-path', at(ground, to), `${to} has no ethernet port`));
  if (ethernet.isOpen(from) || ethernet.isOpen(to)) {
    const open = ethernet.isOpen(from) ? from : to;
    return lost(
      condition(null, 'no-path', at(ground, open), `a link on the network of ${open} is not settled`),
    );
  }
  const nearest = (): string => {
    const here = ground.nearest.joint(from);
    const there = ground.nearest.joint(to);
    return here !== undefined && there !== undefined
      ? `link ${portText(here)} -- ${portText(there)}`
      : 'join them with a switch';
  };
  return lost(condition(false, 'no-path', at(ground, to), apart(ground, from, to), nearest));
}

function apart(ground: Ground, from: string, to: string): string {
  const { ethernet } = ground;
  if (ethernet.segmentsOf(to).length === 0) return `${to} is on no ethernet network`;
  if (ethernet.segmentsOf(from).length === 0) return `${from} is on no ethernet network`;
  return `no ethernet joins ${from} to ${to}: they are on separate networks`;
}

const NONE: ReadonlySet<string> = new Set();

function lost(one: Condition): Way {
  return { conditions: [one], powered: undefined, passed: [] };
}

function passedOf(steps: readonly Step[]): readonly string[] {
  return steps.slice(1).map((step) => step.from);
}

function hopsOf(steps: readonly Step[], to: string): readonly Condition[] {
  return steps.map((step) => {
    const why = step.to === to ? `ethernet reaches ${to}` : `${step.to} bridges ethernet`;
    return condition(
      true,
      'no-path',
      { device: step.to, port: step.toPort.name, spot: { origin: step.link.link.origin } },
      `${why} over ${step.from}.${step.fromPort.name} -- ${step.to}.${step.toPort.name}`,
    );
  });
}

/** Families have one in common; a device without one is neutral. */
export function families(ground: Ground, from: string, screen: string): Condition {
  const one = model(ground, from)?.families ?? [];
  const other = model(ground, screen)?.families ?? [];
  const common = one.find((family) => other.includes(family));
  const where = at(ground, screen);
  if (one.length === 0 || other.length === 0)
    return condition(
      true,
      'family-differs',
      where,
      `${one.length === 0 ? from : screen} is of no family, so it is neutral`,
    );
  if (common !== undefined)
    return condition(true, 'family-differs', where, `${from} and ${screen} are both of family ${common}`);
  return condition(
    false,
    'family-differs',
    where,
    `${screen} is of family ${listOf(other)}, ${from} of ${listOf(one)}: displays network only inside one family`,
    () => `a display of family ${listOf(one, 'or')} would show it`,
  );
}

/** As `families`, where nobody asks why. */
export function sameFamily(ground: Ground, from: string, screen: string): boolean {
  const one = model(ground, from)?.families ?? [];
  const other = model(ground, screen)?.families ?? [];
  return one.length === 0 || other.length === 0 || one.some((family) => other.includes(family));
}

/** The screen shows the signal; over a bus it is enough that it wants it. */
export function shows(ground: Ground, q: Question, by: 'own' | 'network' | 'bus'): Condition {
  const found = model(ground, q.screen);
  const where = at(ground, q.screen);
  if (found === undefined) return condition(null, 'not-shown', where, `${q.screen} has no known model`);
  const wants = found.wants.map((want) => want.signal);
  if (anyCovers(found.shows, q.signal))
    return condition(true, 'not-shown', where, `${q.screen} shows ${q.signal}`);
  if ((by === 'bus' || q.hearing) && anyCovers(wants, q.signal))
    return condition(true, 'not-shown', where, `${q.screen} wants ${q.signal}`);
  if (
    q.hearing
      ? wants.length === 0 && found.shows.length === 0
      : found.class === 'display' && found.shows.length === 0
  ) {
    return condition(
      null,
      'not-shown',
      where,
      `${found.name} does not say what it ${q.hearing ? 'wants' : 'shows'}`,
    );
  }
  const list = by === 'bus' || q.hearing ? [...new Set([...found.shows, ...wants])] : found.shows;
  return condition(
    false,
    'not-shown',
    where,
    list.length === 0
      ? `${q.screen} shows nothing: it is a ${found.class}`
      : `${q.screen} cannot show ${q.signal}: its model shows ${listOf(list)}`,
    () => `a screen whose model shows ${q.signal} would`,
  );
}

/** Neither end is off. */
export function ends(ground: Ground, q: Question, ...between: readonly string[]): readonly Condition[] {
  return [q.source, ...between, q.screen]
    .filter((device, index, all) => q.off.has(device) && all.indexOf(device) === index)
    .map((device) =>
      condition(
        false,
        'not-powered',
        at(ground, device),
        `${device} is off`,
        () => `it would be seen with ${device} on`,
      ),
    );
}
