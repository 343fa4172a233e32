/** The plan sheet: zones from bow to stern with what is in them, the runs between them, and how full each conduit is. */
import type { Passage } from '../../checks/cables/passages.js';
import type { Device, Run, Vessel, Zone } from '../../vessel/model.js';
import { compareText, number } from '../../vessel/words.js';
import { diagramLegend } from '../diagram/legend.js';
import type { PlacedPage } from '../diagram/place.js';
import type { RoutedPage } from '../diagram/route.js';
import type { Diagram, DiagramGroup, DiagramNode, DiagramWire } from '../diagram/diagram.js';
import type { Paper } from '../frame/paper.js';
import type { LegendEntry } from '../frame/legend.js';
import { GREY, lineItem, textItem } from '../scene/make.js';
import type { GroupItem, Point, Stroke } from '../scene/scene.js';
import { ZONE_EDGE, ZONE_FILL } from '../style.js';
import { brokenLines, wrapped } from '../text/measure.js';
import { modelLines, type Facts } from './facts.js';

/** Width of a zone that lists its devices, and of one that says what each is. */
const WIDTHS = { listed: 40, described: 50 } as const;
/** Zones whose places differ by less stand over one another. */
const SAME_PLACE = 1.25;
const MOST_LINES = 14;
/** A zone with more devices lists them. */
const MOST_DESCRIBED = 12;

const CONDUIT: Stroke = { colour: '#4a4a4a', width: 1.4 };
const LOOM: Stroke = { colour: '#4a4a4a', width: 0.7, dash: [6, 1.5] };
const OPEN: Stroke = { colour: '#4a4a4a', width: 0.5 };

/** How a zone says what is in it: by names alone, or with a line for each device that says what it is. */
export type Contents = keyof typeof WIDTHS;

/** Zones as boxes and runs as the ways between them. */
export function planDiagram(facts: Facts, contents: Contents = 'listed'): Diagram {
  const { vessel } = facts.analysis;
  const known = new Set(vessel.zones.map((zone) => zone.name));
  const wires = fromTheBow(vessel).flatMap((run, index): readonly DiagramWire[] => {
    if (!known.has(run.from) || !known.has(run.to) || run.from === run.to) return [];
    const length = run.lengthMetres === undefined ? '? m' : `${number(run.lengthMetres, 2)} m`;
    const fill = fillText(facts, run);
    return [
      {
        id: `run-${index + 1}`,
        origin: run.origin,
        name: run.name ?? '',
        label: `Run ${sayRun(run)}: ${length}${run.conduit ? `, conduit ${fill}` : run.loom ? ', in a loom' : ''}.`,
        stroke: run.conduit ? CONDUIT : run.loom ? LOOM : OPEN,
        a: {
          node: run.from,
          port: '',
          tag: { above: [run.name ?? '', length].filter((text) => text !== '').join('  ') },
        },
        b: { node: run.to, port: '', tag: { above: fill } },
        caption: '',
        existing: false,
      },
    ];
  });
  const nodes = vessel.zones.map((zone) => zoneNode(facts, zone, contents));
  const groups = columnsOf(vessel.zones, nodes);
  return { groups, wires, nodeWidth: WIDTHS[contents], gap: 10, pack: false, inOrder: true };
}

/** Whether zones stand from left to right as they lie from bow to stern. */
export function isInPlace({ nodes }: PlacedPage, { groups }: Diagram): boolean {
  const xs = groups.map(
    ({ id }) => new Set(nodes.filter(({ group }) => group === id).map(({ box }) => box.x)),
  );
  const places = xs.map((set) => [...set][0] ?? NaN);
  return (
    xs.every(({ size }) => size <= 1) &&
    places.every((x, index) => index === 0 || !(x <= (places[index - 1] ?? -Infinity)))
  );
}

const sayRun = (run: Run): string =>
  `${run.name === undefined ? '' : `${run.name} `}from ${run.from} to ${run.to}`;

