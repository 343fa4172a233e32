/**
 * The power sheet: a one-line diagram from the batteries to what draws. A wire stands for both conductors; L- is not drawn. Columns
 * follow the current: banks with what charges them, switches and panels, loads.
 */
import type { Device, DeviceClass, Draw, Port } from '../../vessel/model.js';
import { compareText, number } from '../../vessel/words.js';
import type { SizedDevice } from '../../checks/power/sizing/sizing.js';
import type { Leg, SupplyEdge } from '../../checks/power/supply/graph.js';
import type { Diagram, DiagramGroup, DiagramNode, DiagramWire, Tag } from '../diagram/diagram.js';
import { byNumber } from '../diagram/place.js';
import { brokenLines, widthOf } from '../text/measure.js';
import { strokeOf } from '../style.js';
import { captionOf, shown, sizeShown } from './captions.js';
import { deviceNode, type Facts } from './facts.js';
import { inOrder, orderKeys } from './order.js';

const NODE_WIDTH = 40;
/** What gives current of its own and is no battery. */
const SOURCES: ReadonlySet<DeviceClass> = new Set(['engine', 'charger', 'solar']);
/** What has figures of its own under its name, and its ports in rows. */
const DISTRIBUTION: ReadonlySet<DeviceClass> = new Set([
  'battery',
  'panel',
  'busbar',
  'batteryswitch',
  'combiner',
  'chargesplitter',
  'shunt',
  'converter',
]);

interface Join {
  readonly wire: DiagramWire;
  /** Current, as it is meant to flow; alternating current decides no column. */
  readonly dc: boolean;
}

/** What is drawn on the power sheet. */
export function powerDiagram(facts: Facts): Diagram {
  const { analysis, marksAt } = facts;
  const marks = new Map<string, string[]>();
  const joins = [...analysis.supply.edges.flatMap((edge) => edgeWires(facts, edge)), ...mainsWires(facts)];
  const wires = joins.map(({ wire }) => wire);
  for (const { wire } of joins) {
    for (const rule of marksAt(wire.origin)) {
      const list = marks.get(wire.b.node) ?? [];
      const mark = wire.name === '' ? rule : `${wire.name}: ${rule}`;
      if (!list.includes(mark)) list.push(mark);
      marks.set(wire.b.node, list);
    }
  }
  const onIt = new Map<string, number>();
  for (const wire of wires)
    for (const end of [wire.a, wire.b]) onIt.set(end.node, (onIt.get(end.node) ?? 0) + 1);
  const nodes = new Map<string, DiagramNode>();
  for (const device of analysis.vessel.devices) {
    if (!onIt.has(device.name)) continue;
    const own = [...marksAt(device.origin), ...(marks.get(device.name) ?? [])];
    nodes.set(device.name, {
      ...deviceNode(facts, device, powerLines(facts, device), own, NODE_WIDTH),
      compact: onIt.get(device.name) === 1 && !isDistribution(facts, device.name),
    });
  }
  for (const { bus } of analysis.buses) {
    const id = busNode(bus.name);
    if (!onIt.has(id)) continue;
    nodes.set(id, {
      id,
      origin: bus.backbone.origin,
      name: bus.name,
      lines: brokenLines(['NMEA 2000 backbone', `${number(bus.loadUnits, 1)} load units`], NODE_WIDTH - 3, 8),
      marks: marks.get(id) ?? [],
      existing: false,
      symbol: 'teebox',
      label: `Backbone ${bus.name}, ${number(bus.loadUnits, 1)} load units of 50 mA.`,
      compact: onIt.get(id) === 1,
    });
  }
  const shown = joins.filter(({ wire }) => nodes.has(wire.a.node) && nodes.has(wire.b.node));
  const columns = columnsOf(facts, [...nodes.keys()], shown);
  const ordered = boxesInOrder(facts, [...nodes.keys()], columns, shown);
  const last = Math.max(0, ...columns.values());
  const groups = Array.from({ length: last + 1 }, (_, column): DiagramGroup => ({
    id: `column-${column + 1}`,
    origin: undefined,
    title: undefined,
    nodes: ordered.filter((id) => columns.get(id) === column).flatMap((id) => nodes.get(id) ?? []),
  }));
  const drawn = inOrder(
    shown.map(({ wire }) => wire),
    groups,
  );
  return { groups, wires: drawn, nodeWidth: NODE_WIDTH, gap: 5, pack: false };
}

