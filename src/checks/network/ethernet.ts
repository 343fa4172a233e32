/**
 * The ethernet of a vessel: which devices are in one segment, and the way between two of them. Traffic passes a device only
 * where its model says that it bridges ethernet; switches and couplers always pass it (that is what they are for).
 */
import type { Model, Port, Vessel } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import { createUnionFind } from '../../vessel/unionFind.js';
import { compareText } from '../../vessel/words.js';
import type { Segment } from '../analysis.js';
import type { ResolvedLink, Wiring } from '../wiring/wiring.js';

/** One step of a way: over this link, out of one port and into another. */
export interface Step {
  readonly from: string;
  readonly to: string;
  readonly fromPort: Port;
  readonly toPort: Port;
  readonly link: ResolvedLink;
}

export interface Loop {
  readonly segment: string;
  /** Devices around, each once. */
  readonly devices: readonly string[];
  readonly links: readonly ResolvedLink[];
  /** How many links of the segment are more than a tree has. */
  readonly extra: number;
}

export interface Ethernet {
  readonly segments: readonly Segment[];
  /** Segments that a device is on; a device that does not bridge may be on several. */
  readonly segmentsOf: (device: string) => readonly Segment[];
  /** Some link of the device's segments, or one that may be ethernet anywhere, is not settled. */
  readonly isOpen: (device: string) => boolean;
  readonly loops: readonly Loop[];
  /** Steps from a device, sorted by name. */
  readonly stepsFrom: (device: string) => readonly Step[];
  readonly passes: (device: string) => boolean;
  /** The way between two devices that avoids what is off; undefined where there is none. */
  readonly path: (from: string, to: string, off: ReadonlySet<string>) => readonly Step[] | undefined;
}

/** IEEE 802.3 and ISO/IEC 11801: a copper channel of up to 100 m. Value from memory. */
export const LONGEST_COPPER_METRES = 100;

/** Whether a model passes ethernet between its own ports. */
export function bridgesEthernet(model: Model | undefined): boolean {
  return (
    model !== undefined &&
    (model.class === 'switch' || model.class === 'joint' || model.bridges.includes('ethernet'))
  );
}

/** Whether a device has an ethernet port at all. */
export function hasEthernet(model: Model | undefined): boolean {
  return model?.ports.some((port) => port.medium === 'ethernet') ?? false;
}

/** A node is a device that bridges, or one port of a device that does not. */
type Node = string;

interface Branch {
  readonly parent: Node | undefined;
  readonly step: Step | undefined;
  readonly depth: number;
}

