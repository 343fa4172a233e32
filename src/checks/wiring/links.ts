/**
 * The ports of links. A port may be left out where exactly one port of the device fits, or the fitting ones stand for each
 * other; then free ones are taken in the order of the links' names, after those that are written.
 */
import type { DeviceClass, Link, Port } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import { compareText } from '../../vessel/words.js';
import type { Spot } from '../../vessel/origin.js';
import { fit, groupOf, isLinkable, talks, talksTo } from './fit.js';
import { grouped, offerOf, type Offer } from './ends.js';
import type { Ledger } from './ledger.js';
import { endText, type Problem, type ResolvedLink } from './wiring.js';

type Side = 'a' | 'b';

/** A link whose two ends are settled as far as a group of ports each. */
interface Settled {
  readonly link: Link;
  readonly a: Offer;
  readonly b: Offer;
}

interface Outcome {
  readonly state: ResolvedLink['state'];
  readonly refusal?: ResolvedLink['refusal'];
  readonly a?: Port;
  readonly b?: Port;
}

/** Settle every link of a vessel. The ledger comes empty and goes out with the links' ports given away. */
export function resolveLinks(
  lookup: Lookup,
  links: readonly Link[],
  ledger: Ledger,
  problems: Problem[],
): readonly ResolvedLink[] {
  const outcomes = new Map<Link, Outcome>();
  const ready: Settled[] = [];
  const sorted = [...links].sort((x, y) => compareText(x.origin, y.origin));
  for (const link of sorted) {
    const settled = settle(lookup, link, problems);
    if ('state' in settled) outcomes.set(link, settled);
    else ready.push(settled);
  }
  for (const [link, outcome] of outcomes) {
    for (const side of ['a', 'b'] as const) {
      const port = outcome[side];
      const device = link[side].device;
      if (port !== undefined && device !== undefined && outcome.state === 'open') {
        ledger.hold(device, port, false, { by: endText(link[other(side)]), spot: { origin: link.origin } });
      }
    }
  }
  const reserved = ready.filter((settled) => reserve(settled, ledger, outcomes, problems));
  for (const settled of reserved) allocate(settled, ledger, outcomes, problems);
  const ids = new Map<string, number>();
  const named = new Map(
    sorted.map((link) => [link, unique(identity(lookup, link, outcomes.get(link)), ids)]),
  );
  return links.map((link) =>
    wired(link, outcomes.get(link) ?? { state: 'open' }, named.get(link) ?? link.origin),
  );
}

function wired(link: Link, outcome: Outcome, id: string): ResolvedLink {
  const at = (side: Side): ResolvedLink['a'] => {
    const device = link[side].device;
    const port = outcome[side];
    return device === undefined || port === undefined ? undefined : { device, port };
  };
  return {
    link,
    id,
    state: outcome.state,
    refusal: outcome.refusal,
    medium: outcome.a?.medium ?? outcome.b?.medium,
    a: at('a'),
    b: at('b'),
  };
}

/** Find the group of ports that each end must use; an outcome where it is not to be found. */
function settle(lookup: Lookup, link: Link, problems: Problem[]): Settled | Outcome {
  const cable = lookup.cable(link.cable);
  const a = offerOf(lookup, link.a, (port) => isLinkable(port.medium));
  const b = offerOf(lookup, link.b, (port) => isLinkable(port.medium));
  if (a === undefined || b === undefined)
    return { state: 'open', ...half('a', a, cable?.medium), ...half('b', b, cable?.medium) };
  const pairs = pairsThatFit(a, b);
  if (pairs.length === 0) {
    const problem = mismatch(link, a, b);
    problems.push(problem);
    return { state: 'refused', refusal: problem.kind };
  }
  const cabled = cable === undefined ? pairs : pairs.filter(([p]) => p.medium === cable.medium);
  if (cable !== undefined && cabled.length === 0) {
    const medium = pairs[0]?.[0].medium;
    problems.push({
      kind: 'medium',
      why: 'cable',
      at: { origin: link.origin, part: 'cable' },
      a: endText(link.a),
      b: endText(link.b),
      aMedium: medium,
      bMedium: cable.medium,
      cable: cable.name,
    });
    return { state: 'refused', refusal: 'medium' };
  }
  const aGroups = grouped(a.model, distinct(cabled.map(([p]) => p)));
  const bGroups = grouped(b.model, distinct(cabled.map(([, q]) => q)));
  const open: Side | undefined = aGroups.length > 1 ? 'a' : bGroups.length > 1 ? 'b' : undefined;
  if (open !== undefined) {
    const offer = open === 'a' ? a : b;
    const ports = (open === 'a' ? aGroups : bGroups).flat();
    problems.push({
      kind: 'which',
      at: { origin: link.origin, part: open },
      device: offer.device,
      ports,
      model: undefined,
      end: link[open],
    });
    return { state: 'open', ...half('a', a, undefined), ...half('b', b, undefined) };
  }
  const settled: Settled = {
    link,
    a: { ...a, ports: aGroups[0] ?? [] },
    b: { ...b, ports: bGroups[0] ?? [] },
  };
  checkAlternatives(lookup, settled, 'a', problems);
  checkAlternatives(lookup, settled, 'b', problems);
  return settled;
}

