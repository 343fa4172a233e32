/** Which cables may lie between the sites of a network, and what they cost. */
import type { Cable, Link } from '../../vessel/model.js';
import { compareText } from '../../vessel/words.js';
import type { RoutedCable } from '../cables/cables.js';
import type { Context } from '../context.js';
import { LONGEST_COPPER_METRES } from '../network/ethernet.js';
import type { Keep } from './build.js';
import type { Networks } from './networks.js';
import type { Prices } from './prices.js';
import type { Edge, Site } from './problem.js';

/** Ethernet cables that go from a device to what is not on its network, or to a second place: they hold their ports. */
export function heldAt(context: Context, networks: Networks, device: string): number {
  const own = networks.of(device);
  return context.cables.filter(({ wired }) => {
    if (wired.medium !== 'ethernet') return false;
    const { a, b } = wired;
    const other = a?.device === device ? b : b?.device === device ? a : undefined;
    const here = a?.device === device || b?.device === device;
    return here && (other === undefined || networks.of(other.device) !== own);
  }).length;
}

export interface Cabling {
  readonly edges: readonly Edge[];
  readonly pluggable: readonly Link[];
}

export function edgesOf(
  context: Context,
  networks: Networks,
  sites: readonly Site[],
  keep: Keep,
  prices: Prices,
  unpriced: Set<string>,
): Cabling {
  const numbers = new Map(sites.map((site, number) => [site.name, number]));
  const present = new Map<string, RoutedCable>();
  const pluggable: Link[] = [];
  for (const cable of context.cables) {
    const { a, b, medium } = cable.wired;
    if (medium !== 'ethernet' || a === undefined || b === undefined) continue;
    const ends = [numbers.get(a.device), numbers.get(b.device)];
    const [first, second] = ends;
    if (first === undefined || second === undefined || networks.of(a.device) !== networks.of(b.device))
      continue;
    pluggable.push(cable.link);
    const key = pairOf(first, second);
    if (!present.has(key) && first !== second) present.set(key, cable);
  }
  const price = (cable: RoutedCable): number =>
    cable.link.existing ? 0 : prices.ends + boughtFor(context, prices, cable, unpriced);
  const edges: Edge[] = [];
  const cables = ethernetCables(context);
  sites.forEach((one, a) => {
    sites.slice(a + 1).forEach((other, offset) => {
      const b = a + 1 + offset;
      if (one.network !== other.network) return;
      const now = present.get(pairOf(a, b));
      if (now !== undefined) {
        const fixed = now.link.existing || now.link.joins.length > 0 || keep.links.has(now.link.origin);
        edges.push({ a, b, cable: undefined, cost: price(now), present: now, fixed });
        return;
      }
      if (captive(one) || captive(other)) return;
      const cable = cheapest(context, cables, prices, one, other);
      if (cable === undefined) return;
      edges.push({
        a,
        b,
        cable: cable.cable,
        cost: prices.ends + cable.cost,
        present: undefined,
        fixed: false,
      });
    });
  });
  return { edges, pluggable };
}

function pairOf(a: number, b: number): string {
  return a < b ? `${a} ${b}` : `${b} ${a}`;
}

/** A moulded tail reaches where it was led, and nobody plugs it elsewhere. */
function captive({ candidates }: Site): boolean {
  return candidates.some(({ model }) =>
    model.ports.some((port) => port.medium === 'ethernet' && port.captive !== undefined),
  );
}

/** What is offered aboard: sealed cable, unless none is sold. A patch lead is for temporary use (common practice, no source). */
function ethernetCables({ vessel }: Context): readonly Cable[] {
  const sold = Object.values(vessel.cables)
    .filter(
      (cable) => cable.medium === 'ethernet' && (cable.stock.length > 0 || cable.pricePerMetre !== undefined),
    )
    .sort((a, b) => compareText(a.name, b.name));
  const sealed = sold.filter((cable) => cable.sealed);
  return sealed.length > 0 ? sealed : sold;
}

function boughtFor(context: Context, prices: Prices, run: RoutedCable, unpriced: Set<string>): number {
  const cable = context.lookup.cable(run.cable);
  if (cable === undefined) return 0;
  const metres =
    cable.stock.length === 0 ? run.neededMetres : run.pieces.reduce((sum, piece) => sum + piece, 0);
  if (metres === undefined || metres === 0) return 0;
  const cost = prices.ofCable(cable, metres);
  if (cost === undefined) unpriced.add(cable.name);
  return cost ?? 0;
}

interface Bought {
  readonly cable: Cable | undefined;
  readonly cost: number;
}

/** The cable to buy between two sites, sealed where an end gets wet; undefined where none would do. */
function cheapest(
  { vessel, lookup, routes }: Context,
  cables: readonly Cable[],
  prices: Prices,
  one: Site,
  other: Site,
): Bought | undefined {
  const zones = [one.zone, other.zone].map((name) => lookup.zone(name));
  const [from, to] = zones;
  // Where nobody says where things are, or no cable is in the catalogue, there is nothing to buy yet.
  if (from === undefined || to === undefined || cables.length === 0) return { cable: undefined, cost: 0 };
  const route = routes.between(from.name, to.name, [], []);
  if (route.kind !== 'route') return undefined;
  const metres = route.metres + 2 * (vessel.slackMetres ?? 0);
  if (metres > LONGEST_COPPER_METRES) return undefined;
  const wet = zones.some((zone) => zone?.exposure?.wet === true);
  let best: Bought | undefined;
  for (const cable of cables) {
    if (wet && !cable.sealed) continue;
    if (cable.longestMetres !== undefined && metres > cable.longestMetres) continue;
    const cost = prices.ofCable(cable, metres);
    if (cost !== undefined && (best === undefined || cost < best.cost)) best = { cable, cost };
  }
  return best;
}
