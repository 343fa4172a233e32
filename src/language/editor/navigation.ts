/** Go to definition, references, highlights, rename. */
import { AstUtils, UriUtils, type LangiumDocument, type MaybePromise } from 'langium';
import type {
  DefinitionProvider,
  DocumentHighlightProvider,
  ReferencesProvider,
  RenameProvider,
} from 'langium/lsp';
import {
  DocumentHighlightKind,
  ErrorCodes,
  Location,
  LocationLink,
  ResponseError,
  type DefinitionParams,
  type DocumentHighlight,
  type DocumentHighlightParams,
  type Range,
  type ReferenceParams,
  type RenameParams,
  type TextDocumentPositionParams,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import * as ast from '../generated/ast.js';
import type { Closures } from '../naming/closures.js';
import { declares } from '../naming/facts.js';
import { RESERVED } from '../parsing/tokens.js';
import { leafAt, nameNode, occurrencesOf, targetAt, type Target } from './occurrences.js';

const offsetOf = (document: LangiumDocument, params: TextDocumentPositionParams): number =>
  document.textDocument.offsetAt(params.position);

export class WireloftDefinitionProvider implements DefinitionProvider {
  constructor(private readonly closures: Closures) {}

  getDefinition(
    document: LangiumDocument,
    params: DefinitionParams,
  ): MaybePromise<LocationLink[] | undefined> {
    const offset = offsetOf(document, params);
    const leaf = leafAt(document, offset);
    if (leaf && ast.isUseDecl(leaf.astNode)) return this.usedFile(document, leaf.astNode, leaf.range);
    const target = targetAt(document, offset);
    const name = target && nameNode(target.node);
    if (!target || !name) return undefined;
    const uri = AstUtils.getDocument(target.node).uri.toString();
    const whole = target.node.$cstNode?.range ?? name.range;
    return [LocationLink.create(uri, whole, name.range, target.cst.range)];
  }

  private usedFile(document: LangiumDocument, use: ast.UseDecl, from: Range): LocationLink[] | undefined {
    const uri = this.closures
      .facts(document)
      .uses.find((fact) => fact.node === use)
      ?.target.uri?.toString();
    if (uri === undefined || !this.closures.document(uri)) return undefined;
    const start = { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } };
    return [LocationLink.create(uri, start, start, from)];
  }
}

export class WireloftReferencesProvider implements ReferencesProvider {
  constructor(private readonly closures: Closures) {}

  findReferences(document: LangiumDocument, params: ReferenceParams): MaybePromise<Location[]> {
    const target = targetAt(document, offsetOf(document, params));
    if (!target) return [];
    return occurrencesOf(target, this.closures, params.context.includeDeclaration).map(
      ({ document: at, cst }) => Location.create(at.uri.toString(), cst.range),
    );
  }
}

export class WireloftHighlightProvider implements DocumentHighlightProvider {
  constructor(private readonly closures: Closures) {}

  getDocumentHighlight(
    document: LangiumDocument,
    params: DocumentHighlightParams,
  ): MaybePromise<DocumentHighlight[] | undefined> {
    const target = targetAt(document, offsetOf(document, params));
    if (!target) return undefined;
    return occurrencesOf(target, this.closures, true)
      .filter((occurrence) => UriUtils.equals(occurrence.document.uri, document.uri))
      .map(({ cst, declaration }) => ({
        range: cst.range,
        kind: declaration ? DocumentHighlightKind.Write : DocumentHighlightKind.Read,
      }));
  }
}

/** Why a target can't be renamed, or undefined. */
function refusal(target: Target): string | undefined {
  if (AstUtils.getDocument(target.node).uri.scheme === 'builtin')
    return "This name belongs to the bundled library and can't be changed.";
  if (ast.isPortRange(target.node)) return 'A port of a range has a number, not a name.';
  if (ast.isViewDecl(target.node)) return 'A view is named by its text; change it in place.';
  return undefined;
}

export class WireloftRenameProvider implements RenameProvider {
  constructor(private readonly closures: Closures) {}

  prepareRename(
    document: LangiumDocument,
    params: TextDocumentPositionParams,
  ): MaybePromise<Range | undefined> {
    const target = targetAt(document, offsetOf(document, params));
    if (!target) return undefined;
    const reason = refusal(target);
    if (reason !== undefined) throw new ResponseError(ErrorCodes.InvalidRequest, reason);
    return target.cst.range;
  }

  rename(document: LangiumDocument, params: RenameParams): MaybePromise<WorkspaceEdit | undefined> {
    const target = targetAt(document, offsetOf(document, params));
    if (!target) return undefined;
    const reason = refusal(target) ?? this.fault(target, params.newName.normalize('NFC'));
    if (reason !== undefined) throw new ResponseError(ErrorCodes.InvalidParams, reason);
    const changes: Record<string, TextEdit[]> = {};
    const old = 'name' in target.node && typeof target.node.name === 'string' ? target.node.name : '';
    for (const { document: at, cst } of occurrencesOf(target, this.closures, true)) {
      // A signal may be written without its first word.
      const newText =
        cst.text === old || !params.newName.includes('.')
          ? params.newName
          : params.newName.slice(params.newName.indexOf('.') + 1);
      (changes[at.uri.toString()] ??= []).push({ range: cst.range, newText });
    }
    return { changes };
  }

  private fault(target: Target, name: string): string | undefined {
    const pattern = ast.isSignalDecl(target.node)
      ? /^[\p{L}_][\p{L}\p{M}\p{Nd}_.]*$/u
      : /^[\p{L}_][\p{L}\p{M}\p{Nd}_]*$/u;
    if (!pattern.test(name))
      return `"${name}" is no name: it starts with a letter and goes on with letters, digits and "_".`;
    const free = ast.isPortName(target.node) || ast.isPositionDecl(target.node);
    if (!free && (RESERVED as readonly string[]).includes(name))
      return `"${name}" glues statements together and can't be a name.`;
    const taken = this.taken(target, name);
    return taken ? `There is a ${taken} named ${name} already.` : undefined;
  }

  private taken(target: Target, name: string): string | undefined {
    if (ast.isPortName(target.node)) {
      const model = AstUtils.getContainerOfType(target.node, ast.isModelDecl);
      const ports = model?.properties.flatMap((p) => (ast.isPortDecl(p) ? p.items : [])) ?? [];
      return ports.some((item) => ast.isPortName(item) && item.name === name && item !== target.node)
        ? 'port'
        : undefined;
    }
    const space = ast.isStatement(target.node) ? declares(target.node) : undefined;
    if (!space) return undefined;
    const home = AstUtils.getDocument(target.node).uri.toString();
    for (const root of this.closures.rootsUsing(home)) {
      const other = this.closures
        .closureOf(root)
        ?.names[space].get(name)
        ?.find((node) => node !== target.node);
      if (other) return other.$type.replace(/Decl$/, '').toLowerCase();
    }
    return undefined;
  }
}
