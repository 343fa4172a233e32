/** What is wrong with the ways of conductors: wires, runs, backbones, drops, and the stubs of references. */
import type { Point } from '../../../src/documents/scene/scene.js';
import type { Conductor, Parts } from './parts.js';
import {
  around,
  crossingOf,
  distance,
  meeting,
  onEdge,
  overlap,
  samePoint,
  within,
  type Stretch,
} from './shapes.js';

/** A dot joins what it touches. */
const JOINED = 0.01;
/** A line on the edge of a box is not yet in it. */
const EDGE = 0.3;

export interface Ways {
  readonly faults: readonly string[];
  /** Crossings of conductors that are not joined there. */
  readonly crossings: number;
}

export function wireFaults(parts: Parts): Ways {
  const { conductors } = parts;
  const faults: string[] = [];
  let crossings = 0;
  conductors.forEach((one, index) => {
    faults.push(...angleFaults(one), ...throughFaults(one, parts), ...endFaults(one, parts));
    for (const other of conductors.slice(index + 1)) {
      const met = meetings(one, other, parts);
      faults.push(...met.faults);
      if (!one.isTrunk && !other.isTrunk) crossings += met.crossings;
    }
  });
  faults.push(...portFaults(parts), ...jointFaults(parts));
  return { faults, crossings };
}

/** At right angles all along, and never over itself. */
function angleFaults({ group, stretches }: Conductor): readonly string[] {
  const slanted = stretches.some(
    ({ from, to }) => Math.abs(from.x - to.x) > 1e-6 && Math.abs(from.y - to.y) > 1e-6,
  );
  if (slanted) return [`${group.name} is not at right angles`];
  const over = stretches.some((one, index) =>
    stretches.slice(index + 1).some((other, after) => {
      const met = meeting(one, other);
      // What follows at once begins where this ends; it may only turn.
      return after === 0 ? met === 'run on one line' && turnsBack(one, other) : met !== undefined;
    }),
  );
  return over ? [`${group.name} runs over itself`] : [];
}

const turnsBack = (one: Stretch, other: Stretch): boolean =>
  (one.to.x - one.from.x) * (other.to.x - other.from.x) +
    (one.to.y - one.from.y) * (other.to.y - other.from.y) <
  0;

function throughFaults({ group, net, stretches, half }: Conductor, parts: Parts): readonly string[] {
  const faults = new Set<string>();
  for (const { from, to } of stretches) {
    const body = around([from, to], half);
    const line = around([from, to]);
    for (const { group: device, box } of parts.devices) {
      const inner = {
        left: box.left + EDGE,
        right: box.right - EDGE,
        top: box.top + EDGE,
        bottom: box.bottom - EDGE,
      };
      if (overlap(line, inner, 0)) faults.add(`${group.name} goes through the box ${device.name}`);
    }
    for (const block of parts.blocks)
      if (overlap(body, block.box)) faults.add(`${group.name} goes through the ${block.group.name}`);
    for (const sign of parts.signs)
      if (sign.group !== group && sign.net !== net && overlap(body, sign.body))
        faults.add(`${group.name} goes through a sign of ${sign.group.name}`);
  }
  return [...faults];
}

function endFaults(one: Conductor, parts: Parts): readonly string[] {
  const { group, points, flag, isTrunk } = one;
  const [first] = points;
  const last = points.at(-1);
  if (first === undefined || last === undefined) return [`${group.name} has no line`];
  if (isTrunk)
    return [first, last].some((end) => !endsOnItsNet(one, end, parts))
      ? [`${group.name} ends in the air`]
      : [];
  const boxAt = (end: Point): string | undefined =>
    parts.devices.find(({ ports }) => ports.some((port) => samePoint(port, end)))?.group.name;
  if (flag !== undefined) {
    return [
      ...(boxAt(first) === undefined ? [`${group.name} does not end on a port`] : []),
      ...(flag.some((edge) => distance(last, edge) < JOINED)
        ? []
        : [`${group.name} does not end on its flag`]),
      ...(group.leadsTo === undefined ? [`${group.name} has a flag that leads nowhere`] : []),
    ];
  }
  const [from, to] = [boxAt(first), boxAt(last)];
  if (from === undefined || to === undefined) return [`${group.name} does not end on a port`];
  return [
    ...(from === to ? [`${group.name} ends where it begins, on the box ${from}`] : []),
    ...[from, to]
      .filter((name) => !group.label.includes(name))
      .map((name) => `${group.name} ends on the box ${name}, of which its label says nothing`),
  ];
}

/** A backbone or a drop ends on a box, at a sign or a dot of its net, or on another piece of it. */
function endsOnItsNet(one: Conductor, end: Point, { devices, signs, dots, conductors }: Parts): boolean {
  return (
    devices.some(({ box }) => onEdge(end, box)) ||
    signs.some(({ net, body }) => net === one.net && within(around([end]), body, JOINED)) ||
    dots.some(({ net, item }) => net === one.net && samePoint(item, end)) ||
    conductors.some(
      (other) =>
        other !== one &&
        other.net === one.net &&
        other.stretches.some((stretch) => distance(end, stretch) < JOINED),
    )
  );
}

function meetings(
  one: Conductor,
  other: Conductor,
  { dots }: Parts,
): { readonly faults: readonly string[]; readonly crossings: number } {
  const faults = new Set<string>();
  let crossings = 0;
  const names = `${one.group.name} and ${other.group.name}`;
  for (const a of one.stretches) {
    for (const b of other.stretches) {
      const met = meeting(a, b);
      if (met === undefined) continue;
      if (met === 'run on one line') {
        faults.add(`${names} run on one line`);
        continue;
      }
      const at = crossingOf(a, b);
      const dotted = dots.some(({ item }) => Math.hypot(item.x - at.x, item.y - at.y) < item.radius + JOINED);
      if (met === 'cross') crossings += 1;
      if (met === 'cross' && dotted) faults.add(`${names} cross on a dot`);
      if (met === 'touch' && one.net !== other.net) faults.add(`${names} touch`);
      if (met === 'touch' && one.net === other.net && !dotted) faults.add(`${names} meet without a dot`);
    }
  }
  return { faults: [...faults], crossings };
}

/** A wire ends on each port; two that ended on one would touch. */
function portFaults({ devices, conductors }: Parts): readonly string[] {
  const ends = conductors
    .filter(({ isTrunk }) => !isTrunk)
    .flatMap(({ points }) => [...points.slice(0, 1), ...points.slice(-1)]);
  return devices.flatMap(({ group, ports }) =>
    ports
      .filter((port) => !ends.some((end) => samePoint(end, port)))
      .map(() => `a port of ${group.name} has no wire`),
  );
}

/** No more than three ways meet on a dot: four would be taken for a crossing. */
function jointFaults({ dots, conductors }: Parts): readonly string[] {
  return dots.flatMap(({ group, net, item }) => {
    const ways = conductors
      .filter((one) => one.net === net)
      .flatMap(({ stretches }) => stretches)
      .filter((stretch) => distance(item, stretch) < JOINED)
      .reduce((sum, { from, to }) => sum + (samePoint(item, from) || samePoint(item, to) ? 1 : 2), 0);
    return ways > 3 ? [`${ways} ways meet on a dot of ${group.name}`] : [];
  });
}
