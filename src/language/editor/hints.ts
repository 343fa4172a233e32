/** Inlay hints: what is left out of the text and worked out, shown where it would have been written. */
import type { AstNode, LangiumDocument, MaybePromise } from 'langium';
import type { InlayHintProvider } from 'langium/lsp';
import {
  InlayHintKind,
  type InlayHint,
  type InlayHintParams,
  type Position,
  type Range,
} from 'vscode-languageserver';
import type { CableRun, PortOfDevice } from '../../checks/analysis.js';
import { dcDirection, groupOf, isLinkable } from '../../checks/wiring/fit.js';
import type { Medium, Model } from '../../vessel/model.js';
import { inUnit } from '../../vessel/units.js';
import { count, number } from '../../vessel/words.js';
import type { Analyses, VesselAnalysis } from '../analysis/analyses.js';
import type { Variants } from '../analysis/variants.js';
import * as ast from '../generated/ast.js';
import { headEnd } from '../lowering/places.js';
import { specOf } from '../naming/facts.js';
import { feedLines } from './hover/power.js';
import { voltsAt } from './hover/bus.js';
import { lengthText } from './hover/places.js';

export class WireloftInlayHintProvider implements InlayHintProvider {
  constructor(
    private readonly analyses: Analyses,
    private readonly variants: Variants,
  ) {}

  getInlayHints(document: LangiumDocument, params: InlayHintParams): MaybePromise<InlayHint[] | undefined> {
    const found = this.analyses.of(document.uri.toString());
    if (!found) return undefined;
    const statements = specOf(document).statements.filter((node) => touches(node, params.range));
    const options = statements.filter(ast.isOptionDecl);
    // Inside an option the boat is the one with the option, as it was last analysed.
    const told = options.length === 0 ? [] : this.variants.last(found);
    const inOptions = told.flatMap((variant) => {
      const edits = variant.options.flatMap(({ node }) => (options.includes(node) ? node.edits : []));
      return hintsOf(
        variant,
        edits.flatMap((edit) => (ast.isAddEdit(edit) ? (edit.declaration ?? edit.tee ?? []) : [])),
      );
    });
    return [...hintsOf(found, statements), ...inOptions].filter(({ position }) =>
      within(position, params.range),
    );
  }
}

/** What hints are read from: the boat, or the boat with an option. */
type Told = Pick<VesselAnalysis, 'analysis' | 'places'>;

function hintsOf(found: Told, nodes: readonly AstNode[]): InlayHint[] {
  const asked = new Set(nodes);
  return [...linkHints(found, asked), ...feedHints(found, asked), ...busHints(found, asked)];
}

const before = (a: Position, b: Position): boolean =>
  a.line < b.line || (a.line === b.line && a.character < b.character);
const within = (position: Position, range: Range): boolean =>
  !before(position, range.start) && !before(range.end, position);
const touches = ({ $cstNode: cst }: AstNode, range: Range): boolean =>
  cst !== undefined && !before(cst.range.end, range.start) && !before(range.end, cst.range.start);

/** Ports that a link leaves out, its length, and what is bought for it. */
function linkHints(found: Told, asked: ReadonlySet<AstNode>): InlayHint[] {
  const { analysis, places } = found;
  const cables = new Map(analysis.cables.map((cable) => [cable.link.origin, cable]));
  return analysis.links.flatMap(({ link, a, b }) => {
    const node = places.nodeOf(link.origin);
    if (!node || !asked.has(node) || !ast.isLinkDecl(node)) return [];
    const cable = cables.get(link.origin);
    return [
      ...portHint(node.a, a, 'link', found),
      ...portHint(node.b, b, 'link', found),
      ...(cable ? lengthHint(node, cable) : []),
    ];
  });
}

function feedHints(found: Told, asked: ReadonlySet<AstNode>): InlayHint[] {
  return found.analysis.feeds.flatMap(({ feed, from, to }) => {
    const node = found.places.nodeOf(feed.origin);
    if (!node || !asked.has(node) || !ast.isFeedDecl(node)) return [];
    return [
      ...portHint(node.from, from, 'from', found),
      ...node.to.flatMap((end, index) => portHint(end, to[index], 'to', found)),
      ...sizeHint(node, feed.origin, found),
    ];
  });
}

/** The length of a feed, and its wire and fuse where these are left to the tool. */
function sizeHint(node: ast.FeedDecl, origin: string, { analysis }: Told): InlayHint[] {
  const position = headEnd(node)?.range.end;
  const legs = analysis.power.feeds().filter((leg) => leg.origin === origin);
  const [first] = legs;
  if (!position || !first) return [];
  const stated = analysis.feeds.some(({ feed }) => feed.origin === origin && feed.lengthMetres !== undefined);
  const lengths = stated ? [] : legs.flatMap(({ lengthMetres }) => lengthMetres ?? []);
  const { wire } = first;
  const fuses = new Set(
    legs.flatMap(({ protection }) =>
      protection.flatMap(({ device, amps, type, computed }) =>
        computed && amps !== undefined
          ? [[device, inUnit(amps, 'A'), type].filter((word) => word !== undefined).join(' ')]
          : [],
      ),
    ),
  );
  const label = [
    ...(lengths.length === 0 ? [] : [lengths.map((metres) => inUnit(metres, 'm')).join(' / ')]),
    ...(wire.computed && wire.size !== undefined ? [wire.size] : []),
    ...fuses,
  ].join(', ');
  if (label === '') return [];
  return [{ position, label, paddingLeft: true, tooltip: feedLines(origin, analysis).join('\n') }];
}

