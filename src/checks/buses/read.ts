/** Reads a backbone along its cable. */
import type { Backbone, BackboneItem, End, Port } from '../../vessel/model.js';
import type { Origin, Spot } from '../../vessel/origin.js';
import type { WiredBackbone } from '../analysis.js';
import type { SupplyGraph } from '../power/supply/graph.js';
import { busId } from '../power/supply/edges.js';
import { endText } from '../wiring/wiring.js';
import type { Bus, BusNode, Mark, Position, Span, Stretch, Tap, Tee, Terminator } from './bus.js';
import { loadUnitsOf } from './units.js';
import { branchPiece, dropPiece, spanPiece, type Ground } from './pieces.js';

/** What reading gathers on its way along the cable. */
interface Gathered {
  readonly positions: Map<Origin, Position>;
  readonly terminators: (Position & { readonly origin: Origin; readonly in: string | undefined })[];
  readonly tees: Tee[];
  readonly spans: Span[];
  readonly taps: Tap[];
  readonly isolations: Mark[];
  readonly grounds: Mark[];
  readonly nodes: BusNode[];
}

/** Reads a backbone. Total: whatever is missing is missing, and said. */
export function readBus(ground: Ground, supply: SupplyGraph, wired: WiredBackbone): Bus {
  const { backbone } = wired;
  const got: Gathered = {
    positions: new Map(),
    terminators: [],
    tees: [],
    spans: [],
    taps: [],
    isolations: [],
    grounds: [],
    nodes: [],
  };
  const reader = createReader(ground, wired);
  let point = 0;
  let stretch = 0;
  let atMetres: number | undefined = 0;
  for (const item of backbone.items) {
    const position: Position = { point, stretch, atMetres };
    const mark: Mark = { origin: item.origin, ...position };
    got.positions.set(item.origin, position);
    switch (item.kind) {
      case 'terminator': {
        got.terminators.push({ ...mark, in: item.in });
        const node = item.in === undefined ? undefined : reader.built(item, item.in, position);
        if (node !== undefined) got.nodes.push(node);
        break;
      }
      case 'tee': {
        const tee = reader.tee(item, position);
        got.tees.push(tee);
        got.nodes.push(...tee.nodes);
        break;
      }
      case 'span': {
        const piece = spanPiece(ground, backbone, item);
        got.spans.push({ piece, point, stretch });
        point += 1;
        atMetres =
          atMetres === undefined || piece.lengthMetres === undefined
            ? undefined
            : atMetres + piece.lengthMetres;
        break;
      }
      case 'tap':
        got.taps.push({
          ...mark,
          edge: supply.edgeOf(item.origin),
          fromText: endText(item.from),
          zone: item.zone,
        });
        break;
      case 'isolate':
        got.isolations.push(mark);
        point += 1;
        stretch += 1;
        break;
      case 'ground':
        got.grounds.push(mark);
        break;
    }
  }
  return finish(wired, got, point, atMetres);
}

function finish(wired: WiredBackbone, got: Gathered, lastPoint: number, atMetres: number | undefined): Bus {
  const { backbone } = wired;
  const { tees, spans, taps, isolations, nodes } = got;
  const pieces = tees.flatMap((tee) =>
    [tee.drop ?? [], ...tee.branches.map((branch) => branch.piece)].flat(),
  );
  const dropKnownMetres = pieces.reduce((sum, piece) => sum + (piece.lengthMetres ?? 0), 0);
  const allDrops = pieces.every((piece) => piece.lengthMetres !== undefined);
  const numbers = [0, ...isolations.map((_, index) => index + 1)];
  const unitsOf = (list: readonly BusNode[]): number =>
    list.reduce((sum, node) => sum + (node.loadUnits ?? 0), 0);
  const stretches = numbers.map((number): Stretch => {
    const own = nodes.filter((node) => node.stretch === number);
    const before = isolations[number - 1];
    const after = isolations[number];
    return {
      number,
      id: busId(backbone.name, number),
      firstPoint: before === undefined ? 0 : before.point + 1,
      lastPoint: after === undefined ? lastPoint : after.point,
      taps: taps.filter((tap) => tap.stretch === number),
      nodes: own,
      spans: spans.filter((span) => span.stretch === number),
      tees: tees.filter((tee) => tee.stretch === number),
      loadUnits: unitsOf(own),
    };
  });
  const missing = [
    ...[...spans.map((span) => span.piece), ...pieces].flatMap((piece) =>
      piece.missing === undefined ? [] : [{ at: { origin: piece.origin }, text: piece.missing }],
    ),
    ...nodes.flatMap((node) =>
      node.loadMissing === undefined ? [] : [{ at: node.spot, text: node.loadMissing }],
    ),
  ];
  return {
    name: backbone.name,
    backbone,
    cable: spans[0]?.piece.cable ?? tees[0]?.drop?.cable,
    positions: got.positions,
    points: lastPoint + 1,
    terminators: endsOf(backbone, got.terminators, lastPoint),
    tees,
    spans,
    taps,
    isolations,
    grounds: got.grounds,
    stretches,
    nodes,
    backboneMetres: atMetres,
    dropKnownMetres,
    dropTotalMetres: allDrops ? dropKnownMetres : undefined,
    loadUnits: unitsOf(nodes),
    open: wired.open,
    missing,
  };
}

/**
 * Which end each terminator is at. What has no span between it and the end is at that end; where the whole backbone is one
 * point, the first is at the first end and the last at the last, and one alone is where it is written among the tees.
 */