function half(
  side: Side,
  offer: Offer | undefined,
  medium: Port['medium'] | undefined,
): { a?: Port; b?: Port } {
  if (offer === undefined) return {};
  const ports =
    medium === undefined || offer.named ? offer.ports : offer.ports.filter((port) => port.medium === medium);
  const [port] = ports;
  return ports.length === 1 && port !== undefined ? { [side]: port } : {};
}

function pairsThatFit(a: Offer, b: Offer): readonly (readonly [Port, Port])[] {
  // One port stands for its whole group on the other side: a hub of a hundred ports is one question.
  const pairs: (readonly [Port, Port])[] = [];
  const bGroups = grouped(b.model, b.ports);
  for (const aGroup of grouped(a.model, a.ports)) {
    const [p] = aGroup;
    if (p === undefined) continue;
    for (const bGroup of bGroups) {
      const [q] = bGroup;
      if (
        q === undefined ||
        fit({ port: p, class: a.model.class }, { port: q, class: b.model.class }) !== 'fits'
      )
        continue;
      for (const port of aGroup) pairs.push([port, q]);
      for (const port of bGroup.slice(1)) pairs.push([p, port]);
    }
  }
  return pairs;
}

function distinct(ports: readonly Port[]): readonly Port[] {
  return [...new Set(ports)];
}

/** Why two ports of one medium do not meet. */
function whyNot(
  port: Port,
  a: DeviceClass,
  b: DeviceClass,
): (Problem & { readonly kind: 'direction' })['why'] {
  if (port.medium === 'nmea0183') return talks(port) ? 'talkers' : 'listeners';
  if (port.direction !== undefined) return port.direction === 'out' ? 'outputs' : 'inputs';
  return a === 'transducer' && b === 'transducer' ? 'transducers' : 'sounders';
}

/** Why two ends do not go together. */
function mismatch(link: Link, a: Offer, b: Offer): Problem & { readonly kind: 'medium' | 'direction' } {
  const at: Spot = { origin: link.origin };
  const texts = { a: endText(link.a), b: endText(link.b) };
  for (const p of a.ports) {
    for (const q of b.ports) {
      if (fit({ port: p, class: a.model.class }, { port: q, class: b.model.class }) !== 'direction') continue;
      const why = whyNot(p, a.model.class, b.model.class);
      return { kind: 'direction', at, why, ...texts };
    }
  }
  const [aMedium, bMedium] = [single(a.ports, 'medium'), single(b.ports, 'medium')];
  const [aPlug, bPlug] = [single(a.ports, 'ownPlug'), single(b.ports, 'ownPlug')];
  if (a.named && b.named) {
    return {
      kind: 'medium',
      at,
      why: aMedium === bMedium && aMedium !== 'own' ? 'not-by-link' : 'different',
      ...texts,
      aMedium,
      bMedium,
      aPlug,
      bPlug,
    };
  }
  if (
    (a.named && aMedium !== undefined && !isLinkable(aMedium)) ||
    (b.named && bMedium !== undefined && !isLinkable(bMedium))
  ) {
    return { kind: 'medium', at, why: 'not-by-link', ...texts, aMedium: aMedium ?? bMedium, bMedium };
  }
  return { kind: 'medium', at, why: 'no-fit', ...texts, aMedium, bMedium, aPlug, bPlug };
}

/** What all of the ports have for a property, or undefined where they differ. */
function single<K extends 'medium' | 'ownPlug'>(ports: readonly Port[], key: K): Port[K] | undefined {
  const values = new Set(ports.map((port) => port[key]));
  return values.size === 1 ? ports[0]?.[key] : undefined;
}

