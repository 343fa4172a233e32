/**
 * The order of boxes in a column: by what they are, then by their models, then by what they are joined to. Names decide nothing, so
 * that a renamed device stays where it is; nor do declarations, unless two boxes are alike in everything.
 */
import type { DiagramGroup, DiagramWire, WireEnd } from '../diagram/diagram.js';
import { byNumber } from '../diagram/place.js';
import { hashOf } from '../numbering.js';

export interface Sortable {
  readonly id: string;
  /** What it is and what model it has, as text that sorts. */
  readonly kind: string;
}

export interface Joint {
  readonly a: string;
  readonly b: string;
  /** The two ports, as in the model. */
  readonly aPort: string;
  readonly bPort: string;
}

/** How far around a box is looked to tell it from its twin. */
const ROUNDS = 3;

/** A key for each box that sorts it among its neighbours. */
export function orderKeys(items: readonly Sortable[], joints: readonly Joint[]): ReadonlyMap<string, string> {
  const around = new Map<string, { readonly text: string; readonly other: string }[]>();
  const add = (id: string, text: string, other: string): void => {
    const list = around.get(id);
    if (list === undefined) around.set(id, [{ text, other }]);
    else list.push({ text, other });
  };
  for (const { a, b, aPort, bPort } of joints) {
    add(a, `${bPort} ${aPort}`, b);
    add(b, `${aPort} ${bPort}`, a);
  }
  let labels = new Map(items.map(({ id, kind }) => [id, kind]));
  for (let round = 0; round < ROUNDS; round += 1) {
    const next = new Map<string, string>();
    const hashes = new Map([...labels].map(([id, label]) => [id, hashOf(label)]));
    for (const { id, kind } of items) {
      const seen = (around.get(id) ?? [])
        .map(({ text, other }) => `${text} ${hashes.get(other) ?? 0}`)
        .sort();
      next.set(id, `${kind}\n${seen.join('\n')}`);
    }
    labels = next;
  }
  return labels;
}

/**
 * Wires in the order of the boxes that they begin at, each from its first port to its last: so they are read as the current flows and
 * from bow to stern, and neither names nor declarations decide which is laid first.
 */
export function inOrder(
  wires: readonly DiagramWire[],
  groups: readonly DiagramGroup[],
): readonly DiagramWire[] {
  const ids = groups.flatMap(({ nodes }) => nodes.map(({ id }) => id));
  const places = new Map(ids.map((id, index) => [id, index]));
  const order = (x: WireEnd, y: WireEnd): number =>
    (places.get(x.node) ?? 0) - (places.get(y.node) ?? 0) || byNumber(x.port, y.port);
  return [...wires].sort((x, y) => order(x.a, y.a) || order(x.b, y.b));
}
