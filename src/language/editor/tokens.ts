/** Semantic tokens: what a name stands for, which colours alone can't tell. */
import type { AstNode } from 'langium';
import { AbstractSemanticTokenProvider, type SemanticTokenAcceptor } from 'langium/lsp';
import { SemanticTokenModifiers, SemanticTokenTypes } from 'vscode-languageserver';
import { AstUtils, GrammarUtils } from 'langium';
import * as ast from '../generated/ast.js';

/** Token type of the thing a name stands for. */
const KINDS: Readonly<Record<string, SemanticTokenTypes>> = {
  VesselDecl: SemanticTokenTypes.namespace,
  ZoneDecl: SemanticTokenTypes.namespace,
  OptionDecl: SemanticTokenTypes.namespace,
  RunDecl: SemanticTokenTypes.parameter,
  DeviceDecl: SemanticTokenTypes.variable,
  BackboneDecl: SemanticTokenTypes.variable,
  ModelDecl: SemanticTokenTypes.class,
  CableDecl: SemanticTokenTypes.struct,
  FamilyDecl: SemanticTokenTypes.enum,
  SignalDecl: SemanticTokenTypes.event,
  MediumDecl: SemanticTokenTypes.type,
  ClassDecl: SemanticTokenTypes.type,
  ExposureDecl: SemanticTokenTypes.type,
  FuseTypeDecl: SemanticTokenTypes.type,
  ModeDecl: SemanticTokenTypes.function,
  DayDecl: SemanticTokenTypes.function,
  PortName: SemanticTokenTypes.property,
  PortRange: SemanticTokenTypes.property,
  PositionDecl: SemanticTokenTypes.enumMember,
  Pane: SemanticTokenTypes.label,
};

export class WireloftSemanticTokenProvider extends AbstractSemanticTokenProvider {
  protected override highlightElement(node: AstNode, acceptor: SemanticTokenAcceptor): void {
    const own = KINDS[node.$type];
    if (own !== undefined && 'name' in node) {
      const cst = GrammarUtils.findNodeForProperty(node.$cstNode, 'name');
      if (cst) acceptor({ cst, type: own, modifier: SemanticTokenModifiers.declaration });
    }
    for (const { reference } of AstUtils.streamReferences(node)) {
      if (!('ref' in reference) || !reference.ref || !reference.$refNode) continue;
      const type = KINDS[reference.ref.$type];
      const bundled = reference.$nodeDescription?.documentUri.scheme === 'builtin';
      if (type !== undefined)
        acceptor({
          cst: reference.$refNode,
          type,
          ...(bundled ? { modifier: SemanticTokenModifiers.defaultLibrary } : {}),
        });
    }
    if (ast.isQuantity(node) || ast.isInterval(node) || ast.isWireSize(node)) {
      const unit = GrammarUtils.findNodeForProperty(node.$cstNode, 'unit');
      if (unit && unit.text !== '%') acceptor({ cst: unit, type: SemanticTokenTypes.keyword });
    }
    if (ast.isAllow(node)) {
      const rule = GrammarUtils.findNodeForProperty(node.$cstNode, 'rule');
      if (rule) acceptor({ cst: rule, type: SemanticTokenTypes.macro });
    }
  }
}
