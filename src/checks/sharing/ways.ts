/** The three ways to a screen, tried in order: its own port, the ethernet network, a bus. */
import { covers, meet } from '../../vessel/signals.js';
import { listOf } from '../../vessel/words.js';
import { isPointToPoint, type Plug } from './hosting.js';
import { hasEthernet } from '../network/ethernet.js';
import { endText, portText, type ResolvedLink, type Wiring } from '../wiring/wiring.js';
import type { Buses } from './bus.js';
import {
  accepts,
  deviceSpot,
  ends,
  families,
  gives,
  plugged,
  shares,
  shows,
  way,
  type Ground,
} from './conditions.js';
import { condition, type Attempt, type Condition, type Question } from './steps.js';

/** The charts and waypoints that a display has of itself and may share. */
export const USER_DATA: readonly string[] = ['chart', 'waypoints'];

export interface Means extends Ground {
  readonly wiring: Wiring;
  readonly buses: Buses;
}

function present(list: readonly (Condition | undefined)[]): readonly Condition[] {
  return list.filter((one) => one !== undefined);
}

/** Own: linked to a point-to-point port of the screen itself, which accepts its grade; or built into it. */
export function ownWays(means: Means, q: Question): readonly Attempt[] {
  if (q.source === q.screen) {
    return [
      {
        by: 'own',
        conditions: [gives(means, q), shows(means, { ...q, hearing: true }, 'own'), ...ends(means, q)],
        path: [q.screen],
        needsPowered: [],
      },
    ];
  }
  const plugs = means.hosting.plugsOf(q.source).filter((plug) => plug.other.device === q.screen);
  const attempts = plugs.map((plug): Attempt => ({
    by: 'own',
    conditions: present([
      gives(means, q),
      plugged(plug),
      accepts(means, q, plug),
      shows(means, q, 'own'),
      ...ends(means, q),
    ]),
    path: [q.source, ...plug.through, q.screen],
    needsPowered: [],
  }));
  if (attempts.length > 0) return attempts;
  const refused = refusedAt(means, q.source, q.screen);
  if (refused !== undefined)
    return [{ by: 'own', conditions: [gives(means, q), refused], path: [], needsPowered: [] }];
  const model = means.lookup.modelOf(q.source);
  const given = model?.gives.some((give) => meet(give.signal, q.signal)) ?? false;
  const pluggable = model?.ports.some((port) => isPointToPoint(port.medium)) ?? false;
  return given && pluggable ? [unlinked(means, q)] : [];
}

/** The attempt of a source that is plugged into nothing that could help. */
export function unlinked(means: Means, q: Question): Attempt {
  const open = means.hosting.mayBeLinked(q.source, isPointToPoint);
  const maybe = open && means.hosting.plugsOf(q.source).length === 0;
  const conditions = [gives(means, q), notLinked(means, q, maybe), shows(means, q, 'own')];
  return { by: 'own', conditions, path: [], needsPowered: [] };
}

/** A link at the source that cannot be made as it is written, to the given device or to any. */
function refusedAt(means: Means, source: string, to?: string): Condition | undefined {
  const wrong = means.wiring
    .linksAt(source)
    .filter((wired) => wired.state === 'refused' && (to === undefined || farEnd(wired, source) === to))
    .sort((x, y) => Number(y.refusal === 'medium') - Number(x.refusal === 'medium'));
  const [link] = wrong;
  if (link === undefined) return undefined;
  const far = farEnd(link, source) ?? source;
  const text = `${endText(link.link.a)} -- ${endText(link.link.b)}`;
  return condition(
    false,
    link.refusal === 'medium' ? 'wrong-medium' : 'not-linked',
    { device: far, spot: { origin: link.link.origin } },
    link.refusal === 'medium'
      ? `the ends of ${text} are of different media`
      : `the link ${text} cannot be made as written`,
  );
}

function farEnd(wired: ResolvedLink, near: string): string | undefined {
  return wired.link.a.device === near ? wired.link.b.device : wired.link.a.device;
}

