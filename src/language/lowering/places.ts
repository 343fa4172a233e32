/** The side table from origins to the text, and unique origins for what is lowered. */
import { AstUtils, GrammarUtils, isCompositeCstNode, type AstNode, type CstNode } from 'langium';
import type { Origin, Place, Places, Spot } from '../../vessel/origin.js';
import * as ast from '../generated/ast.js';

/** A table may stand on others: what an option adds, on what the boat has. */
export class PlaceTable implements Places {
  private readonly nodes = new Map<Origin, AstNode>();
  /** How often an origin was claimed, where it was more than once. */
  private readonly repeats = new Map<Origin, number>();

  constructor(private readonly below: readonly PlaceTable[] = []) {}

  /** Registers a node under an origin that no other node has; the same declaration written twice gets a number. */
  claim(origin: Origin, node: AstNode): Origin {
    let unique = origin;
    if (this.nodeOf(origin)) {
      let n = this.repeats.get(origin) ?? 1;
      do unique = `${origin} (${++n})`;
      while (this.nodeOf(unique));
      this.repeats.set(origin, n);
    }
    this.nodes.set(unique, node);
    return unique;
  }

  nodeOf(origin: Origin): AstNode | undefined {
    const own = this.nodes.get(origin);
    if (own) return own;
    for (const table of this.below) {
      const node = table.nodeOf(origin);
      if (node) return node;
    }
    return undefined;
  }

  /** By looking through all: for what somebody points at. */
  originOf(node: AstNode): Origin | undefined {
    for (const [origin, other] of this.nodes) if (other === node) return origin;
    for (const table of this.below) {
      const origin = table.originOf(node);
      if (origin !== undefined) return origin;
    }
    return undefined;
  }

  /** What this table itself holds. */
  origins(): Iterable<readonly [Origin, AstNode]> {
    return this.nodes;
  }

  find(spot: Spot): Place | undefined {
    const node = this.nodeOf(spot.origin);
    if (!node?.$cstNode) return undefined;
    const cst = (spot.part === undefined ? undefined : partOf(node, spot.part)) ?? headline(node);
    return { file: AstUtils.getDocument(node).uri.toString(), range: cst.range };
  }
}

/** What is underlined for a declaration: its name, or what it says up to its block. */
export function headline(node: AstNode): Pick<CstNode, 'range' | 'offset' | 'end'> {
  const cst = node.$cstNode;
  const none = {
    range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
    offset: 0,
    end: 0,
  };
  if (!cst) return none;
  if (!ast.isPane(node)) {
    const name = GrammarUtils.findNodeForProperty(cst, ast.isViewDecl(node) ? 'title' : 'name');
    if (name) return name;
  }
  const end = headEnd(node);
  return end
    ? { range: { start: cst.range.start, end: end.range.end }, offset: cst.offset, end: end.end }
    : cst;
}

/** The last token of a declaration's head: before its waivers and its block. */
export function headEnd(node: AstNode): CstNode | undefined {
  const cst = node.$cstNode;
  if (!cst) return undefined;
  let last: CstNode | undefined;
  for (const child of ownContent(cst)) {
    if (child.text === '{' || ast.isAllow(child.astNode)) break;
    if (!child.hidden) last = child;
  }
  return last ?? cst;
}

/** The pieces of a node, below the rules that only choose it: a statement's text holds the declaration's, and nothing else. */
function ownContent(cst: CstNode): readonly CstNode[] {
  if (!isCompositeCstNode(cst)) return [];
  const [only, ...others] = cst.content;
  return only && others.length === 0 && only.astNode === cst.astNode && isCompositeCstNode(only)
    ? ownContent(only)
    : cst.content;
}

/** The text of a part: a property of the node or of one of its clauses, with an index after a space where there are several. */
function partOf(node: AstNode, part: string): CstNode | undefined {
  const [name = '', indexText] = part.split(' ');
  const index = indexText === undefined || !/^[0-9]+$/.test(indexText) ? undefined : Number(indexText);
  if (name === 'whole') return node.$cstNode;
  if (name === 'pane' && ast.isViewDecl(node))
    return node.panes.find((pane) => pane.name === indexText)?.$cstNode;
  // Fuses and breakers count through, whichever clause they stand in.
  if (name === 'protections' && index !== undefined)
    return clausesOf(node).flatMap((clause) => (ast.isProtectionClause(clause) ? clause.protections : []))[
      index
    ]?.$cstNode;
  for (const candidate of [node, ...clausesOf(node)]) {
    const direct = GrammarUtils.findNodeForProperty(candidate.$cstNode, plural(candidate, name), index);
    if (direct) return direct;
  }
  const keyword = keywordClause(node, name);
  if (keyword) return keyword.$cstNode;
  return undefined;
}

/** `model` means the models of a device, `screen` the subjects of a need, and so on. */
function plural(node: AstNode, name: string): string {
  if (name === 'model' && ast.isDeviceDecl(node)) return 'models';
  if (name === 'port' && ast.isModelDecl(node)) return 'items';
  if (ast.isNamedGoal(node) && (name === 'screen' || name === 'screens' || name === 'device'))
    return 'subjects';
  if (ast.isShowAbility(node) && name === 'without') return 'off';
  if (ast.isLastAbility(node) && name === 'bank') return 'subjects';
  if (ast.isFeedDecl(node) && name === 'a') return 'from';
  if (ast.isFeedDecl(node) && name === 'b') return 'to';
  return name;
}

function clausesOf(node: AstNode): AstNode[] {
  if (ast.isLinkDecl(node) || ast.isFeedDecl(node) || ast.isTapItem(node) || ast.isZoneDecl(node))
    return [...node.clauses];
  if (ast.isNeedDecl(node)) return ast.isNamedGoal(node.goal) ? [node.goal, node.goal.ability] : [node.goal];
  if (ast.isDeviceDecl(node) || ast.isModelDecl(node) || ast.isCableDecl(node) || ast.isVesselDecl(node))
    return [...node.properties];
  return [];
}

/** The clause or property that begins with a keyword. */
function keywordClause(node: AstNode, keyword: string): AstNode | undefined {
  return clausesOf(node).find((clause) => clause.$cstNode?.text.startsWith(keyword));
}
