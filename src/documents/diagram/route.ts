/** Ways for all wires of a page: orthogonal, through no box and no text, one wire at a time, then each once more, then two by two. */
import type { Box, Point } from '../scene/scene.js';
import { GRID, type DiagramWire } from './diagram.js';
import { exchange } from './exchange.js';
import { createField, type Field } from './field.js';
import { TITLE_HEIGHT, type PlacedPage, type Row } from './place.js';
import { createSearch } from './search.js';
import { hold, lay, leadOf, mark, type Job, type Way } from './way.js';

export interface RoutedWire {
  readonly wire: DiagramWire;
  /** From the port at `a` to the port at `b`. */
  readonly points: readonly Point[];
}

export interface RoutedPage {
  /** What it is enlarged by when it is drawn, about the corner of its area. */
  readonly scale: number;
  readonly area: Box;
  readonly page: PlacedPage;
  readonly wires: readonly RoutedWire[];
  /** Wires for which there was no way. */
  readonly lost: readonly string[];
  /** What is taken, for texts that look for room. */
  readonly field: Field;
}

/** Sweeps in which every wire is laid anew among the others. */
const SWEEPS = 2;

/** Pages that were tried before they were taken. */
const tried = new WeakMap<PlacedPage, RoutedPage>();

/** Lay the wires of a page. */
export function routePage(page: PlacedPage, area: Box, scale: number): RoutedPage {
  const known = tried.get(page);
  if (known?.area === area && known.scale === scale) return known;
  const routed = route(page, area, scale);
  tried.set(page, routed);
  return routed;
}

function route(page: PlacedPage, area: Box, scale: number): RoutedPage {
  const field = createField(area);
  const search = createSearch(field);
  const rows = new Map<string, Row>();
  for (const { box, rows: own } of page.nodes) {
    field.close(box);
    for (const row of own) {
      field.close(keptFor(row));
      if (row.reference) field.close(flagOf(row));
      rows.set(`${row.wire.id} ${row.end}`, row);
    }
  }
  for (const { group, box } of page.groups)
    if (group.title !== undefined)
      field.close({ x: box.x, y: box.y, width: box.width, height: TITLE_HEIGHT });
  // The ends of the ways are open; nothing else of what is kept for them.
  for (const row of rows.values()) if (!row.reference) field.closed[field.nodeAt(leadOf(row))] = 0;

  const jobs = page.wires.flatMap((wire, index): readonly Job[] => {
    const a = rows.get(`${wire.id} a`);
    const b = rows.get(`${wire.id} b`);
    if (a === undefined || b === undefined) return [];
    const direct = Math.abs(leadOf(a).x - leadOf(b).x) + Math.abs(leadOf(a).y - leadOf(b).y);
    return [{ wire, index: index + 1, a, b, direct }];
  });
  jobs.sort((x, y) => x.direct - y.direct || x.a.y - y.a.y || x.a.x - y.a.x || x.index - y.index);
  const ways = new Map<Job, Way>();
  /** Wires that no other place would make cheaper. */
  const cheapest = new Set<Job>();
  const laid = (job: Job): void => {
    const way = lay(field, search, job);
    if (way === undefined) ways.delete(job);
    else {
      mark(field, way, job.index);
      ways.set(job, way);
      if (search.best()) cheapest.add(job);
      else cheapest.delete(job);
    }
  };
  // The leads of wires that are not yet laid belong to them.
  for (const job of jobs) hold(field, job, 1);
  for (const job of jobs) {
    hold(field, job, 0);
    laid(job);
    if (!ways.has(job)) hold(field, job, 1);
  }
  const takenOut = (job: Job): Way | undefined => {
    const old = ways.get(job);
    if (old === undefined) hold(field, job, 0);
    else mark(field, old, 0);
    ways.delete(job);
    return old;
  };
  const putBack = (job: Job, old: Way | undefined): void => {
    const now = ways.get(job);
    if (now !== undefined) mark(field, now, 0);
    ways.delete(job);
    if (old === undefined) hold(field, job, 1);
    else {
      mark(field, old, job.index);
      ways.set(job, old);
    }
  };
  /** Lay a wire before those that bend in front of its ends; as it was, where one of them then has no way. */
  const laidFirst = (job: Job): void => {
    const others = jobs.filter(
      (other) => other !== job && ways.has(other) && inFront(field, job).has(other.index),
    );
    const before = [job, ...others].map((one) => [one, takenOut(one)] as const);
    for (const [one] of before) laid(one);
    // Marks of those that failed are taken out before any is put back.
    if (before.every(([one]) => ways.has(one))) return;
    for (const [one] of before) {
      const now = ways.get(one);
      if (now !== undefined) mark(field, now, 0);
      ways.delete(one);
    }
    for (const [one, old] of before) putBack(one, old);
  };
  // A wire among others that all lie as they lay when it was last laid would be laid the same.
  let changes = 0;
  const settledAt = new Map<Job, number>();
  for (let sweep = 0; sweep < SWEEPS; sweep += 1) {
    for (const job of jobs) {
      if (settledAt.get(job) === changes || cheapest.has(job)) continue;
      const old = takenOut(job);
      laid(job);
      if (!ways.has(job)) putBack(job, old);
      if (!ways.has(job)) laidFirst(job);
      if (!sameWay(old, ways.get(job))) changes += 1;
      settledAt.set(job, changes);
    }
  }
  exchange(field, search, jobs, ways);
  const wires = [...ways].map(([job, way]) => ({
    wire: job.wire,
    points: straightened([portOf(job.a), ...way.map(field.pointAt), portOf(job.b)]),
  }));
  wires.sort((x, y) => page.wires.indexOf(x.wire) - page.wires.indexOf(y.wire));
  return {
    scale,
    area,
    page,
    wires,
    lost: jobs.filter((job) => !ways.has(job)).map((job) => job.wire.id),
    field,
  };
}

