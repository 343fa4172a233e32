/** The network sheet: displays, sonar, radar, cameras, switches, radios, and the cables between them, by zones from bow to stern. */
import type { WiredLink } from '../../checks/analysis.js';
import { createLookup } from '../../vessel/lookup.js';
import type { Device, DeviceClass, End, Medium, Vessel } from '../../vessel/model.js';
import { compareText } from '../../vessel/words.js';
import type { Diagram, DiagramGroup, DiagramWire } from '../diagram/diagram.js';
import type { PortOfDevice } from '../../checks/analysis.js';
import { mediumTitle, strokeOf } from '../style.js';
import { captionOf, lengthOf } from './captions.js';
import { deviceNode, modelLines, type Facts } from './facts.js';
import { inOrder, orderKeys } from './order.js';

/** From the top of a column to its foot. */
const ORDER: readonly DeviceClass[] = [
  'antenna',
  'antennasplitter',
  'radio',
  'transponder',
  'gnss',
  'radar',
  'camera',
  'display',
  'instrument',
  'switch',
  'gateway',
  'sonar',
  'transducer',
];
/** Drawn here even where nothing is plugged in. */
const ALWAYS: ReadonlySet<DeviceClass> = new Set(['display', 'sonar', 'radar', 'camera', 'switch']);
/** Media that have sheets of their own. */
const ELSEWHERE: ReadonlySet<Medium> = new Set(['nmea0183', 'ac', 'dc', 'nmea2000']);

/** Width of a device's box. */
const NODE_WIDTH = 45;

/** What is drawn on the network sheet. */
export function networkDiagram(facts: Facts): Diagram {
  const links = facts.analysis.links.filter(({ medium }) => medium === undefined || !ELSEWHERE.has(medium));
  return linkDiagram(facts, links, (device) => {
    const model = facts.lookup.modelOf(device.name);
    return model !== undefined && ALWAYS.has(model.class);
  });
}

/** Serial lines, drawn the same way on the bus sheet. */
export function serialDiagram(facts: Facts): Diagram {
  return linkDiagram(
    facts,
    facts.analysis.links.filter(({ medium }) => medium === 'nmea0183'),
    () => false,
  );
}

function linkDiagram(
  facts: Facts,
  links: readonly WiredLink[],
  always: (device: Device) => boolean,
): Diagram {
  const { analysis, lookup, marksAt, numbering } = facts;
  const runs = new Map(analysis.cables.map((run) => [run.link.origin, run]));
  const wires: DiagramWire[] = [];
  const linked = new Set<string>();
  const marks = new Map<string, string[]>();
  for (const { link, medium, a, b } of links) {
    const [from, to] = [link.a.device, link.b.device];
    if (from === undefined || to === undefined || from === to) continue;
    if (lookup.device(from) === undefined || lookup.device(to) === undefined) continue;
    linked.add(from).add(to);
    const name = numbering.of(link.origin) ?? '';
    const run = runs.get(link.origin);
    const caption = captionOf(run);
    wires.push({
      id: `link-${wires.length + 1}`,
      origin: link.origin,
      name,
      label: `${name === '' ? 'Link' : `Cable ${name}`}: ${mediumTitle(medium)}${caption === '' ? '' : `, ${caption}`}, from ${sayEnd(link.a, a)} to ${sayEnd(link.b, b)}.`,
      stroke: strokeOf(medium),
      a: { node: from, port: portName(a, link.a), tag: { above: name } },
      b: { node: to, port: portName(b, link.b), tag: { above: name } },
      caption,
      short: lengthOf(run),
      existing: link.existing,
    });
    for (const rule of marksAt(link.origin)) {
      const list = marks.get(from) ?? [];
      list.push(name === '' ? rule : `${name}: ${rule}`);
      marks.set(from, list);
    }
  }
  const shown = analysis.vessel.devices.filter((device) => linked.has(device.name) || always(device));
  const kindOf = (device: Device): string => {
    const model = lookup.modelOf(device.name);
    const rank =
      model === undefined
        ? ORDER.length
        : (ORDER.indexOf(model.class) + ORDER.length + 1) % (ORDER.length + 1);
    return `${String(rank).padStart(2, '0')} ${model?.name ?? ''}`;
  };
  const keys = orderKeys(
    shown.map((device) => ({ id: device.name, kind: kindOf(device) })),
    wires.map(({ a, b }) => ({ a: a.node, b: b.node, aPort: a.port, bPort: b.port })),
  );
  const groups = byZone(analysis.vessel, shown).map(({ id, title, origin, devices }): DiagramGroup => ({
    id,
    title,
    origin,
    nodes: [...devices]
      .sort((x, y) => compareText(keys.get(x.name) ?? '', keys.get(y.name) ?? ''))
      .map((device) =>
        deviceNode(
          facts,
          device,
          [...modelLines(facts, device), ...freeLine(facts, device)],
          [...marksAt(device.origin), ...(marks.get(device.name) ?? [])],
          NODE_WIDTH,
        ),
      ),
  }));
  return { groups, wires: inOrder(wires, groups), nodeWidth: NODE_WIDTH, gap: 10, pack: true };
}

interface ZoneOfDevices {
  readonly id: string;
  readonly title: string;
  readonly origin: string | undefined;
  readonly devices: readonly Device[];
}

/** Devices by their zones, from bow to stern; those without one last. */
export function byZone(vessel: Vessel, devices: readonly Device[]): readonly ZoneOfDevices[] {
  const lookup = createLookup(vessel);
  const zones = vessel.zones.map((zone) => ({
    id: zone.name,
    title: zone.name,
    origin: zone.origin,
    devices: devices.filter((device) => device.zone === zone.name),
  }));
  const lost = devices.filter((device) => lookup.zone(device.zone) === undefined);
  return [...zones, { id: '', title: 'zone not known', origin: undefined, devices: lost }].filter(
    (zone) => zone.devices.length > 0,
  );
}

/** The ports of a switch, a display or a sonar box that are still free, as ranges. */
function freeLine({ analysis, lookup }: Facts, device: Device): readonly string[] {
  if (lookup.modelOf(device.name)?.class !== 'switch') return [];
  const free = analysis.ports.filter(
    (use) => use.device === device.name && use.on.length === 0 && !ELSEWHERE.has(use.port.medium),
  );
  return [free.length === 0 ? 'no port free' : `free: ${free.map((use) => use.port.name).join(', ')}`];
}

/** As settled or as written; empty where neither says. */
function portName(settled: PortOfDevice | undefined, end: End): string {
  return settled?.port.name ?? end.port ?? '';
}

function sayEnd(end: End, settled: PortOfDevice | undefined): string {
  const port = portName(settled, end);
  return `${end.device ?? 'something not declared'}${port === '' ? '' : `, port ${port}`}`;
}