const NOT_KNOWN = '? V';

const busNode = (name: string): string => `backbone ${name}`;

function isDistribution({ lookup }: Facts, device: string): boolean {
  const model = lookup.modelOf(device);
  return model !== undefined && DISTRIBUTION.has(model.class);
}

/** A conductor as wires, one for each of its legs. */
function edgeWires(facts: Facts, edge: SupplyEdge): readonly Join[] {
  const { analysis, numbering } = facts;
  const from = placeOf(facts, edge.from);
  if (from === undefined) return [];
  const sized = analysis.sizing.of(edge);
  const name = numbering.of(edge.origin) ?? '';
  const size = sizeShown(facts, edge);
  return edge.legs.flatMap((leg): readonly Join[] => {
    const to = placeOf(facts, leg.to);
    if (to === undefined || to.node === from.node) return [];
    const length = leg.lengthMetres === undefined ? '? m' : `${number(leg.lengthMetres, 1)} m`;
    const drop = dropText(facts, edge, leg);
    const what = `${size} ${length}`;
    const atStart = protectionTag(sized.protection, 'from');
    const atEnd = protectionTag(sized.protection, leg.index);
    const protection = sized.protection.map(protectionText).join(', ');
    return [
      {
        dc: true,
        wire: {
          id: `feed-${String(analysis.supply.edges.indexOf(edge) + 1)}${edge.legs.length > 1 ? `-${leg.index + 1}` : ''}`,
          origin: edge.origin,
          name,
          label: `Conductor ${name} from ${edge.fromText} to ${leg.text}: ${what}${protection === '' ? '' : `, ${protection}`}, drop ${drop}${edge.conductor.cranking ? ' while cranking' : ''}.`,
          stroke: strokeOf('dc'),
          // Where the fuse is at the far end, size and drop are written at the near one.
          a: {
            ...from,
            tag:
              atEnd === undefined
                ? { above: name, device: atStart }
                : { above: `${name}  ${what}`, below: drop, device: atStart },
          },
          b: {
            ...to,
            tag: atEnd === undefined ? { above: what, below: drop } : { above: '', device: atEnd },
          },
          caption: '',
          existing: edge.feed?.existing === true,
        },
      },
    ];
  });
}

/** Cables of alternating current: drawn, not reckoned. */
function mainsWires(facts: Facts): readonly Join[] {
  const { analysis, lookup, numbering } = facts;
  const runs = new Map(analysis.cables.map((run) => [run.link.origin, run]));
  return analysis.links.flatMap(({ link, medium, a, b }, index): readonly Join[] => {
    const [from, to] = [link.a.device, link.b.device];
    if (medium !== 'ac' || from === undefined || to === undefined || from === to) return [];
    if (lookup.device(from) === undefined || lookup.device(to) === undefined) return [];
    const name = numbering.of(link.origin) ?? '';
    const caption = captionOf(runs.get(link.origin));
    return [
      {
        dc: false,
        wire: {
          id: `mains-${index + 1}`,
          origin: link.origin,
          name,
          label: `Cable ${name}: alternating current, ${caption}, from ${from} to ${to}.`,
          stroke: strokeOf('ac'),
          a: { node: from, port: a?.port.name ?? '', tag: { above: name } },
          b: { node: to, port: b?.port.name ?? '', tag: { above: caption } },
          caption: '',
          existing: link.existing,
        },
      },
    ];
  });
}

/** The box and the port of a terminal. */
function placeOf(
  { analysis }: Facts,
  terminal: string | undefined,
): { readonly node: string; readonly port: string } | undefined {
  const found = terminal === undefined ? undefined : analysis.supply.terminals.get(terminal);
  if (found === undefined) return undefined;
  return found.kind === 'port'
    ? { node: found.device, port: found.port.name }
    : { node: busNode(found.backbone.name), port: '' };
}

