/** What hangs on the backbones, as boxes and drops: for a drawing of a difference, where the bus sheet has no room for two boats. */
import type { Diagram, DiagramGroup, DiagramNode, DiagramWire } from '../diagram/diagram.js';
import { deviceNode, modelLines, type Facts } from '../sheets/facts.js';
import { byZone } from '../sheets/network.js';
import { strokeOf } from '../style.js';
import { trunkPieces } from '../schedules/trunk.js';
import { count, metres } from '../../vessel/words.js';

const NODE_WIDTH = 45;

/** The id of the box that a backbone is. */
export const backboneId = (name: string): string => `backbone ${name}`;

export function backboneDiagram(facts: Facts): Diagram {
  const { analysis, lookup, numbering } = facts;
  const { vessel, backbones } = analysis;
  const pieces = trunkPieces(analysis);
  const members = backbones.flatMap(({ backbone, members: on }) =>
    on.flatMap(({ device, port, spot }) =>
      lookup.device(device) === undefined ? [] : [{ backbone, device, port, spot }],
    ),
  );
  const wires = members.map(({ backbone, device, port, spot }, index): DiagramWire => {
    const piece = pieces.find(({ origin, to }) => origin === spot.origin && to.split('.')[0] === device);
    const caption = piece?.lengthMetres === undefined ? '' : metres(piece.lengthMetres);
    const number = numbering.of(spot.origin) ?? '';
    const tag = { above: number };
    return {
      id: `drop-${index + 1}`,
      origin: spot.origin,
      name: number,
      label: `Drop ${number} of backbone ${backbone.name} to ${device}${caption === '' ? '' : `, ${caption}`}.`,
      stroke: strokeOf('nmea2000'),
      a: { node: backboneId(backbone.name), port: '', tag },
      b: { node: device, port: port?.name ?? '', tag },
      caption,
      existing: false,
    };
  });
  const trunks: DiagramGroup = {
    id: 'backbones',
    origin: undefined,
    title: undefined,
    nodes: vessel.backbones.map((backbone): DiagramNode => {
      const spans = pieces.filter(({ origin }) =>
        backbone.items.some((item) => item.kind === 'span' && item.origin === origin),
      );
      const ends = backbone.items.filter(({ kind }) => kind === 'terminator').length;
      return {
        id: backboneId(backbone.name),
        origin: backbone.origin,
        name: `backbone ${backbone.name}`,
        lines: [
          backbone.cable ?? 'cable not named',
          `${count(spans.length, 'span')}, ${count(ends, 'terminator')}`,
        ],
        marks: [],
        existing: false,
        symbol: undefined,
        label: `Backbone ${backbone.name}.`,
      };
    }),
  };
  const on = new Set(members.map(({ device }) => device));
  const groups = byZone(
    vessel,
    vessel.devices.filter(({ name }) => on.has(name)),
  ).map(({ id, title, origin, devices }): DiagramGroup => ({
    id,
    title,
    origin,
    nodes: devices.map((device) => deviceNode(facts, device, modelLines(facts, device), [], NODE_WIDTH)),
  }));
  return { groups: [trunks, ...groups], wires, nodeWidth: NODE_WIDTH, gap: 10, pack: true };
}
