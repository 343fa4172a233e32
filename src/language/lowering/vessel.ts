/** Lowers a closure to the vessel that the checks read, with the side table of places. */
import { AstUtils, type AstNode } from 'langium';
import type {
  Cable,
  Exposure,
  Family,
  FuseType,
  Model,
  Practice,
  Signal,
  Vessel,
  Waiver,
} from '../../vessel/model.js';
import * as ast from '../generated/ast.js';
import type { Origin } from '../../vessel/origin.js';
import type { Closure } from '../naming/closures.js';
import { specOf } from '../naming/facts.js';
import { SinceLinked } from '../naming/sinceLinked.js';
import { lowerCable, lowerExposure, lowerFamily, lowerFuseType, lowerModel, lowerSignal } from './models.js';
import { PlaceTable } from './places.js';
import { money, si, whole } from './quantity.js';
import { lowerAboard, type Aboard } from './statements.js';

export interface Lowered {
  readonly vessel: Vessel;
  readonly places: PlaceTable;
}

/** The vessel of a closure; undefined for a closure without one. */
export function lowerVessel(closure: Closure): Lowered | undefined {
  if (!closure.vessel) return undefined;
  const places = new PlaceTable();
  const goods = lowerCatalogue(closure, places);
  const aboard = lowerBoat(closure, lowerExposures(closure), places);
  const head = lowerHead(closure.vessel, places);
  return {
    vessel: {
      ...head,
      ...aboard,
      ...goods,
      waivers: lowerWaivers(closure, places),
      usedByOptions: namedByOptions(closure),
      option: undefined,
      absent: [],
    },
    places,
  };
}

// ---------------------------------------------------------------- the head

type Head = Omit<Vessel, keyof Aboard | keyof Goods | 'waivers' | 'usedByOptions' | 'option' | 'absent'>;

function lowerHead(node: ast.VesselDecl, places: PlaceTable): Head {
  const word = (key: string): string | undefined =>
    node.properties.find((p): p is ast.VesselWord => ast.isVesselWord(p) && p.key === key)?.value;
  const text = (key: string): string | undefined =>
    node.properties.find((p): p is ast.VesselText => ast.isVesselText(p) && p.key === key)?.value;
  const labour = node.properties.find(ast.isLabourProperty);
  const perHour = money(labour?.rate);
  return {
    origin: places.claim(`vessel ${node.name}`, node),
    name: node.name,
    title: node.title,
    practice: practice(word('practice')),
    currency: word('currency'),
    slackMetres: si(node.properties.find(ast.isSlackProperty)?.value, 'length'),
    wiringCelsius: si(node.properties.find(ast.isWiringProperty)?.value, 'temperature'),
    hull: word('hull'),
    aisTargets: whole(node.properties.find(ast.isTargetsProperty)?.value),
    labour:
      labour && perHour && labour.unit === 'h'
        ? { perHour, endSeconds: si(labour.end, 'time'), deviceSeconds: si(labour.device, 'time') }
        : undefined,
    owner: text('owner'),
    yard: text('yard'),
    drawingNumber: text('number'),
    revision: text('revision'),
    status: word('status'),
  };
}

const practice = (word: string | undefined): Practice | undefined =>
  word === 'abyc' || word === 'iso' ? word : undefined;

// ---------------------------------------------------------------- catalogues

interface Goods {
  readonly models: Record<string, Model>;
  readonly cables: Record<string, Cable>;
  readonly families: Record<string, Family>;
  readonly signals: Record<string, Signal>;
  readonly fuseTypes: Record<string, FuseType>;
}

/** Models and cables as they were lowered: an edit of the boat leaves its catalogues as they are. */
const lowered = new SinceLinked<Map<AstNode, Model | Cable | undefined>>();

function kept<N extends AstNode, T extends Model | Cable>(
  node: N,
  origin: Origin,
  lower: (node: N, origin: Origin) => T | undefined,
): T | undefined {
  const known = lowered.of(AstUtils.getDocument(node), () => new Map());
  const before = known.get(node);
  if (before?.origin === origin) return before as T;
  const now = lower(node, origin);
  known.set(node, now);
  return now;
}