function endsOf(
  { items }: Backbone,
  all: readonly (Position & { readonly origin: Origin; readonly in: string | undefined })[],
  lastPoint: number,
): readonly Terminator[] {
  const isLastOf = (index: number): boolean => {
    if (all.length > 1) return index === all.length - 1;
    const at = items.findIndex((item) => item.origin === all[index]?.origin);
    return items.slice(0, at).some((item) => item.kind === 'tee');
  };
  return all.map((one, index) => {
    const alone = lastPoint === 0;
    const first = one.point === 0 && !(alone && isLastOf(index));
    const last = one.point === lastPoint && !(alone && index === 0 && first);
    return { ...one, end: first ? 'first' : last ? 'last' : undefined };
  });
}

interface Reader {
  readonly tee: (item: BackboneItem & { readonly kind: 'tee' }, position: Position) => Tee;
  readonly built: (
    item: BackboneItem & { readonly kind: 'terminator' },
    device: string,
    position: Position,
  ) => BusNode | undefined;
}

function createReader(ground: Ground, wired: WiredBackbone): Reader {
  const { lookup } = ground;
  const { backbone, members } = wired;
  const memberOf = new Map(members.map((member) => [member.device, member]));
  const teed = new Set(
    backbone.items.flatMap((item) =>
      item.kind === 'tee'
        ? [item.end, ...item.branches.map((branch) => branch.end)].map((end) => end?.device)
        : [],
    ),
  );
  const seen = new Set<string>();

  const portOf = (end: End): Port | undefined => {
    if (end.device === undefined || end.portUnresolved) return undefined;
    return end.port === undefined ? memberOf.get(end.device)?.port : lookup.portOf(end.device, end.port);
  };
  /** Undefined for a device that is on it already, that comes out, or that is only a box. */
  const nodeOf = (
    end: End,
    via: BusNode['via'],
    spot: Spot,
    position: Position,
    drop: Pick<BusNode, 'dropMetres' | 'dropMissing' | 'byTail'>,
  ): BusNode | undefined => {
    const { device } = end;
    if (device === undefined || lookup.device(device)?.leaving !== false) return undefined;
    const model = lookup.modelOf(device);
    const port = portOf(end);
    const key = `${device}.${port?.name ?? ''}`;
    if (model?.class === 'teebox' || seen.has(key)) return undefined;
    seen.add(key);
    const { loadUnits, loadMissing } = loadOf(device, model, port);
    // Field by field: a backbone is read at every key stroke, and spreading took most of the time.
    return {
      point: position.point,
      stretch: position.stretch,
      atMetres: position.atMetres,
      device,
      model,
      port,
      via,
      spot,
      dropMetres: drop.dropMetres,
      dropMissing: drop.dropMissing,
      byTail: drop.byTail,
      loadUnits,
      loadMissing,
    };
  };

  return {
    built: (item, device, position) =>
      teed.has(device)
        ? undefined
        : nodeOf(
            { device, port: undefined, portUnresolved: false },
            'terminator',
            { origin: item.origin },
            position,
            {
              dropMetres: 0,
              dropMissing: undefined,
              byTail: false,
            },
          ),
    tee: (item, position) => {
      const { origin, end } = item;
      if (end?.device === undefined) {
        const capped = end === undefined;
        return { origin, ...position, device: undefined, capped, drop: undefined, branches: [], nodes: [] };
      }
      const port = portOf(end);
      const isBox = lookup.modelOf(end.device)?.class === 'teebox';
      const drop = dropPiece(ground, backbone, item, end.device, isBox ? undefined : port);
      const own = nodeOf(end, 'tee', { origin, part: 'end' }, position, {
        dropMetres: drop.lengthMetres,
        dropMissing: drop.missing,
        byTail: item.dropMetres !== undefined && !drop.stated,
      });
      const branches = item.branches.map((branch) => ({
        device: branch.end.device,
        piece: branchPiece(ground, backbone, item, branch, portOf(branch.end)),
      }));
      const branched = item.branches.flatMap((branch, index) => {
        const piece = branches[index]?.piece;
        if (piece === undefined) return [];
        const both = [drop.lengthMetres, piece.lengthMetres];
        return (
          nodeOf(branch.end, 'branch', { origin, part: `branches ${index}` }, position, {
            dropMetres: both.includes(undefined) ? undefined : both.reduce<number>((a, b) => a + (b ?? 0), 0),
            dropMissing: drop.missing ?? piece.missing,
            byTail: branch.lengthMetres !== undefined && !piece.stated,
          }) ?? []
        );
      });
      return {
        origin,
        ...position,
        device: end.device,
        capped: false,
        drop,
        branches,
        nodes: [...(own === undefined ? [] : [own]), ...branched],
      };
    },
  };
}

/** The load of a device, or what its model does not say of it. */
function loadOf(
  device: string,
  model: BusNode['model'],
  port: Port | undefined,
): Pick<BusNode, 'loadUnits' | 'loadMissing'> {
  const loadUnits = loadUnitsOf(port);
  if (loadUnits !== undefined) return { loadUnits, loadMissing: undefined };
  if (model === undefined) return { loadUnits, loadMissing: `the model of ${device} is not known` };
  const loadMissing =
    port === undefined
      ? `it is not settled which port of ${device} is on the backbone, and so not what it takes from it`
      : `${model.name} does not say how many load units (len) it takes from the bus`;
  return { loadUnits, loadMissing };
}
