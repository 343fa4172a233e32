/** The ports of feeds and of the taps that feed backbones. */
import type { End, Feed, Port } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import { compareText } from '../../vessel/words.js';
import type { Origin, Spot } from '../../vessel/origin.js';
import type { PortOfDevice, WiredFeed } from '../analysis.js';
import { dcDirection, sidesOf } from './fit.js';
import { grouped, offerOf } from './ends.js';
import type { Ledger } from './ledger.js';
import { endText, type Problem } from './wiring.js';

/** Settles one end of a supply conductor; undefined where it is not to be settled. */
type SettleEnd = (end: End, role: 'from' | 'to', at: Spot, otherEnd: string) => PortOfDevice | undefined;

/** Where a backbone is fed from. */
export interface Tap {
  readonly from: End;
  readonly origin: Origin;
  readonly backbone: string;
}

interface Supply {
  readonly feeds: readonly WiredFeed[];
  /** The ports of the taps, by their origins. */
  readonly taps: ReadonlyMap<Origin, PortOfDevice | undefined>;
}

/** Settle every feed of a vessel, ports that are written first. */
export function resolveSupply(
  lookup: Lookup,
  feeds: readonly Feed[],
  taps: readonly Tap[],
  ledger: Ledger,
  problems: Problem[],
): Supply {
  const entered = new Map<string, Set<string>>();
  const left = new Map<string, Set<string>>();
  for (const feed of feeds) {
    note(left, feed.from);
    for (const end of feed.to) note(entered, end);
  }
  for (const tap of taps) note(left, tap.from);
  const none: ReadonlySet<string> = new Set();

  const candidates = (end: End, role: 'from' | 'to'): readonly Port[] | undefined => {
    const offer = offerOf(lookup, end, (port) => port.medium === 'dc');
    if (offer === undefined || offer.named) return offer?.ports;
    const sides = sidesOf(offer.model, entered.get(offer.device) ?? none, left.get(offer.device) ?? none);
    if (sides !== undefined) return role === 'to' ? sides.enters : sides.leaves;
    const against = role === 'to' ? 'out' : 'in';
    const fitting = offer.ports.filter((port) => dcDirection(port) !== against);
    return fitting.length > 0 ? fitting : offer.ports;
  };

  const settleEnd: SettleEnd = (end, role, at, otherEnd) => {
    const ports = candidates(end, role);
    const { device } = end;
    if (ports === undefined || device === undefined) return undefined;
    const texts = { a: endText(end), b: otherEnd };
    const [first] = ports;
    if (first === undefined) {
      problems.push({ kind: 'medium', why: 'no-dc', at, ...texts });
      return undefined;
    }
    if (first.medium !== 'dc') {
      problems.push({ kind: 'medium', why: 'not-dc', at, ...texts, aMedium: first.medium });
      return undefined;
    }
    if (dcDirection(first) === (role === 'to' ? 'out' : 'in')) {
      problems.push({ kind: 'direction', why: role === 'to' ? 'to-output' : 'from-input', at, ...texts });
      return undefined;
    }
    const model = lookup.modelOf(device);
    if (model !== undefined && grouped(model, ports).length > 1) {
      problems.push({ kind: 'which', at, device, ports, model: undefined, end });
      return undefined;
    }
    const holders = ports.map((port) => ledger.blocker(device, port, false));
    const port = ports[holders.indexOf(undefined)];
    const [holder] = holders;
    if (port === undefined) {
      if (end.port !== undefined && holder !== undefined) {
        problems.push({ kind: 'taken', at, device, port: first, by: holder.by, bySpot: holder.spot });
      } else {
        problems.push({ kind: 'none-free', at, device, ports, by: holders.flatMap((one) => one?.by ?? []) });
      }
      return undefined;
    }
    ledger.hold(device, port, false, { by: otherEnd, spot: { origin: at.origin } });
    return { device, port };
  };

  const sorted = [...feeds].sort((x, y) => compareText(x.origin, y.origin));
  const from = new Map<Feed, PortOfDevice | undefined>();
  const to = new Map<Feed, (PortOfDevice | undefined)[]>();
  const tapped = new Map<Origin, PortOfDevice | undefined>();
  for (const written of [true, false]) {
    for (const feed of sorted) {
      if ((feed.from.port !== undefined) === written) {
        from.set(
          feed,
          settleEnd(
            feed.from,
            'from',
            { origin: feed.origin, part: 'from' },
            feed.to.map(endText).join(', '),
          ),
        );
      }
      const ends = to.get(feed) ?? [];
      to.set(feed, ends);
      feed.to.forEach((end, index) => {
        if ((end.port !== undefined) !== written) return;
        ends[index] = settleEnd(end, 'to', { origin: feed.origin, part: toPart(index) }, endText(feed.from));
      });
    }
    for (const tap of taps) {
      if ((tap.from.port !== undefined) !== written) continue;
      tapped.set(
        tap.origin,
        settleEnd(tap.from, 'from', { origin: tap.origin, part: 'from' }, `backbone ${tap.backbone}`),
      );
    }
  }
  return {
    feeds: feeds.map((feed) => ({
      feed,
      from: from.get(feed),
      to: feed.to.map((_, index) => to.get(feed)?.[index]),
    })),
    taps: tapped,
  };
}

/** The part of a feed that is one of its ends, counted from nought: `to 0`, `to 1`, ... */
function toPart(index: number): string {
  return `to ${index}`;
}

function note(table: Map<string, Set<string>>, end: End): void {
  if (end.device === undefined || end.port === undefined) return;
  const set = table.get(end.device) ?? new Set();
  set.add(end.port);
  table.set(end.device, set);
}