function notLinked(means: Means, q: Question, maybe: boolean): Condition {
  const where = { device: q.source, spot: deviceSpot(means.lookup.device(q.source), q.source) };
  if (maybe) return condition(null, 'not-linked', where, `a link that may be ${q.source}'s is not settled`);
  return condition(
    false,
    'not-linked',
    where,
    `${q.source} is not linked to ${q.screen}, nor to a device that could share ${q.signal} with it`,
    () => {
      const port = covers('sonar', q.signal) ? means.nearest.host(q.grade, q.screen) : undefined;
      return port === undefined
        ? null
        : `link it to ${portText(port)}, which accepts ${port.port.accepts ?? 'it'}`;
    },
  );
}

/** Network: hosted by a device that shares the signal, or itself on ethernet. */
export function networkWays(means: Means, q: Question): readonly Attempt[] {
  if (q.source === q.screen) return [];
  const model = means.lookup.modelOf(q.source);
  const attempts: Attempt[] = means.hosting
    .plugsOf(q.source)
    .filter((plug) => plug.other.device !== q.screen)
    .map((plug) => hosted(means, q, plug));
  const isUserData = model?.class === 'display' && USER_DATA.some((signal) => meet(signal, q.signal));
  const given = model?.gives.some((give) => meet(give.signal, q.signal)) ?? false;
  if (hasEthernet(model) && (given || isUserData)) {
    attempts.push(onNetwork(means, q, given ? gives(means, q) : shares(means, q.source, q)));
  } else if (isUserData) {
    attempts.push({
      by: 'network',
      conditions: [shares(means, q.source, q), ...way(means, q.source, q.screen, q.off).conditions],
      path: [],
      needsPowered: [],
    });
  }
  const refused = attempts.length === 0 ? refusedAt(means, q.source) : undefined;
  if (refused !== undefined)
    attempts.push({ by: 'network', conditions: [gives(means, q), refused], path: [], needsPowered: [] });
  return attempts;
}

function hosted(means: Means, q: Question, plug: Plug): Attempt {
  const host = plug.other.device;
  const over = way(means, host, q.screen, q.off);
  return {
    by: 'network',
    conditions: present([
      gives(means, q),
      plugged(plug),
      accepts(means, q, plug),
      shares(means, host, q),
      ...over.conditions,
      families(means, host, q.screen),
      shows(means, q, 'network'),
      ...ends(means, q, host),
      over.powered,
    ]),
    path: [q.source, ...plug.through, host, ...over.passed, q.screen],
    needsPowered: powered(means, [host, ...over.passed]),
  };
}

function onNetwork(means: Means, q: Question, opening: Condition): Attempt {
  const over = way(means, q.source, q.screen, q.off);
  const joined = means.ethernet.stepsFrom(q.source).length > 0;
  const open =
    means.ethernet.isOpen(q.source) || means.hosting.mayBeLinked(q.source, (medium) => medium === 'ethernet');
  const where = { device: q.source, spot: deviceSpot(means.lookup.device(q.source), q.source) };
  const nearest = (): string | null => {
    const joint = means.nearest.joint(q.screen);
    return joint === undefined ? null : `link it to ${portText(joint)}`;
  };
  const refused = joined ? undefined : refusedAt(means, q.source);
  const linked = joined
    ? undefined
    : open
      ? condition(null, 'not-linked', where, `a link that may be ${q.source}'s is not settled`)
      : (refused ?? condition(false, 'not-linked', where, `${q.source} is on no ethernet network`, nearest));
  return {
    by: 'network',
    conditions: present([
      opening,
      linked,
      ...over.conditions,
      families(means, q.source, q.screen),
      shows(means, q, 'network'),
      ...ends(means, q),
      over.powered,
    ]),
    path: [q.source, ...over.passed, q.screen],
    needsPowered: powered(means, over.passed),
  };
}

/** Everything on the way that goes dark without power; couplers do not. */
function powered(means: Means, devices: readonly string[]): readonly string[] {
  return devices.filter((device) => means.lookup.modelOf(device)?.class !== 'joint');
}

