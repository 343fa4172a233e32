/** Groups as columns, before they have pages. */
import type { DiagramGroup, DiagramNode } from './diagram.js';
import { PADDING, TITLE_HEIGHT } from './place.js';

export interface Column {
  readonly parts: readonly { readonly group: DiagramGroup; readonly nodes: readonly DiagramNode[] }[];
}

/** Columns of the groups: one each, a high one broken into several; packed, short neighbours stand over one another. */
export function columnsOf(
  groups: readonly DiagramGroup[],
  height: number,
  heightOf: (node: DiagramNode) => number,
  between: number,
  pack: boolean,
): readonly Column[] {
  const columns: Column[] = [];
  let used = Infinity;
  for (const group of groups) {
    const over = (group.title === undefined ? 0 : TITLE_HEIGHT) + 2 * PADDING + between;
    const whole = group.nodes.reduce((sum, node) => sum + heightOf(node) + between, over - between);
    const last = columns.at(-1);
    if (pack && last !== undefined && used + whole <= height) {
      columns[columns.length - 1] = { parts: [...last.parts, { group, nodes: group.nodes }] };
      used += whole;
      continue;
    }
    used = over - between;
    let nodes: DiagramNode[] = [];
    for (const node of group.nodes) {
      const more = heightOf(node) + between;
      if (nodes.length > 0 && used + more - between > height) {
        columns.push({ parts: [{ group, nodes }] });
        nodes = [];
        used = over - between;
      }
      nodes.push(node);
      used += more;
    }
    columns.push({ parts: [{ group, nodes }] });
  }
  return columns;
}
