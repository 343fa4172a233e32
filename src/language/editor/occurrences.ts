/** What a place in the text names, and everywhere else that is named: behind definition, references, highlight and rename. */
import { AstUtils, CstUtils, GrammarUtils, type AstNode, type CstNode, type LangiumDocument } from 'langium';
import * as ast from '../generated/ast.js';
import type { Closures } from '../naming/closures.js';

export interface Target {
  readonly node: AstNode;
  /** For a port of a range, which has no node of its own: its number. */
  readonly number: string | undefined;
  /** The text at the place that was asked about. */
  readonly cst: CstNode;
}

export interface Occurrence {
  readonly document: LangiumDocument;
  readonly cst: CstNode;
  readonly declaration: boolean;
}

const NAME_PART = /[\p{L}\p{M}\p{Nd}_]/u;

/** The innermost piece of text at an offset, or right before it. */
export function leafAt(document: LangiumDocument, offset: number): CstNode | undefined {
  const root = document.parseResult.value.$cstNode;
  return root && CstUtils.findDeclarationNodeAtOffset(root, offset, NAME_PART);
}

/** The text of the name that a node declares. */
export function nameNode(node: AstNode): CstNode | undefined {
  if (ast.isPortRange(node)) return node.$cstNode;
  return GrammarUtils.findNodeForProperty(node.$cstNode, ast.isViewDecl(node) ? 'title' : 'name');
}

const covers = (cst: CstNode | undefined, leaf: CstNode): boolean =>
  cst !== undefined && cst.offset <= leaf.offset && leaf.end <= cst.end;

/** The declaration that the name at an offset belongs to or leads to. */
export function targetAt(document: LangiumDocument, offset: number): Target | undefined {
  const leaf = leafAt(document, offset);
  return leaf && targetOf(leaf);
}

/** The declaration that a piece of text names or leads to. */
export function targetOf(leaf: CstNode): Target | undefined {
  const node = leaf.astNode;
  for (const { reference } of AstUtils.streamReferences(node)) {
    if (!('ref' in reference) || !covers(reference.$refNode, leaf)) continue;
    const target = reference.ref;
    if (!target) return undefined;
    return {
      node: target,
      number: ast.isPortRange(target) ? reference.$refText : undefined,
      cst: reference.$refNode ?? leaf,
    };
  }
  const own = nameNode(node);
  return own && covers(own, leaf) ? { node, number: undefined, cst: own } : undefined;
}

/** Every place that names the target, in the files that can see it. */
export function occurrencesOf(target: Target, closures: Closures, withDeclaration: boolean): Occurrence[] {
  const home = AstUtils.getDocument(target.node);
  const found: Occurrence[] = [];
  const own = nameNode(target.node);
  if (withDeclaration && own) found.push({ document: home, cst: own, declaration: true });
  for (const document of documentsSeeing(home, closures))
    for (const reference of document.references) {
      if (!('ref' in reference) || reference.ref !== target.node || !reference.$refNode) continue;
      if (target.number !== undefined && reference.$refText !== target.number) continue;
      found.push({ document, cst: reference.$refNode, declaration: false });
    }
  return found;
}

function documentsSeeing(home: LangiumDocument, closures: Closures): Set<LangiumDocument> {
  const documents = new Set<LangiumDocument>([home]);
  const roots =
    home.uri.scheme === 'builtin' ? closures.loadedFiles() : closures.rootsUsing(home.uri.toString());
  for (const root of roots)
    for (const document of closures.closureOf(root)?.documents ?? []) documents.add(document);
  return documents;
}