/** Work out the ethernet of a vessel. Devices that leave in the refit are not part of it. */
export function createEthernet(vessel: Vessel, lookup: Lookup, wiring: Wiring): Ethernet {
  const leaving = new Set(vessel.devices.filter((device) => device.leaving).map((device) => device.name));
  const passing = new Map<string, boolean>();
  const passes = (device: string): boolean => {
    let known = passing.get(device);
    if (known === undefined) passing.set(device, (known = bridgesEthernet(lookup.modelOf(device))));
    return known;
  };
  const nodeOf = (device: string, port: Port): Node => (passes(device) ? device : `${device}.${port.name}`);

  const steps = new Map<Node, Step[]>();
  const byDevice = new Map<string, Step[]>();
  const nodesOf = new Map<string, Set<Node>>();
  const deviceOf = new Map<Node, string>();
  const sets = createUnionFind<Node>();
  const made = wiring.links
    .filter((wired) => wired.state === 'made' && wired.medium === 'ethernet')
    .sort((x, y) => compareText(x.link.origin, y.link.origin));
  const edges: ResolvedLink[] = [];
  for (const link of made) {
    const { a, b } = link;
    if (a === undefined || b === undefined || leaving.has(a.device) || leaving.has(b.device)) continue;
    const there: Step = { from: a.device, to: b.device, fromPort: a.port, toPort: b.port, link };
    const back: Step = { from: b.device, to: a.device, fromPort: b.port, toPort: a.port, link };
    for (const step of [there, back]) {
      const node = nodeOf(step.from, step.fromPort);
      deviceOf.set(node, step.from);
      add(steps, node, step);
      add(byDevice, step.from, step);
      const nodes = nodesOf.get(step.from) ?? new Set();
      nodesOf.set(step.from, nodes.add(node));
    }
    edges.push(link);
    sets.join(nodeOf(a.device, a.port), nodeOf(b.device, b.port));
  }
  const byName = (x: Step, y: Step): number =>
    compareText(x.to, y.to) || compareText(x.link.link.origin, y.link.link.origin);
  for (const table of [steps, byDevice]) for (const list of table.values()) list.sort(byName);

  const { segments, segmentsOf } = gather(sets, steps, deviceOf, made);
  const tree = spanningTree(steps, nodeOf);
  const inTree = new Set([...tree.values()].map((branch) => branch.step?.link));
  const surplus = edges.filter((link) => !inTree.has(link));

  const openDevices = new Set<string>();
  let openEverywhere = false;
  for (const wired of wiring.links) {
    if (wired.state !== 'open' || (wired.medium !== undefined && wired.medium !== 'ethernet')) continue;
    const ends = [wired.link.a.device, wired.link.b.device].filter((name) => name !== undefined);
    if (
      wired.medium === undefined &&
      ends.some((name) => lookup.modelOf(name) !== undefined && !hasEthernet(lookup.modelOf(name)))
    )
      continue;
    if (ends.length === 0) openEverywhere = true;
    for (const name of ends) openDevices.add(name);
  }
  const openSegments = new Set<Segment>();
  for (const name of openDevices) for (const segment of segmentsOf(name)) openSegments.add(segment);

  return {
    segments,
    segmentsOf,
    isOpen: (device) =>
      openEverywhere ||
      openDevices.has(device) ||
      segmentsOf(device).some((segment) => openSegments.has(segment)),
    loops: findLoops(surplus, tree, segmentsOf, nodeOf),
    stepsFrom: (device) => byDevice.get(device) ?? [],
    passes,
    path: (from, to, off) => {
      const starts = [...(nodesOf.get(from) ?? [])];
      const goals = nodesOf.get(to) ?? new Set();
      let best: readonly Step[] | undefined;
      for (const start of starts) {
        for (const goal of goals) {
          if (sets.find(start) !== sets.find(goal)) continue;
          const way = treePath(tree, start, goal);
          if (best === undefined || way.length < best.length) best = way;
        }
      }
      if (best === undefined || off.size === 0 || !best.slice(1).some((step) => off.has(step.from)))
        return best;
      if (surplus.length === 0) return undefined;
      return detour(steps, starts, goals, off, nodeOf);
    },
  };
}

function add<K, T>(table: Map<K, T[]>, key: K, item: T): void {
  const list = table.get(key);
  if (list === undefined) table.set(key, [item]);
  else list.push(item);
}

function gather(
  sets: ReturnType<typeof createUnionFind<Node>>,
  steps: ReadonlyMap<Node, readonly Step[]>,
  deviceOf: ReadonlyMap<Node, string>,
  made: readonly ResolvedLink[],
): Pick<Ethernet, 'segments' | 'segmentsOf'> {
  const groups = new Map<Node, { devices: Set<string>; links: Set<ResolvedLink> }>();
  for (const [node, list] of steps) {
    const root = sets.find(node);
    const group = groups.get(root) ?? { devices: new Set(), links: new Set() };
    groups.set(root, group);
    group.devices.add(deviceOf.get(node) ?? node);
    for (const step of list) group.links.add(step.link);
  }
  const order = new Map(made.map((link, index) => [link, index]));
  const drafts = [...groups.values()]
    .map((group) => ({
      devices: [...group.devices].sort(compareText),
      links: [...group.links]
        .sort((x, y) => (order.get(x) ?? 0) - (order.get(y) ?? 0))
        .map((wired) => wired.link),
    }))
    .sort(
      (x, y) =>
        compareText(x.devices[0] ?? '', y.devices[0] ?? '') ||
        compareText(x.links[0]?.origin ?? '', y.links[0]?.origin ?? ''),
    );
  const seen = new Map<string, number>();
  const segments: Segment[] = drafts.map((draft) => {
    const name = draft.devices[0] ?? '';
    const times = (seen.get(name) ?? 0) + 1;
    seen.set(name, times);
    return { id: times === 1 ? name : `${name}#${times}`, ...draft };
  });
  const table = new Map<string, Segment[]>();
  for (const segment of segments) for (const device of segment.devices) add(table, device, segment);
  return { segments, segmentsOf: (device) => table.get(device) ?? [] };
}