/** A port that is left out has to fit in every alternative of an open choice. */
function checkAlternatives(lookup: Lookup, settled: Settled, side: Side, problems: Problem[]): void {
  const offer = settled[side];
  const opposite = settled[other(side)];
  const [q] = opposite.ports;
  if (q === undefined) return;
  const end = settled.link[side];
  const at: Spot = { origin: settled.link.origin, part: side };
  for (const model of lookup.alternativesOf(offer.device).slice(1)) {
    const ports = model.ports.filter(
      (port) =>
        (end.port === undefined || end.port === port.name) &&
        fit({ port, class: model.class }, { port: q, class: opposite.model.class }) === 'fits',
    );
    const groups = grouped(model, ports);
    if (groups.length > 1) {
      problems.push({ kind: 'which', at, device: offer.device, ports, model: model.name, end });
    } else if (groups.length === 0) {
      const texts = { a: endText(end), b: endText(settled.link[other(side)]) };
      problems.push({
        kind: 'medium',
        why: 'alternative',
        at,
        ...texts,
        aMedium: q.medium,
        model: model.name,
      });
    }
  }
}

/** Give away the ports that are written. False where one is taken: then the link is not made. */
function reserve(
  settled: Settled,
  ledger: Ledger,
  outcomes: Map<Link, Outcome>,
  problems: Problem[],
): boolean {
  const { link } = settled;
  for (const side of ['a', 'b'] as const) {
    const offer = settled[side];
    const [port] = offer.ports;
    if (!offer.named || port === undefined) continue;
    const opposite = settled[other(side)];
    const itself =
      side === 'b' && opposite.named && opposite.device === offer.device && opposite.ports[0] === port;
    const blocker = itself
      ? { by: endText(link.a), spot: { origin: link.origin } }
      : ledger.blocker(offer.device, port, hears(settled, side));
    if (blocker === undefined) continue;
    problems.push({
      kind: 'taken',
      at: { origin: link.origin, part: side },
      device: offer.device,
      port,
      by: blocker.by,
      bySpot: blocker.spot,
    });
    outcomes.set(link, { state: 'refused', refusal: 'taken' });
    return false;
  }
  for (const side of ['a', 'b'] as const) {
    const [port] = settled[side].ports;
    if (settled[side].named && port !== undefined) take(settled, side, port, ledger);
  }
  return true;
}

/** Give each end that is left out the first free port of its group. */
function allocate(settled: Settled, ledger: Ledger, outcomes: Map<Link, Outcome>, problems: Problem[]): void {
  const chosen: { a?: Port; b?: Port } = {};
  for (const side of ['a', 'b'] as const) {
    const offer = settled[side];
    const listening = hears(settled, side);
    const holders = offer.ports.map((port) =>
      offer.named ? undefined : ledger.blocker(offer.device, port, listening),
    );
    const port = offer.ports[holders.indexOf(undefined)];
    if (port === undefined) {
      const by = holders.flatMap((holder) => holder?.by ?? []);
      problems.push({
        kind: 'none-free',
        at: { origin: settled.link.origin, part: side },
        device: offer.device,
        ports: offer.ports,
        by,
      });
      outcomes.set(settled.link, { state: 'refused', refusal: 'none-free' });
      return;
    }
    chosen[side] = port;
    if (!offer.named) take(settled, side, port, ledger);
  }
  outcomes.set(settled.link, { state: 'made', ...chosen });
}

function take(settled: Settled, side: Side, port: Port, ledger: Ledger): void {
  ledger.hold(settled[side].device, port, hears(settled, side), {
    by: endText(settled.link[other(side)]),
    spot: { origin: settled.link.origin },
  });
}

function hears(settled: Settled, side: Side): boolean {
  const [port] = settled[side].ports;
  const [talker] = settled[other(side)].ports;
  return port !== undefined && talker !== undefined && talksTo(talker, port);
}

function other(side: Side): Side {
  return side === 'a' ? 'b' : 'a';
}

/**
 * A link's name from its two ends: the port is part of it where only one could be meant, and left out where the tool chose
 * among like ones, so that one more link renames none.
 */
function identity(lookup: Lookup, link: Link, outcome: Outcome | undefined): string {
  const name = (side: Side): string => {
    const end = link[side];
    const port = outcome?.[side];
    const model = end.device === undefined ? undefined : lookup.modelOf(end.device);
    if (end.device === undefined || end.port !== undefined || port === undefined || model === undefined)
      return endText(end);
    const group = groupOf(model, port);
    const alike = model.ports.filter((one) => groupOf(model, one) === group);
    return alike.length === 1 ? `${end.device}.${port.name}` : end.device;
  };
  return [name('a'), name('b')].sort(compareText).join('--');
}

function unique(id: string, ids: Map<string, number>): string {
  const seen = (ids.get(id) ?? 0) + 1;
  ids.set(id, seen);
  return seen === 1 ? id : `${id}#${seen}`;
}