/** From bow to stern; those at about one place over one another, the higher first. */
function columnsOf(zones: readonly Zone[], nodes: readonly DiagramNode[]): readonly DiagramGroup[] {
  const columns: { readonly zones: Zone[]; readonly at: number | undefined }[] = [];
  for (const zone of zones) {
    const last = columns.at(-1);
    const near =
      last?.at !== undefined &&
      zone.aftMetres !== undefined &&
      Math.abs(zone.aftMetres - last.at) < SAME_PLACE;
    if (near) last.zones.push(zone);
    else columns.push({ zones: [zone], at: zone.aftMetres });
  }
  return columns.map((column, index) => ({
    id: `column-${index + 1}`,
    origin: undefined,
    title: undefined,
    nodes: [...column.zones]
      .sort(
        (x, y) => rowOf(x) - rowOf(y) || levelOf(y) - levelOf(x) || compareText(x.side ?? '', y.side ?? ''),
      )
      .flatMap((zone) => nodes.find((node) => node.id === zone.name) ?? []),
  }));
}

const DECKS: Readonly<Record<string, number>> = { upper: 3, flybridge: 3, main: 1, lower: -1 };

/** Metres up, or what a deck's name says of it. */
function levelOf({ heightMetres, deck }: Zone): number {
  return heightMetres ?? (deck === undefined ? 0 : (DECKS[deck] ?? 0));
}

/** Up on the mast or the roof, on deck, and below; as the deck of a zone says, its height, or else what it is exposed to. */
const ROWS = { above: 0, deck: 1, below: 2 } as const;
const DECK_ROWS: Readonly<Record<string, number>> = {
  upper: ROWS.above,
  flybridge: ROWS.above,
  main: ROWS.deck,
  lower: ROWS.below,
};
const EXPOSURE_ROWS: Readonly<Record<string, number>> = {
  aloft: ROWS.above,
  exposed: ROWS.deck,
  sheltered: ROWS.deck,
  interior: ROWS.below,
  machinery: ROWS.below,
};
/** So many metres up is above the deck of any boat that this is for. */
const ABOVE_DECK = 2.5;

function rowOf({ deck, heightMetres, exposure }: Zone): number {
  if (deck !== undefined && DECK_ROWS[deck] !== undefined) return DECK_ROWS[deck];
  if (heightMetres !== undefined && heightMetres >= ABOVE_DECK) return ROWS.above;
  if (exposure === undefined) return ROWS.deck;
  return EXPOSURE_ROWS[exposure.name] ?? (exposure.wet && !exposure.hot ? ROWS.deck : ROWS.below);
}

/** By what they are, so that a box is as high whatever they are called and in whatever order they are declared. */
function sorted({ lookup }: Facts, devices: readonly Device[]): readonly Device[] {
  const key = ({ name }: Device): string => {
    const model = lookup.modelOf(name);
    return `${model?.class ?? ''}\n${model?.name ?? ''}\n${name}`;
  };
  return [...devices].sort((x, y) => compareText(key(x), key(y)));
}

function zoneNode(facts: Facts, zone: Zone, contents: Contents): DiagramNode {
  const { vessel } = facts.analysis;
  const here = vessel.devices.filter((device) => device.zone === zone.name);
  const behind = vessel.devices.filter((device) => device.back === zone.name && device.zone !== zone.name);
  const place = [
    zone.exposure?.name ?? 'exposure not known',
    zone.aftMetres === undefined ? '' : `${number(zone.aftMetres, 1)} m aft`,
    zone.heightMetres === undefined ? '' : `${number(zone.heightMetres, 1)} m up`,
  ];
  const room = WIDTHS[contents] - 3;
  const within = sorted(facts, here);
  const names = within.map(({ name }) => name);
  const plugs = sorted(facts, behind).map(({ name }) => name);
  const said = place.filter((text) => text !== '').join(', ');
  return {
    id: zone.name,
    origin: zone.origin,
    name: zone.name,
    lines: [
      ...brokenLines([said], room, 0),
      ...(names.length === 0
        ? ['no device']
        : contents === 'listed' || names.length > MOST_DESCRIBED
          ? listed('', names, room, MOST_LINES)
          : brokenLines(described(facts, within), room, 0)),
      ...(plugs.length === 0 ? [] : listed('plugs of ', plugs, room, 4)),
    ],
    marks: [...facts.marksAt(zone.origin), ...runMarks(facts, zone)],
    compact: true,
    row: rowOf(zone),
    existing: false,
    symbol: undefined,
    label: `Zone ${zone.name}: ${said}. Devices: ${names.length === 0 ? 'none' : names.join(', ')}.`,
  };
}