/** A tree over each set of nodes, grown from the one that comes first by name. */
function spanningTree(
  steps: ReadonlyMap<Node, readonly Step[]>,
  nodeOf: (device: string, port: Port) => Node,
): ReadonlyMap<Node, Branch> {
  const tree = new Map<Node, Branch>();
  for (const root of [...steps.keys()].sort(compareText)) {
    if (tree.has(root)) continue;
    tree.set(root, { parent: undefined, step: undefined, depth: 0 });
    const queue = [root];
    for (const node of queue) {
      const depth = (tree.get(node)?.depth ?? 0) + 1;
      for (const step of steps.get(node) ?? []) {
        const next = nodeOf(step.to, step.toPort);
        if (tree.has(next)) continue;
        tree.set(next, { parent: node, step, depth });
        queue.push(next);
      }
    }
  }
  return tree;
}

function turned(step: Step): Step {
  return { from: step.to, to: step.from, fromPort: step.toPort, toPort: step.fromPort, link: step.link };
}

/** The way in the tree between two nodes of one set. */
function treePath(tree: ReadonlyMap<Node, Branch>, from: Node, to: Node): readonly Step[] {
  const up: Step[] = [];
  const down: Step[] = [];
  let a: Node = from;
  let b: Node = to;
  while (a !== b) {
    const at = tree.get(a);
    const bt = tree.get(b);
    if (at?.step !== undefined && at.parent !== undefined && at.depth >= (bt?.depth ?? 0)) {
      up.push(turned(at.step));
      a = at.parent;
    } else if (bt?.step !== undefined && bt.parent !== undefined) {
      down.push(bt.step);
      b = bt.parent;
    } else break;
  }
  return [...up, ...down.reverse()];
}

/** The shortest way that avoids what is off, where there is more than one way. */
function detour(
  steps: ReadonlyMap<Node, readonly Step[]>,
  starts: readonly Node[],
  goals: ReadonlySet<Node>,
  off: ReadonlySet<string>,
  nodeOf: (device: string, port: Port) => Node,
): readonly Step[] | undefined {
  const came = new Map<Node, Step | undefined>(starts.map((node) => [node, undefined]));
  const queue = [...starts];
  for (const node of queue) {
    if (goals.has(node)) {
      const way: Step[] = [];
      for (let step = came.get(node); step !== undefined; step = came.get(nodeOf(step.from, step.fromPort)))
        way.push(step);
      return way.reverse();
    }
    for (const step of steps.get(node) ?? []) {
      const next = nodeOf(step.to, step.toPort);
      if (came.has(next) || (off.has(step.to) && !goals.has(next))) continue;
      came.set(next, step);
      queue.push(next);
    }
  }
  return undefined;
}

/** One loop for each segment that has one: the first surplus link with the way around it. */
function findLoops(
  surplus: readonly ResolvedLink[],
  tree: ReadonlyMap<Node, Branch>,
  segmentsOf: (device: string) => readonly Segment[],
  nodeOf: (device: string, port: Port) => Node,
): readonly Loop[] {
  const loops = new Map<Segment, { first: ResolvedLink; extra: number }>();
  for (const wired of surplus) {
    const segment = segmentsOf(wired.a?.device ?? '').find((one) => one.links.includes(wired.link));
    if (segment === undefined) continue;
    const known = loops.get(segment);
    if (known === undefined) loops.set(segment, { first: wired, extra: 1 });
    else known.extra += 1;
  }
  return [...loops].flatMap(([segment, { first, extra }]) => {
    const { a, b } = first;
    if (a === undefined || b === undefined) return [];
    const around = treePath(tree, nodeOf(a.device, a.port), nodeOf(b.device, b.port));
    const devices = [...new Set([a.device, ...around.map((step) => step.to)])];
    return [{ segment: segment.id, devices, links: [...around.map((step) => step.link), first], extra }];
  });
}
