/** Random boats, and the cheapest design of one by trying every choice of gear and every tree of cables. Shares nothing with src. */

interface Kind {
  readonly name: string;
  readonly ports: number;
  readonly passes: boolean;
  readonly price: number;
}

/** A boat of one family in zones along a line. */
export interface Yard {
  /** Metres from each zone to the next. */
  readonly gaps: readonly number[];
  /** Price of a cable by the metres it comes in, from short to long. */
  readonly stock: readonly (readonly [metres: number, price: number])[];
  readonly screens: readonly { readonly zone: number; readonly kinds: readonly Kind[] }[];
  readonly boxes: readonly { readonly zone: number; readonly kind: Kind }[];
  readonly switches: readonly Kind[];
}

const SLACK = 0.5;

/** @param most - Screens, and boxes as well, at most. */
export function randomYard(random: () => number, most = 3): Yard {
  const below = (count: number): number => Math.floor(random() * count);
  const zones = 1 + below(3);
  const one = (ports: number, base: number): number => base + 40 * ports + below(20) * 10;
  const screens = Array.from({ length: 1 + below(most) }, (_, screen) => ({
    zone: below(zones),
    kinds: Array.from({ length: 1 + below(2) }, (__, kind): Kind => {
      const ports = 1 + below(3);
      return { name: `Screen${screen}${kind}`, ports, passes: random() < 0.7, price: one(ports, 600) };
    }),
  }));
  const boxes = Array.from({ length: 1 + below(most) }, (_, box) => ({
    zone: below(zones),
    kind: { name: `Box${box}`, ports: 1 + below(2), passes: false, price: 500 },
  }));
  const switches = Array.from({ length: below(3) }, (_, number): Kind => {
    // A crowd needs switches with more ports.
    const ports = 3 + 2 * number + (most > 3 ? 2 + below(5) : 0);
    return { name: `Hub${number}`, ports, passes: true, price: 60 + 20 * ports + below(10) * 10 };
  });
  return {
    gaps: Array.from({ length: zones - 1 }, () => 2 + below(6)),
    stock: [
      [2, 20 + below(10)],
      [6, 40 + below(10)],
      [15, 70 + below(20)],
    ],
    screens,
    boxes,
    switches,
  };
}

export function yardText({ gaps, stock, screens, boxes, switches }: Yard): string {
  const model = ({ name, ports, passes, price }: Kind, kind: string, more: string): string =>
    `model ${name} : ${kind} { price ${price} USD  ${more}  port ${ports === 1 ? 'net' : `1..${ports}`} : ethernet${passes ? '  bridges ethernet' : ''} }`;
  const screenFacts = 'families Tern  shows chart, sonar  shares chart, sonar';
  return [
    `vessel Boat { currency USD  slack ${SLACK} m }`,
    'family Tern',
    ...screens.flatMap(({ kinds }) => kinds.map((kind) => model(kind, 'display', screenFacts))),
    ...boxes.map(({ kind }) => model(kind, 'sonar', 'families Tern  gives sonar.live')),
    ...switches.map((kind) => model(kind, 'switch', '')),
    `cable Net : ethernet { stock ${stock.map(([metres, price]) => `${metres} m at ${price} USD`).join(', ')} }`,
    ...Array.from({ length: gaps.length + 1 }, (_, zone) => `zone z${zone} interior`),
    ...gaps.map((metres, zone) => `run z${zone} -- z${zone + 1} ${metres} m`),
    ...screens.map(
      ({ zone, kinds }, number) =>
        `device s${number} : ${kinds.map(({ name }) => name).join(' or ')} at z${zone}`,
    ),
    ...boxes.map(({ zone, kind }, number) => `device b${number} : ${kind.name} at z${zone}`),
    ...screens.flatMap((_, screen) => boxes.map((__, box) => `need s${screen} show b${box}`)),
  ].join('\n');
}

interface Node {
  readonly zone: number;
  readonly kind: Kind;
}