function protectionText({ device, computed }: SizedDevice): string {
  const type =
    device.type === undefined || device.type.name === 'blade' ? '' : ` ${device.type.name.toUpperCase()}`;
  return device.amps === undefined ? '? A' : shown(`${number(device.amps, 1)} A${type}`, computed);
}

function protectionTag(protection: readonly SizedDevice[], end: 'from' | number): Tag['device'] {
  // One that does not say where it sits is drawn where the conductor begins.
  const here = protection.filter(({ device }) => (device.end ?? 'from') === end);
  const [first] = here;
  if (first === undefined) return undefined;
  return { kind: first.device.protection.device, text: here.map(protectionText).join(', ') };
}

/** Volts lost on a leg alone, and what share of the system's voltage that is: as the analysis has it, or while a starter cranks. */
function dropText({ analysis }: Facts, edge: SupplyEdge, leg: Leg): string {
  const { sizing, supply } = analysis;
  if (edge.conductor.cranking) {
    const ohms = sizing.legOhms(edge, leg.index);
    const { missing, crankingAmps } = sizing.flowOf(edge, leg.index);
    const nominal = leg.to === undefined ? undefined : supply.systemOf(leg.to)?.nominalVolts;
    return ohms === undefined || missing !== undefined ? NOT_KNOWN : voltsText(ohms * crankingAmps, nominal);
  }
  const { ownVolts, nominalVolts } = sizing.dropOf(edge, leg.index);
  return ownVolts === undefined ? NOT_KNOWN : voltsText(ownVolts, nominalVolts);
}

function voltsText(volts: number, nominal: number | undefined): string {
  return `${number(volts, 2)} V${nominal === undefined ? '' : `, ${number((volts / nominal) * 100, 1)} %`}`;
}

/** What a device is on this sheet: its place, and what it gives, holds or draws. */
function powerLines(facts: Facts, device: Device): readonly string[] {
  const { analysis, lookup } = facts;
  const model = lookup.modelOf(device.name);
  const zone = device.zone ?? 'zone not known';
  if (model === undefined) return [device.models[0] ?? 'model not known', zone];
  const bank = analysis.supply.banks.find((one) => one.device === device.name);
  const title = model.title ?? model.name;
  if (bank !== undefined) {
    const figures = [
      bank.nominalVolts === undefined ? '? V' : `${number(bank.nominalVolts)} V`,
      bank.ampHours === undefined ? '? Ah' : `${number(bank.ampHours)} Ah`,
      bank.series * bank.parallel > 1 ? `${bank.series}s${bank.parallel}p` : '',
    ];
    return [title, figures.filter((text) => text !== '').join('  '), zone];
  }
  if (DISTRIBUTION.has(model.class)) {
    const carries = model.carriesAmps === undefined ? [] : [`${number(model.carriesAmps)} A`];
    const normally = device.normally === undefined ? [] : [`normally ${device.normally}`];
    const free = model.class === 'panel' ? freeWays(facts, device.name) : [];
    return [title, [...carries, ...normally].join('  '), zone, ...free].filter((text) => text !== '');
  }
  const draws = model.ports.flatMap((port) => drawText(port)).slice(0, 1);
  const line = [...draws, zone].join('  ');
  return widthOf(line) > NODE_WIDTH - 3 ? [title, ...draws, zone] : [title, line];
}

function freeWays({ analysis }: Facts, device: string): readonly string[] {
  const free = analysis.ports.filter(
    (use) => use.device === device && use.on.length === 0 && use.port.dc?.direction === 'out',
  );
  return free.length === 0 ? ['no way free'] : [`free: ${free.map((use) => use.port.name).join(', ')}`];
}

function drawText({ dc }: Port): readonly string[] {
  const text = (draw: Draw): string => `${number(draw.amount, 2)} ${draw.unit}`;
  if (dc?.draws === undefined) return dc?.max === undefined ? [] : [`max ${text(dc.max)}`];
  return [dc.max === undefined ? text(dc.draws) : `${text(dc.draws)}, max ${text(dc.max)}`];
}

