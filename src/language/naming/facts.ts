/**
 * What one file says about names: which files it uses, whether it is a vessel, a fragment or a catalogue, and what it declares.
 * Read off the syntax tree in one pass and remembered for as long as that tree lives.
 */
import type { AstNode, LangiumDocument, URI } from 'langium';
import * as ast from '../generated/ast.js';
import { resolveUse, type UseTarget } from './paths.js';

export type FileKind = 'vessel' | 'fragment' | 'catalogue' | 'library';

/** A declaration that other places name. */
export type Declared =
  | ast.ZoneDecl
  | ast.RunDecl
  | ast.DeviceDecl
  | ast.BackboneDecl
  | ast.ModeDecl
  | ast.DayDecl
  | ast.OptionDecl
  | ast.ModelDecl
  | ast.CableDecl
  | ast.FamilyDecl
  | ast.SignalDecl
  | ast.MediumDecl
  | ast.ClassDecl
  | ast.ExposureDecl
  | ast.FuseTypeDecl
  | ast.VesselDecl;

/** Namespaces: things aboard; goods (models, cables, families); and one each for what the library declares. */
export type Namespace = 'aboard' | 'goods' | 'signal' | 'medium' | 'class' | 'exposure' | 'fusetype';

export type Names = Map<string, Declared[]>;

export interface UseFact {
  readonly node: ast.UseDecl;
  readonly target: UseTarget;
}

export interface FileFacts {
  readonly uri: string;
  readonly kind: FileKind;
  readonly vessels: readonly ast.VesselDecl[];
  readonly aboard: ast.AboardDecl | undefined;
  readonly uses: readonly UseFact[];
  readonly names: Readonly<Record<Namespace, Names>>;
  /** First statement that only a vessel may have; tells a catalogue with things aboard. */
  readonly aboardStatement: ast.Statement | undefined;
  /** Changes exactly when the names that others may see change. */
  readonly signature: string;
  /** The text parsed without an error. */
  readonly whole: boolean;
}

const remembered = new WeakMap<AstNode, FileFacts>();

/** The root of a document's tree as a Spec. */
export const specOf = (document: LangiumDocument): ast.Spec => document.parseResult.value as ast.Spec;

/** The facts of a document in its present state. `root` bounds what may be used. */
export function factsOf(document: LangiumDocument, root: (uri: URI) => URI): FileFacts {
  const spec = specOf(document);
  let facts = remembered.get(spec);
  if (!facts) {
    facts = read(spec, document, root(document.uri));
    remembered.set(spec, facts);
  }
  return facts;
}

/** The name under which a statement declares something, and the namespace. */
export function declares(statement: ast.Statement): Namespace | undefined {
  switch (statement.$type) {
    case 'ZoneDecl':
    case 'RunDecl':
    case 'DeviceDecl':
    case 'BackboneDecl':
    case 'ModeDecl':
    case 'DayDecl':
    case 'OptionDecl':
      return 'aboard';
    case 'ModelDecl':
    case 'CableDecl':
    case 'FamilyDecl':
      return 'goods';
    case 'SignalDecl':
      return 'signal';
    case 'MediumDecl':
      return 'medium';
    case 'ClassDecl':
      return 'class';
    case 'ExposureDecl':
      return 'exposure';
    case 'FuseTypeDecl':
      return 'fusetype';
    default:
      return undefined;
  }
}

/** Statements that belong to a vessel or one of its fragments. */
function isAboardStatement(statement: ast.Statement): boolean {
  return (
    declares(statement) === 'aboard' ||
    ast.isLinkDecl(statement) ||
    ast.isFeedDecl(statement) ||
    ast.isNegativeDecl(statement) ||
    ast.isPreferDecl(statement) ||
    ast.isNeedDecl(statement) ||
    ast.isViewDecl(statement)
  );
}

export function emptyNames(): Record<Namespace, Names> {
  return {
    aboard: new Map(),
    goods: new Map(),
    signal: new Map(),
    medium: new Map(),
    class: new Map(),
    exposure: new Map(),
    fusetype: new Map(),
  };
}

export function addName(names: Names, name: string, node: Declared): void {
  const list = names.get(name);
  if (list) list.push(node);
  else names.set(name, [node]);
}

function read(spec: ast.Spec, document: LangiumDocument, root: URI): FileFacts {
  const vessels: ast.VesselDecl[] = [];
  const uses: UseFact[] = [];
  const names = emptyNames();
  const signature: string[] = [];
  let aboard: ast.AboardDecl | undefined;
  let aboardStatement: ast.Statement | undefined;
  for (const statement of spec.statements) {
    if (ast.isVesselDecl(statement)) {
      vessels.push(statement);
      signature.push(`vessel ${statement.name}`);
    } else if (ast.isAboardDecl(statement)) {
      aboard ??= statement;
      signature.push(`aboard ${statement.vessel?.$refText ?? ''}`);
    } else if (ast.isUseDecl(statement)) {
      if (statement.path === undefined) continue;
      const target = resolveUse(statement.path, document.uri, root);
      uses.push({ node: statement, target });
      signature.push(`use ${target.uri?.toString() ?? target.fault}`);
    }
    const space = declares(statement);
    if (isAboardStatement(statement)) aboardStatement ??= statement;
    const name = 'name' in statement ? statement.name : undefined;
    if (!space || !name) continue;
    addName(names[space], name, statement as Declared);
    signature.push(`${statement.$type} ${name}`);
    if (ast.isModelDecl(statement)) signature.push(shapeOf(statement));
  }
  const kind: FileKind =
    document.uri.scheme === 'builtin'
      ? 'library'
      : vessels.length > 0
        ? 'vessel'
        : aboard
          ? 'fragment'
          : 'catalogue';
  return {
    uri: document.uri.toString(),
    kind,
    vessels,
    aboard,
    uses,
    names,
    aboardStatement,
    signature: signature.join('\n'),
    whole: document.parseResult.parserErrors.length === 0,
  };
}

/** The names inside a model that others refer to: its ports and positions. */
function shapeOf(model: ast.ModelDecl): string {
  const parts: string[] = [];
  for (const property of model.properties) {
    if (ast.isPortDecl(property))
      parts.push(
        ...property.items.map((item) =>
          ast.isPortName(item) ? item.name : `${item.first}..${item.last ?? ''}`,
        ),
      );
    else if (ast.isPositionsProperty(property)) parts.push(...property.positions.map((p) => `=${p.name}`));
  }
  return parts.join(' ');
}