/** Runs in the order of the zones that they begin and end in; of two between the same zones the longer first. */
export function fromTheBow({ zones, runs }: Pick<Vessel, 'zones' | 'runs'>): readonly Run[] {
  const at = new Map(zones.map(({ name }, index) => [name, index]));
  const ends = (run: Run): readonly [number, number] => {
    const [from, to] = [run.from, run.to].map((zone) => at.get(zone) ?? zones.length);
    return [Math.min(from ?? 0, to ?? 0), Math.max(from ?? 0, to ?? 0)];
  };
  return [...runs].sort((x, y) => {
    const [one, two] = [ends(x), ends(y)];
    return one[0] - two[0] || one[1] - two[1] || (y.lengthMetres ?? 0) - (x.lengthMetres ?? 0);
  });
}

/** `• plotter, 13-inch display` */
const described = (facts: Facts, devices: readonly Device[]): readonly string[] =>
  devices.map(
    (device) =>
      `• ${[device.name, modelLines(facts, device)[0] ?? ''].filter((text) => text !== '').join(', ')}`,
  );

/** Names in lines; where they are more than go in, how many more there are. */
function listed(before: string, names: readonly string[], room: number, most: number): readonly string[] {
  for (let count = names.length; ; count -= 1) {
    const more = count === names.length ? [] : [`${names.length - count} more`];
    const lines = wrapped(`${before}${[...names.slice(0, count), ...more].join(', ')}`, room, most);
    if (count <= 1 || !(lines.at(-1)?.endsWith('…') ?? false)) return lines;
  }
}

/** Findings at the runs that end in a zone, by the names of the runs. */
function runMarks({ analysis, marksAt }: Facts, zone: Zone): readonly string[] {
  return analysis.vessel.runs
    .filter(({ to }) => to === zone.name)
    .flatMap((run) => marksAt(run.origin).map((rule) => `${rule}, ${run.name ?? run.from}`));
}

/** What is pulled along a run. */
export function along(facts: Facts, run: Run): readonly Passage[] {
  return facts.analysis.passages.filter(({ route }) => route.kind === 'route' && route.runs.includes(run));
}

/** Bore and share of its cross-section that cables fill; a cable of unknown thickness leaves the share unknown. */
function fillText(facts: Facts, run: Run): string {
  if (!run.conduit) return run.loom ? 'loom' : '';
  if (run.conduitMetres === undefined) return 'bore ?';
  const through = along(facts, run);
  const ratio = through.reduce((sum, { odMetres }) => sum + (odMetres ?? 0) ** 2, 0) / run.conduitMetres ** 2;
  const unknown = through.some(({ odMetres }) => odMetres === undefined);
  const share = `${number(ratio * 100, 0)} %`;
  const filled = !unknown ? share : ratio > 0 ? `> ${share}` : '? %';
  return `${number(run.conduitMetres * 1000, 1)} mm, ${filled}`;
}

/** Room between her outline and what is in it; at the bow more, for the stem. */
const AROUND = 7.5;
const FORWARD = 15;
/** From her sheer to what stands on deck. */
const OVER_DECK = 5;
/** How far the stem rakes, of her depth, and the transom. */
const STEM = 0.5;
const TRANSOM = 4;
const CURVE = 10;