/** Columns by the way of the current: banks and what charges them, then each thing one after what first feeds it. */
function columnsOf(
  facts: Facts,
  ids: readonly string[],
  joins: readonly Join[],
): ReadonlyMap<string, number> {
  const classOf = (id: string): DeviceClass | undefined => facts.lookup.modelOf(id)?.class;
  const columns = new Map<string, number>();
  let queue = ids.filter((id) => classOf(id) === 'battery');
  for (const id of queue) columns.set(id, 1);
  for (const id of ids) {
    const kind = classOf(id);
    if (kind !== undefined && SOURCES.has(kind)) columns.set(id, 1);
  }
  const after = new Map<string, string[]>();
  for (const { wire, dc } of joins) {
    if (!dc) continue;
    const list = after.get(wire.a.node);
    if (list === undefined) after.set(wire.a.node, [wire.b.node]);
    else list.push(wire.b.node);
  }
  const spread = (): void => {
    while (queue.length > 0) {
      const next: string[] = [];
      for (const id of queue) {
        for (const to of after.get(id) ?? []) {
          if (columns.has(to)) continue;
          columns.set(to, (columns.get(id) ?? 1) + 1);
          next.push(to);
        }
      }
      queue = next;
    }
  };
  spread();
  // What no battery feeds begins with what nothing feeds: a switch stands where it would if it were fed.
  const fed = new Set(joins.flatMap(({ wire, dc }) => (dc ? [wire.b.node] : [])));
  queue = ids.filter((id) => !columns.has(id) && !fed.has(id));
  for (const id of queue) columns.set(id, isDistribution(facts, id) ? 2 : 1);
  queue.push(...ids.filter((id) => columns.get(id) === 1));
  spread();
  for (const id of ids) if (!columns.has(id)) columns.set(id, 1);
  const used = [...new Set(columns.values())].sort((x, y) => x - y);
  return new Map([...columns].map(([id, column]) => [id, used.indexOf(column)]));
}

/** From the top: beneath what feeds it, by the number of its port there. */
function boxesInOrder(
  { lookup }: Facts,
  ids: readonly string[],
  columns: ReadonlyMap<string, number>,
  joins: readonly Join[],
): readonly string[] {
  const keys = orderKeys(
    ids.map((id) => ({
      id,
      kind: `${lookup.modelOf(id)?.class === 'battery' ? '0' : '1'} ${lookup.modelOf(id)?.class ?? 'backbone'} ${lookup.modelOf(id)?.name ?? ''}`,
    })),
    joins.map(({ wire }) => ({ a: wire.a.node, b: wire.b.node, aPort: wire.a.port, bPort: wire.b.port })),
  );
  const sorted = [...ids].sort((x, y) => compareText(keys.get(x) ?? '', keys.get(y) ?? ''));
  const last = Math.max(0, ...columns.values());
  const places = new Map<string, number>();
  const order: string[] = [];
  for (let column = 0; column <= last; column += 1) {
    const own = sorted.filter((id) => columns.get(id) === column);
    const rank = new Map(own.map((id, index) => [id, index]));
    const feeder = new Map<string, { readonly place: number; readonly port: string }>();
    for (const { wire } of joins) {
      const place = places.get(wire.a.node);
      const before = feeder.get(wire.b.node);
      if (columns.get(wire.b.node) !== column || place === undefined) continue;
      if (
        before === undefined ||
        place < before.place ||
        (place === before.place && byNumber(wire.a.port, before.port) < 0)
      )
        feeder.set(wire.b.node, { place, port: wire.a.port });
    }
    own.sort((x, y) => {
      const [one, two] = [feeder.get(x), feeder.get(y)];
      const place = (one?.place ?? Infinity) - (two?.place ?? Infinity);
      return (
        (Number.isNaN(place) ? 0 : place) ||
        byNumber(one?.port ?? '', two?.port ?? '') ||
        (rank.get(x) ?? 0) - (rank.get(y) ?? 0)
      );
    });
    own.forEach((id, index) => places.set(id, index));
    order.push(...own);
  }
  return order;
}