const portOf = ({ x, y }: Row): Point => ({ x, y });

/** The stretch beside a port, with the texts on it. */
function keptFor(row: Row): Box {
  const width = row.reach;
  const below = row.wire[row.end].tag.below !== undefined;
  return {
    x: row.side === 'left' ? row.x - width : row.x,
    y: row.y - GRID,
    width,
    height: below ? 2 * GRID : GRID,
  };
}

/** Where the flag of a reference stands. */
function flagOf(row: Row): Box {
  const lead = leadOf(row).x;
  const width = row.flag;
  return { x: row.side === 'left' ? lead - width : lead, y: row.y - GRID, width, height: 2 * GRID };
}

function sameWay(one: Way | undefined, other: Way | undefined): boolean {
  return one?.length === other?.length && (one ?? []).every((node, index) => node === other?.[index]);
}

/** Wires that run close in front of the ends of another. */
function inFront(field: Field, { a, b }: Job): ReadonlySet<number> {
  const found = new Set<number>();
  for (const row of [a, b]) {
    const lead = leadOf(row);
    const way = row.side === 'left' ? -GRID : GRID;
    for (let step = 1; step <= 3; step += 1)
      for (const aside of [-GRID, 0, GRID]) {
        const node = field.nodeAt({ x: lead.x + step * way, y: lead.y + aside });
        found.add(field.across[node] ?? 0).add(field.down[node] ?? 0);
      }
  }
  return found;
}

/** Without the points in the middle of straight stretches. */
function straightened(points: readonly Point[]): readonly Point[] {
  return points.filter((point, index) => {
    const before = points[index - 1];
    const after = points[index + 1];
    if (before === undefined || after === undefined) return true;
    if (before.x === point.x && before.y === point.y) return false;
    return !((before.x === point.x && point.x === after.x) || (before.y === point.y && point.y === after.y));
  });
}
