/** The outline of a file, and every declaration of the workspace by name. */
import type { AstNode, LangiumDocument, LangiumDocuments, MaybePromise } from 'langium';
import type { DocumentSymbolProvider, FuzzyMatcher, WorkspaceSymbolProvider } from 'langium/lsp';
import {
  SymbolKind,
  type DocumentSymbol,
  type WorkspaceSymbol,
  type WorkspaceSymbolParams,
} from 'vscode-languageserver';
import { specOf } from '../naming/facts.js';
import * as ast from '../generated/ast.js';
import { headline } from '../lowering/places.js';
import { nameNode } from './occurrences.js';

interface Symbol {
  readonly name: string;
  readonly kind: SymbolKind;
  readonly detail?: string;
  readonly children?: readonly AstNode[];
}

/** How a node appears in the outline; undefined for one that does not. */
function symbolOf(node: AstNode): Symbol | undefined {
  switch (node.$type) {
    case 'VesselDecl':
      return { name: (node as ast.VesselDecl).name, kind: SymbolKind.Module, detail: 'vessel' };
    case 'ZoneDecl':
      return {
        name: (node as ast.ZoneDecl).name,
        kind: SymbolKind.Namespace,
        detail: `zone ${(node as ast.ZoneDecl).exposure?.$refText ?? ''}`,
      };
    case 'DeviceDecl':
      return {
        name: (node as ast.DeviceDecl).name,
        kind: SymbolKind.Object,
        detail: (node as ast.DeviceDecl).models.map((m) => m.$refText).join(' or '),
      };
    case 'ModelDecl': {
      const model = node as ast.ModelDecl;
      const ports = model.properties.filter(ast.isPortDecl).flatMap((p) => p.items);
      return {
        name: model.name,
        kind: SymbolKind.Class,
        detail: model.class?.$refText ?? '',
        children: ports,
      };
    }
    case 'PortName':
      return { name: (node as ast.PortName).name, kind: SymbolKind.Interface, detail: 'port' };
    case 'PortRange':
      return { name: node.$cstNode?.text ?? '', kind: SymbolKind.Interface, detail: 'ports' };
    case 'CableDecl':
      return {
        name: (node as ast.CableDecl).name,
        kind: SymbolKind.Struct,
        detail: `cable, ${(node as ast.CableDecl).medium?.$refText ?? ''}`,
      };
    case 'FamilyDecl':
      return { name: (node as ast.FamilyDecl).name, kind: SymbolKind.Enum, detail: 'family' };
    case 'RunDecl': {
      const run = node as ast.RunDecl;
      const ends = `${run.from?.$refText ?? '?'} -- ${run.to?.$refText ?? '?'}`;
      return { name: run.name ?? ends, kind: SymbolKind.Field, detail: run.name ? ends : 'run' };
    }
    case 'LinkDecl':
      return {
        name: `${(node as ast.LinkDecl).a?.$cstNode?.text ?? '?'} -- ${(node as ast.LinkDecl).b?.$cstNode?.text ?? '?'}`,
        kind: SymbolKind.Property,
        detail: 'link',
      };
    case 'FeedDecl': {
      const feed = node as ast.FeedDecl;
      return {
        name: `${feed.from?.$cstNode?.text ?? '?'} -> ${feed.to.map((to) => to.$cstNode?.text ?? '?').join(', ')}`,
        kind: SymbolKind.Event,
        detail: 'feed',
      };
    }
    case 'BackboneDecl':
      return { name: (node as ast.BackboneDecl).name, kind: SymbolKind.Array, detail: 'backbone' };
    case 'NeedDecl':
      return {
        name: (node as ast.NeedDecl).goal?.$cstNode?.text.replace(/\s+/g, ' ') ?? 'need',
        kind: SymbolKind.Boolean,
        detail: 'need',
      };
    case 'ModeDecl':
      return { name: (node as ast.ModeDecl).name, kind: SymbolKind.Operator, detail: 'mode' };
    case 'DayDecl':
      return { name: (node as ast.DayDecl).name, kind: SymbolKind.Operator, detail: 'day' };
    case 'ViewDecl':
      return {
        name: (node as ast.ViewDecl).title,
        kind: SymbolKind.Variable,
        detail: `view on ${(node as ast.ViewDecl).screen?.$refText ?? '?'}`,
      };
    case 'OptionDecl':
      return { name: (node as ast.OptionDecl).name, kind: SymbolKind.Package, detail: 'option' };
    case 'SignalDecl':
      return { name: (node as ast.SignalDecl).name, kind: SymbolKind.Key, detail: 'signal' };
    case 'MediumDecl':
    case 'ClassDecl':
    case 'ExposureDecl':
    case 'FuseTypeDecl':
      return {
        name: (node as ast.MediumDecl).name,
        kind: SymbolKind.EnumMember,
        detail: node.$type.replace('Decl', '').toLowerCase(),
      };
    default:
      return undefined;
  }
}

export class WireloftDocumentSymbolProvider implements DocumentSymbolProvider {
  getSymbols(document: LangiumDocument): MaybePromise<DocumentSymbol[]> {
    return specOf(document).statements.flatMap((statement) => documentSymbol(statement) ?? []);
  }
}

function documentSymbol(node: AstNode): DocumentSymbol | undefined {
  const symbol = symbolOf(node);
  const range = node.$cstNode?.range;
  if (!symbol?.name || !range) return undefined;
  return {
    name: symbol.name,
    kind: symbol.kind,
    ...(symbol.detail === undefined ? {} : { detail: symbol.detail }),
    range,
    selectionRange: nameNode(node)?.range ?? headline(node).range,
    ...(symbol.children ? { children: symbol.children.flatMap((child) => documentSymbol(child) ?? []) } : {}),
  };
}

export class WireloftWorkspaceSymbolProvider implements WorkspaceSymbolProvider {
  constructor(
    private readonly documents: () => LangiumDocuments,
    private readonly matcher: FuzzyMatcher,
  ) {}

  getSymbols(params: WorkspaceSymbolParams): MaybePromise<WorkspaceSymbol[]> {
    const found: WorkspaceSymbol[] = [];
    for (const document of this.documents().all) {
      if (document.uri.scheme === 'builtin') continue;
      for (const statement of specOf(document).statements) {
        const symbol = symbolOf(statement);
        const range = nameNode(statement)?.range ?? statement.$cstNode?.range;
        if (!symbol?.name || !range || !this.matcher.match(params.query, symbol.name)) continue;
        found.push({
          name: symbol.name,
          kind: symbol.kind,
          ...(symbol.detail === undefined ? {} : { containerName: symbol.detail }),
          location: { uri: document.uri.toString(), range },
        });
      }
    }
    return found;
  }
}