/** Bus: one NMEA 2000 backbone, an NMEA 0183 line, or through gateways from one to the other. */
export function busWays(means: Means, q: Question): readonly Attempt[] {
  const { buses } = means;
  if (q.source === q.screen) return [];
  const where = { device: q.source, spot: deviceSpot(means.lookup.device(q.source), q.source) };
  if (!buses.isOnBus(q.source)) {
    const ports = means.lookup.modelOf(q.source)?.ports ?? [];
    if (!ports.some((port) => port.medium === 'nmea2000' || port.medium === 'nmea0183')) return [];
    const open =
      means.hosting.mayBeLinked(q.source, (medium) => medium === 'nmea0183') ||
      (ports.some((port) => port.medium === 'nmea2000') &&
        means.wiring.backbones.some((backbone) => backbone.open));
    const linked = condition(
      open ? null : false,
      'not-linked',
      where,
      open ? `a bus that ${q.source} may be on is not settled` : `${q.source} is on no bus`,
    );
    return [
      {
        by: 'bus',
        conditions: [gives(means, q), linked, shows(means, q, 'bus')],
        path: [],
        needsPowered: [],
      },
    ];
  }
  const { holds, doubt } = buses.travels(q.source, q.signal);
  if (holds !== true) {
    const travels = condition(
      holds,
      'wrong-medium',
      where,
      doubt ?? `no bus that ${q.source} is on carries ${q.signal}`,
    );
    return [
      {
        by: 'bus',
        conditions: [gives(means, q), travels, shows(means, q, 'bus')],
        path: [],
        needsPowered: [],
      },
    ];
  }
  const trace = traceOn(means, q, q.off) ?? (q.off.size > 0 ? traceOn(means, q, new Set()) : undefined);
  if (trace === undefined)
    return [
      {
        by: 'bus',
        conditions: [gives(means, q), ...noBusPath(means, q), shows(means, q, 'bus')],
        path: [],
        needsPowered: [],
      },
    ];
  const dark = ends(means, q, ...trace.passed);
  return [
    {
      by: 'bus',
      conditions: [gives(means, q), ...trace.conditions, shows(means, q, 'bus'), ...dark],
      path: [q.source, ...trace.passed, q.screen],
      needsPowered: trace.passed,
    },
  ];
}

function traceOn(
  means: Means,
  q: Question,
  off: ReadonlySet<string>,
): { readonly conditions: readonly Condition[]; readonly passed: readonly string[] } | undefined {
  const { arrivals } = means.buses.reach(q.source, q.signal, off);
  const conditions: Condition[] = [];
  const passed: string[] = [];
  let arrival = arrivals.get(q.screen);
  if (arrival === undefined) return undefined;
  while (arrival !== undefined) {
    const where = { device: arrival.device, port: arrival.port?.name, spot: arrival.spot };
    conditions.unshift(
      condition(true, 'no-path', where, `${arrival.over} brings ${q.signal} to ${arrival.device}`),
    );
    if (arrival.from === q.source) break;
    passed.unshift(arrival.from);
    arrival = arrivals.get(arrival.from);
  }
  return { conditions, passed };
}

function noBusPath(means: Means, q: Question): readonly Condition[] {
  const doubt = means.buses.doubtOf(q.source, q.signal, q.screen);
  const device = { device: q.screen, spot: deviceSpot(means.lookup.device(q.screen), q.screen) };
  const ports = means.lookup.modelOf(q.screen)?.ports ?? [];
  const hears = ports.some((port) => port.medium === 'nmea2000' || port.medium === 'nmea0183');
  if (hears && doubt !== null) return [condition(null, 'no-path', device, doubt)];
  if (hears && means.hosting.mayBeLinked(q.screen, (medium) => medium === 'nmea0183')) {
    return [condition(null, 'no-path', device, `a line that may be ${q.screen}'s is not settled`)];
  }
  const held = hears ? means.buses.heldBy(q.source, q.signal, q.screen) : [];
  if (held.length > 0) {
    const [first = ''] = held;
    const gate = { device: first, spot: deviceSpot(means.lookup.device(first), first) };
    const why = `${listOf(held)} ${held.length === 1 ? 'holds' : 'hold'} back what brings ${q.signal} from ${q.source} to ${q.screen}`;
    return [condition(false, 'no-path', gate, why, () => `let ${first} pass it on`)];
  }
  const backbones = means.buses.backbonesOf(q.source);
  const nearest = (): string | null =>
    ports.some((port) => port.medium === 'nmea2000') && backbones.length > 0
      ? `put ${q.screen} on a tee of backbone ${listOf(backbones, 'or')}`
      : null;
  return [
    condition(false, 'no-path', device, `no bus brings ${q.signal} from ${q.source} to ${q.screen}`, nearest),
  ];
}