/** The price of the cheapest design; undefined where there is none. */
export function cheapestByTrying(yard: Yard): number | undefined {
  const { gaps, stock, screens, boxes, switches } = yard;
  const zonesInUse = [...new Set([...screens, ...boxes].map(({ zone }) => zone))];
  const cable = (from: number, to: number): number => {
    const along = gaps.slice(Math.min(from, to), Math.max(from, to)).reduce((sum, gap) => sum + gap, 0);
    const metres = along + 2 * SLACK;
    // Of one length, else of two or three joined, each time the shortest that reaches.
    for (let pieces = 1; pieces <= 3; pieces += 1) {
      let best: readonly [number, number] | undefined;
      const join = (left: number, length: number, price: number): void => {
        if (left === 0) {
          if (length >= metres - 1e-9 && (best === undefined || length < best[0])) best = [length, price];
          return;
        }
        for (const [one, cost] of stock) join(left - 1, length + one, price + cost);
      };
      join(pieces, 0, 0);
      if (best !== undefined) return best[1];
    }
    return Infinity;
  };
  let cheapest: number | undefined;
  const gears = product(screens.map(({ kinds }) => kinds));
  // As many switches in a zone as the devices there need ports for, one port of each leading on; none where two devices are all there is.
  const largest = Math.max(2, ...switches.map(({ ports }) => ports));
  const inZone = (zone: number): readonly (readonly Node[])[] => {
    const devices = [...screens, ...boxes].filter((one) => one.zone === zone).length;
    const some = (left: number, from: number): readonly (readonly Node[])[] => [
      [],
      ...(left === 0
        ? []
        : switches.flatMap((kind, number) =>
            number < from ? [] : some(left - 1, number).map((more) => [{ zone, kind }, ...more]),
          )),
    ];
    return some(Math.max(1, Math.ceil(devices / (largest - 1))), 0);
  };
  const hubs =
    screens.length + boxes.length < 3
      ? [[]]
      : product(zonesInUse.map(inZone))
          .map((chosen) => chosen.flat())
          .sort((a, b) => a.length - b.length);
  for (const gear of gears) {
    for (const hub of hubs) {
      const nodes: readonly Node[] = [
        ...gear.map((kind, number) => ({ zone: screens[number]?.zone ?? 0, kind })),
        ...boxes,
        ...hub,
      ];
      const price = nodes.reduce((sum, { kind }) => sum + kind.price, 0);
      if (cheapest !== undefined && price >= cheapest) continue;
      const wires = cheapestTree(nodes, cable, screens.length + boxes.length);
      if (wires !== undefined && (cheapest === undefined || price + wires < cheapest))
        cheapest = price + wires;
    }
  }
  return cheapest;
}

function product<T>(lists: readonly (readonly T[])[]): readonly (readonly T[])[] {
  return lists.reduce<readonly (readonly T[])[]>(
    (sofar, list) => sofar.flatMap((one) => list.map((item) => [...one, item])),
    [[]],
  );
}

/** Over every labelled tree (by its Pruefer sequence), within what each node can hold. */
function cheapestTree(
  nodes: readonly Node[],
  cable: (from: number, to: number) => number,
  /** Nodes from here on are switches, which join three or more. */
  firstSwitch: number,
): number | undefined {
  const count = nodes.length;
  if (count === 1) return 0;
  const holds = nodes.map(({ kind }) => (kind.passes ? kind.ports : 1));
  const cost = nodes.map((a) => nodes.map((b) => cable(a.zone, b.zone)));
  let best: number | undefined;
  const sequence: number[] = [];
  const degree = new Array<number>(count).fill(1);
  const priceOf = (): number => {
    const left = [...degree];
    const used = new Array<boolean>(count).fill(false);
    let sum = 0;
    for (const inner of sequence) {
      const leaf = left.findIndex((value, number) => value === 1 && used[number] === false);
      sum += cost[leaf]?.[inner] ?? Infinity;
      used[leaf] = true;
      left[inner] = (left[inner] ?? 0) - 1;
    }
    const [a = 0, b = 0] = left.flatMap((value, number) =>
      value === 1 && used[number] === false ? [number] : [],
    );
    return sum + (cost[a]?.[b] ?? Infinity);
  };
  const extend = (): void => {
    if (sequence.length === count - 2) {
      if (degree.slice(firstSwitch).some((value) => value < 3)) return;
      const price = priceOf();
      if (Number.isFinite(price) && (best === undefined || price < best)) best = price;
      return;
    }
    for (let node = 0; node < count; node += 1) {
      if ((degree[node] ?? 0) >= (holds[node] ?? 0)) continue;
      degree[node] = (degree[node] ?? 0) + 1;
      sequence.push(node);
      extend();
      sequence.pop();
      degree[node] = (degree[node] ?? 0) - 1;
    }
  };
  extend();
  return best;
}