function lowerCatalogue(closure: Closure, places: PlaceTable): Goods {
  const table = <T>(): Record<string, T> => Object.create(null) as Record<string, T>;
  const goods: Goods = {
    models: table(),
    cables: table(),
    families: table(),
    signals: table(),
    fuseTypes: table(),
  };
  const kinds = new Map(closure.facts.map((facts) => [facts.uri, facts.kind]));
  const origin = (what: string, node: AstNode): string => {
    const kind = kinds.get(AstUtils.getDocument(node).uri.toString());
    const prefix = kind === 'library' ? 'builtin ' : kind === 'catalogue' ? 'catalogue ' : '';
    return places.claim(`${prefix}${what}`, node);
  };
  for (const [name, [node]] of closure.names.goods) {
    if (ast.isModelDecl(node)) {
      const model = kept(node, origin(`model ${name}`, node), lowerModel);
      if (model) goods.models[name] = model;
    } else if (ast.isCableDecl(node)) {
      const cable = kept(node, origin(`cable ${name}`, node), lowerCable);
      if (cable) goods.cables[name] = cable;
    } else if (ast.isFamilyDecl(node))
      goods.families[name] = lowerFamily(node, origin(`family ${name}`, node));
  }
  for (const [name, [node]] of closure.names.signal)
    if (ast.isSignalDecl(node)) goods.signals[name] = lowerSignal(node);
  for (const [name, [node]] of closure.names.fusetype)
    if (ast.isFuseTypeDecl(node)) goods.fuseTypes[name] = lowerFuseType(node);
  return goods;
}

export function lowerExposures(closure: Closure): Map<string, Exposure> {
  const exposures = new Map<string, Exposure>();
  for (const [name, [node]] of closure.names.exposure)
    if (ast.isExposureDecl(node)) exposures.set(name, lowerExposure(node));
  return exposures;
}

// ---------------------------------------------------------------- what is aboard

function lowerBoat(closure: Closure, exposures: ReadonlyMap<string, Exposure>, places: PlaceTable): Aboard {
  const { aboard } = closure.names;
  // The second declaration of a name is reported and plays no part.
  const first = [...aboardStatements(closure)].filter(
    (statement) => !('name' in statement && statement.name) || aboard.get(statement.name)?.[0] === statement,
  );
  return lowerAboard(first, exposures, places);
}

/** Statements of the vessel's file and its fragments, in the order of their use. */
function* aboardStatements(closure: Closure): Iterable<ast.Addable> {
  for (const [index, facts] of closure.facts.entries()) {
    const document = closure.documents[index];
    if (!document || (facts.kind !== 'vessel' && facts.kind !== 'fragment')) continue;
    for (const statement of specOf(document).statements) if (ast.isAddable(statement)) yield statement;
  }
}

/** Names of goods and devices inside options. */
function namedByOptions(closure: Closure): string[] {
  const names = new Set<string>();
  for (const [, [option]] of closure.names.aboard) {
    if (!ast.isOptionDecl(option)) continue;
    for (const node of AstUtils.streamAllContents(option))
      for (const { reference } of AstUtils.streamReferences(node)) {
        const target = 'ref' in reference ? reference.ref : undefined;
        if (ast.isModelDecl(target) || ast.isCableDecl(target) || ast.isDeviceDecl(target))
          names.add(target.name);
      }
  }
  return [...names].sort();
}

/** Waivers of everything that a table itself holds, known by the origin they stand on. */
export function lowerWaivers(closure: Closure, places: PlaceTable): Waiver[] {
  const shared = new Set(
    closure.facts.filter((f) => f.kind === 'catalogue' || f.kind === 'library').map((f) => f.uri),
  );
  const waivers: Waiver[] = [];
  for (const [on, node] of [...places.origins()]) {
    const allows = 'allows' in node ? (node.allows as readonly ast.Allow[]) : [];
    if (allows.length === 0 || on.startsWith('builtin ')) continue;
    if (shared.has(AstUtils.getDocument(node).uri.toString())) continue;
    for (const allow of allows) {
      if (allow.rule === undefined) continue;
      waivers.push({
        origin: places.claim(`allow ${allow.rule} on ${on}`, allow),
        on,
        rule: allow.rule,
        reason: allow.reason ?? '',
        until: allow.until === undefined ? undefined : isDate(allow.until) ? allow.until : 'malformed',
      });
    }
  }
  return waivers;
}

/** An ISO 8601 calendar date that exists. */
function isDate(text: string): boolean {
  if (!/^[0-9]{4}-[0-9]{2}-[0-9]{2}$/.test(text)) return false;
  const date = new Date(`${text}T00:00:00Z`);
  return !Number.isNaN(date.getTime()) && date.toISOString().startsWith(text);
}
