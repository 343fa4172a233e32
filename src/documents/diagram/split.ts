/** Boxes that are higher than a page, such as a panel of many ways on small paper, in parts that are not. */
import { PART, type Diagram, type DiagramNode, type DiagramWire, type WireEnd } from './diagram.js';
import { headHeight, rowHeight } from './ends.js';
import { byNumber, PADDING, TITLE_HEIGHT } from './place.js';

/** The same diagram with every box lower than `height`. */
export function splitTall(diagram: Diagram, height: number): Diagram {
  const room = height - TITLE_HEIGHT - 5 * PADDING;
  const parts = new Map<string, number>();
  const placeOf = new Map<string, string>();
  const ends = new Map<string, { readonly key: string; readonly end: WireEnd; readonly at: number }[]>();
  for (const wire of diagram.wires) {
    for (const end of ['a', 'b'] as const) {
      const list = ends.get(wire[end].node) ?? [];
      list.push({ key: `${wire.id} ${end}`, end: wire[end], at: list.length });
      ends.set(wire[end].node, list);
    }
  }
  for (const node of diagram.groups.flatMap((group) => group.nodes)) {
    const own = ends.get(node.id) ?? [];
    const head = headHeight(node);
    if (own.reduce((sum, { end }) => sum + rowHeight(end.tag), head) <= room) continue;
    // What feeds it is at its first part.
    const named = ({ port }: WireEnd): number => (Number.isNaN(Number(port)) ? 0 : 1);
    own.sort((x, y) => named(x.end) - named(y.end) || byNumber(x.end.port, y.end.port) || x.at - y.at);
    let part = 1;
    let used = head;
    for (const { key, end } of own) {
      const more = rowHeight(end.tag);
      if (used + more > room && used > head) {
        part += 1;
        used = head;
      }
      used += more;
      if (part > 1) placeOf.set(key, `${node.id}${PART}${part}`);
    }
    parts.set(node.id, part);
  }
  if (placeOf.size === 0) return diagram;
  const moved = (wire: DiagramWire, end: 'a' | 'b'): WireEnd => {
    const node = placeOf.get(`${wire.id} ${end}`);
    return node === undefined ? wire[end] : { ...wire[end], node };
  };
  const partsOf = (node: DiagramNode): readonly DiagramNode[] =>
    Array.from({ length: parts.get(node.id) ?? 1 }, (_, index) =>
      index === 0
        ? node
        : {
            ...node,
            id: `${node.id}${PART}${index + 1}`,
            lines: [`part ${index + 1}`, ...node.lines.slice(0, -1)],
            marks: [],
          },
    );
  return {
    ...diagram,
    groups: diagram.groups.map((group) => ({ ...group, nodes: group.nodes.flatMap(partsOf) })),
    wires: diagram.wires.map((wire) => ({ ...wire, a: moved(wire, 'a'), b: moved(wire, 'b') })),
  };
}