function busHints(found: Told, asked: ReadonlySet<AstNode>): InlayHint[] {
  return found.analysis.backbones.flatMap(({ backbone, members, taps }) => {
    const node = found.places.nodeOf(backbone.origin);
    const own = node && asked.has(node) && ast.isBackboneDecl(node) ? node.items : [];
    const added = backbone.items.flatMap(({ origin }) => {
      const tee = found.places.nodeOf(origin);
      return tee && asked.has(tee) && ast.isTeeItem(tee) ? [tee] : [];
    });
    if (own.length + added.length === 0) return [];
    const ends = [...own, ...added].flatMap((item) =>
      ast.isTeeItem(item) ? [item.end, ...item.branches.map((branch) => branch.end)] : [],
    );
    const tees = ends.flatMap((end) => {
      const member = members.find((one) => one.via !== 'terminator' && one.device === end?.device.$refText);
      const port = member?.port;
      return member && port ? portHint(end, { device: member.device, port }, 'bus', found) : [];
    });
    const fed = own
      .filter(ast.isTapItem)
      .flatMap((item, index) => portHint(item.from, taps[index], 'from', found));
    return [...tees, ...fed, ...alongHints(backbone.name, found)];
  });
}

/** How far along a backbone its tees, taps and last end are, and what voltage arrives at the device there. */
function alongHints(name: string, { analysis, places }: Told): InlayHint[] {
  const one = analysis.buses.find(({ bus }) => bus.name === name);
  if (!one) return [];
  const { bus } = one;
  const tees = new Map(bus.tees.map((tee) => [tee.origin, tee]));
  const last = bus.backbone.items.at(-1);
  return bus.backbone.items.flatMap((item) => {
    const node = places.nodeOf(item.origin);
    const position = node && headEnd(node)?.range.end;
    const metres = bus.positions.get(item.origin)?.atMetres;
    const isShown =
      item.kind === 'tee' || item.kind === 'tap' || (item === last && item.kind === 'terminator');
    if (!position || metres === undefined || !isShown) return [];
    const at = inUnit(metres, 'm');
    const volts = leastOf((tees.get(item.origin)?.nodes ?? []).map((on) => voltsAt(one, on)));
    return [
      {
        position,
        label: volts === undefined ? at : `${at}, ${number(volts, 1)} V`,
        paddingLeft: true,
        tooltip: `${at} from the first end of the backbone.${volts === undefined ? '' : `\n${number(volts, 2)} V arrive with the battery at its lowest.`}`,
      },
    ];
  });
}

function leastOf(list: readonly (number | undefined)[]): number | undefined {
  const known = list.filter((one) => one !== undefined);
  return known.length === 0 || known.length < list.length ? undefined : Math.min(...known);
}

/** How an end is connected: by a link, to a backbone, or as the beginning or the end of a supply conductor. */
type Way = 'link' | 'bus' | 'from' | 'to';

function meets(way: Way, medium: Medium): boolean {
  if (way === 'link') return isLinkable(medium);
  return medium === (way === 'bus' ? 'nmea2000' : 'dc');
}

/** ".net2" after a device, where its port is not written and its model has several that such a connection could meet. */
function portHint(
  end: ast.End | undefined,
  used: PortOfDevice | undefined,
  way: Way,
  { analysis: { vessel } }: Told,
): InlayHint[] {
  const position = end?.$cstNode?.range.end;
  if (!end || !position || end.port || !used) return [];
  const name = vessel.devices.find((device) => device.name === used.device)?.models[0];
  const model = name === undefined ? undefined : vessel.models[name];
  if (!model || model.ports.filter(({ medium }) => meets(way, medium)).length < 2) return [];
  const text = `.${used.port.name}`;
  return [
    {
      position,
      label: text,
      kind: InlayHintKind.Parameter,
      tooltip: `${whyPort(used, model, way)} Write it to keep it.`,
      textEdits: [{ range: { start: position, end: position }, newText: text }],
    },
  ];
}

function whyPort({ device, port }: PortOfDevice, model: Model, way: Way): string {
  const group = groupOf(model, port);
  const alike = model.ports.filter((other) => groupOf(model, other) === group);
  if (alike.length > 1)
    return `${count(alike.length, 'port')} of ${device} (${model.name}) are alike here; this is the one it gets.`;
  if (port.medium === 'dc' && dcDirection(port) === undefined)
    return way === 'to'
      ? `${device} (${model.name}) is fed here.`
      : `${device} (${model.name}) feeds on from here.`;
  return `The only port of ${device} (${model.name}) that fits here.`;
}

function lengthHint(node: ast.LinkDecl, cable: CableRun): InlayHint[] {
  const position = headEnd(node)?.range.end;
  const label = lengthLabel(cable);
  return position && label !== undefined
    ? [{ position, label, paddingLeft: true, tooltip: lengthText(cable).join('\n') }]
    : [];
}

/** "8.5 m of a 9 m tail", "8.5 m: 12 m stock", "3.5 m"; undefined where nothing was worked out that is not written. */
function lengthLabel(cable: CableRun): string | undefined {
  if (cable.neededMetres === undefined) return undefined;
  const needed = cable.statedMetres === undefined ? inUnit(cable.neededMetres, 'm') : undefined;
  const bought =
    cable.pieces.length > 0
      ? `${cable.pieces.map((piece) => inUnit(piece, 'm')).join(' + ')} stock`
      : undefined;
  if (cable.captiveMetres !== undefined)
    return needed === undefined ? undefined : `${needed} of a ${inUnit(cable.captiveMetres, 'm')} tail`;
  return needed === undefined || bought === undefined ? (needed ?? bought) : `${needed}: ${bought}`;
}
