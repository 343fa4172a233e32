/**
 * The difference of two revisions as a drawing: the newer boat with what is gone put back in, and everything marked as added, removed,
 * changed or as it was. Ports by ports; what only changed its port is changed, and not taken out and pulled anew.
 */
import type { Analysis } from '../../checks/analysis.js';
import type {
  Diagram,
  DiagramChange,
  DiagramGroup,
  DiagramNode,
  DiagramWire,
  WireEnd,
} from '../diagram/diagram.js';
import { CHANGE_LETTERS, CHANGE_STROKES, CHANGE_WORDS } from '../diagram/changed.js';
import { backboneDiagram, backboneId } from './backbones.js';
import { drawDiagrams } from '../draw.js';
import type { DrawOptions, KeptPlaces, Sheet, SheetKind } from '../sheet.js';
import { collectFacts, type Facts } from '../sheets/facts.js';
import { networkDiagram, serialDiagram } from '../sheets/network.js';
import { powerDiagram } from '../sheets/power.js';
import type { Change, Comparison } from './model.js';
import { findRenames } from './renames.js';

/** What the drawing of the difference is called beside that of the boat. */
const nameOf = (diagram: string): string => `changes-${diagram}`;

/** The sheets on which something is different; none where nothing is. */
export function drawDifference(
  before: Analysis,
  after: Analysis,
  found: Comparison,
  options: DrawOptions,
): readonly Sheet[] {
  const { forward } = findRenames(before.vessel, after.vessel);
  const [old, now] = [collectFacts(before), collectFacts(after)];
  const merge = (diagramOf: (facts: Facts) => Diagram): Diagram =>
    differenceOf(diagramOf(old), diagramOf(now), { forward, changes: found.changes });
  const sheet = (kind: SheetKind, name: string, title: string, diagramOf: (facts: Facts) => Diagram) => ({
    kind,
    name: nameOf(name),
    title: `${title}: what changes`,
    diagram: merge(diagramOf),
  });
  return drawDiagrams(
    [
      sheet('network', 'network', 'Network', networkDiagram),
      sheet('bus', 'backbones', 'Backbones', backboneDiagram),
      sheet('bus', 'serial', 'Serial lines', serialDiagram),
      sheet('power', 'power', 'Power', powerDiagram),
    ].filter(({ diagram }) => isDifferent(diagram)),
    after,
    { ...options, places: placesFor(options.places, forward) },
  );
}

/** Places in the drawing of the boat as those of the difference; what has another name since keeps its place. */
function placesFor(
  places: KeptPlaces | undefined,
  forward: ReadonlyMap<string, string>,
): KeptPlaces | undefined {
  return (
    places &&
    Object.fromEntries(
      Object.entries(places).map(([name, kept]) => [
        nameOf(name),
        { ...kept, nodes: kept.nodes.map((node) => ({ ...node, id: forward.get(node.id) ?? node.id })) },
      ]),
    )
  );
}

const isDifferent = ({ groups, wires }: Diagram): boolean =>
  wires.some(({ change }) => change !== 'same') ||
  groups.some(({ nodes }) => nodes.some(({ change }) => change !== 'same'));

interface Ground {
  readonly forward: ReadonlyMap<string, string>;
  readonly changes: readonly Change[];
}

/** Both diagrams in one; names are those of the newer. */
function differenceOf(before: Diagram, after: Diagram, { forward, changes }: Ground): Diagram {
  const named = (id: string): string => forward.get(id) ?? id;
  const olds = before.groups.map((group) => ({
    ...group,
    nodes: group.nodes.map((node) => ({ ...node, id: named(node.id) })),
  }));
  const ids = (groups: readonly DiagramGroup[]): ReadonlySet<string> =>
    new Set(groups.flatMap(({ nodes }) => nodes.map(({ id }) => id)));
  const [was, is] = [ids(olds), ids(after.groups)];
  const groups = mergeGroups(olds, after.groups, is).map((group) => ({
    ...group,
    nodes: group.nodes.map((node) => markedNode(node, was.has(node.id), is.has(node.id), changes)),
  }));
  const oldWires = before.wires.map((wire) => ({
    ...wire,
    a: { ...wire.a, node: named(wire.a.node) },
    b: { ...wire.b, node: named(wire.b.node) },
  }));
  return { ...after, groups, wires: mergeWires(oldWires, after.wires) };
}