/** A boat's outline from the side, behind what is on the only page of a plan: the bow to the left. Not to scale. */
export function outlineGroup(routed: RoutedPage, { frame }: Paper, sheetId: string): GroupItem {
  const { page, wires, scale, area } = routed;
  const points = [
    ...page.nodes.flatMap(({ box }) => [box, { x: box.x + box.width, y: box.y + box.height }]),
    ...wires.flatMap((wire) => wire.points),
  ];
  const at = (value: number, from: number): number => from + (value - from) * scale;
  const xs = points.map(({ x }) => at(x, area.x));
  const ys = points.map(({ y }) => at(y, area.y));
  const left = Math.max(frame.x + 1, Math.min(...xs) - FORWARD);
  const right = Math.min(frame.x + frame.width - 1, Math.max(...xs) + AROUND);
  const top = sheerOf(page, (value) => at(value, area.y)) ?? area.y;
  const bottom = Math.min(at(area.y + area.height, area.y) + 1, Math.max(...ys) + AROUND);
  const depth = bottom - top;
  const rake = STEM * Math.min(depth, (right - left) / 4);
  // Full above and hollow below: a quadratic curve.
  const stem = Array.from({ length: CURVE + 1 }, (_, index): Point => {
    const t = index / CURVE;
    return { x: left + rake * (0.2 * t * (1 - t) + t * t), y: top + depth * (1.6 * t * (1 - t) + t * t) };
  });
  const corners = [
    { x: right - TRANSOM, y: bottom },
    { x: right, y: top },
  ];
  return {
    kind: 'group',
    id: `${sheetId}-outline`,
    role: 'note',
    name: 'outline',
    label: 'Her outline from the side, not to scale.',
    items: [
      { kind: 'line', closed: true, points: [...stem, ...corners], stroke: ZONE_EDGE, fill: ZONE_FILL },
    ],
  };
}

/** Her sheer, under what stands over the deck; undefined where nothing does. */
function sheerOf({ nodes }: PlacedPage, toSheet: (value: number) => number): number | undefined {
  const above = nodes.filter(({ node }) => node.row === ROWS.above);
  const within = nodes.filter(({ node }) => node.row !== ROWS.above);
  if (above.length === 0 || within.length === 0) return undefined;
  const lowest = Math.max(...above.map(({ box }) => box.y + box.height));
  const highest = Math.min(...within.map(({ box }) => box.y));
  return highest - lowest < 2 * OVER_DECK ? undefined : toSheet(highest - OVER_DECK);
}

/** Which way she lies. */
export function bowAndStern({ frame }: Paper, sheetId: string, outlined: boolean): GroupItem {
  const y = frame.y + 4.2;
  const right = frame.x + frame.width - 2.5;
  const bow = outlined ? '← bow   (outline not to scale)' : '← bow';
  return {
    kind: 'group',
    id: `${sheetId}-bow-and-stern`,
    role: 'note',
    name: 'bow and stern',
    label: 'The bow is to the left, the stern to the right.',
    items: [
      textItem(frame.x + 2.5, y, bow, { colour: GREY }),
      textItem(right, y, 'stern →', { anchor: 'end', colour: GREY }),
    ],
  };
}

/** What is on a page: runs, then signs. */
export function planLegend(page: PlacedPage): readonly LegendEntry[] {
  const tags = page.nodes.flatMap(({ rows }) => rows.map(({ wire, end }) => ({ wire, tag: wire[end].tag })));
  const runs = (
    [
      ['conduit: bore, filled', CONDUIT],
      ['loom', LOOM],
      ['open run', OPEN],
    ] as const
  ).flatMap(([text, stroke]): readonly LegendEntry[] =>
    tags.some(({ wire }) => wire.stroke === stroke)
      ? [{ text, sample: (x, y) => [lineItem(x, y, x + 12, y, stroke)] }]
      : [],
  );
  const more: LegendEntry = {
    text: 'or more',
    sample: (x, y) => [textItem(x + 6, y + 1.25, '> 10 %', { anchor: 'middle' })],
  };
  return [
    ...runs,
    ...(tags.some(({ tag }) => tag.above.includes('>')) ? [more] : []),
    ...diagramLegend(page),
  ];
}