/** The groups of the newer, each with what is gone from it; those that are gone follow the one that they stood after. */
function mergeGroups(
  olds: readonly DiagramGroup[],
  news: readonly DiagramGroup[],
  is: ReadonlySet<string>,
): readonly DiagramGroup[] {
  const merged = [...news];
  let after = -1;
  for (const old of olds) {
    const gone = old.nodes.filter(({ id }) => !is.has(id));
    const at = merged.findIndex(({ id }) => id === old.id);
    const found = merged[at];
    if (found !== undefined) {
      merged[at] = { ...found, nodes: [...found.nodes, ...gone] };
      after = at;
    } else if (gone.length > 0) {
      after += 1;
      merged.splice(after, 0, { ...old, nodes: gone });
    }
  }
  return merged;
}

function markedNode(
  node: DiagramNode,
  wasThere: boolean,
  isThere: boolean,
  changes: readonly Change[],
): DiagramNode {
  const own = changes.filter(({ what, name }) =>
    what === 'bus' ? node.id === backboneId(name) : what === 'device' && name === node.id,
  );
  const did = (action: Change['action']): boolean => own.some((one) => one.action === action);
  // What is on this sheet in one revision alone may be aboard in both, and only be joined otherwise.
  const isSame = wasThere && isThere && own.length === 0;
  const change: DiagramChange = did('added')
    ? 'added'
    : did('removed')
      ? 'removed'
      : isSame
        ? 'same'
        : 'changed';
  const said = [
    // What a backbone was is told item by item beside the drawing.
    ...own.flatMap(({ what, action, before }) =>
      what !== 'device' || action === 'added' || action === 'removed'
        ? []
        : [`was ${action === 'moved' ? 'at ' : ''}${before === '' ? 'plain' : (before ?? '?')}`],
    ),
    ...(change === 'changed' && !isThere ? ['no longer joined'] : []),
    ...(change === 'changed' && !wasThere ? ['was not joined'] : []),
  ];
  return {
    ...node,
    change,
    // What was found is told by the check; here it would be taken for a mark of the difference.
    marks: [],
    existing: false,
    lines: [...node.lines, ...said],
    compact: node.compact === true && change === 'same',
    label: `${node.label} ${CHANGE_WORDS[change]}${said.length > 0 ? `: ${said.join(', ')}` : ''}.`,
  };
}

/** Where a wire ends, whichever way round it is written. */
const endsOf = ({ a, b }: DiagramWire): string =>
  [a, b]
    .map(({ node, port }) => `${node}.${port}`)
    .sort()
    .join(' ');
const pairOf = ({ a, b, stroke }: DiagramWire): string => [a.node, b.node, stroke.colour].sort().join(' ');

function mergeWires(olds: readonly DiagramWire[], news: readonly DiagramWire[]): readonly DiagramWire[] {
  const left = new Set(olds);
  const partners = new Map<DiagramWire, DiagramWire>();
  for (const key of [endsOf, pairOf])
    for (const wire of news) {
      if (partners.has(wire)) continue;
      const partner = [...left].find((old) => key(old) === key(wire));
      if (partner === undefined) continue;
      left.delete(partner);
      partners.set(wire, partner);
    }
  return [
    ...news.map((wire) => {
      const old = partners.get(wire);
      return marked(wire, old === undefined ? 'added' : isAlike(old, wire) ? 'same' : 'changed');
    }),
    ...[...left].map((wire) => marked({ ...wire, id: `was-${wire.id}` }, 'removed')),
  ];
}

/** Its number aside, which may change with what is declared before it. */
function isAlike(old: DiagramWire, now: DiagramWire): boolean {
  const tags = ({ a, b, name }: DiagramWire): string =>
    [a, b]
      .map(({ node, port, tag }) =>
        JSON.stringify([node, port, tag.above.replace(name, ''), tag.below ?? '', tag.device?.text ?? '']),
      )
      .sort()
      .join();
  return old.caption === now.caption && tags(old) === tags(now);
}

function marked(wire: DiagramWire, change: DiagramChange): DiagramWire {
  const letter = CHANGE_LETTERS[change];
  const end = (one: WireEnd): WireEnd =>
    letter === '' ? one : { ...one, tag: { ...one.tag, above: `${letter} ${one.tag.above}`.trim() } };
  const { dash } = wire.stroke;
  return {
    ...wire,
    change,
    existing: false,
    a: end(wire.a),
    b: end(wire.b),
    // What stays keeps the dash of its medium.
    stroke:
      change === 'same' && dash !== undefined ? { ...CHANGE_STROKES.same, dash } : CHANGE_STROKES[change],
    label: `${wire.label} ${CHANGE_WORDS[change]}.`,
  };
}
