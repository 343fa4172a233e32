/** Hover: answers the question that is asked at a place. */
import {
  AstUtils,
  CstUtils,
  GrammarAST,
  type AstNode,
  type CstNode,
  type LangiumDocument,
  type MaybePromise,
} from 'langium';
import type { HoverProvider } from 'langium/lsp';
import { MarkupKind, type Hover, type HoverParams } from 'vscode-languageserver';
import type { Analysis } from '../../../checks/analysis.js';
import type { Port } from '../../../vessel/model.js';
import type { Analyses, VesselAnalysis } from '../../analysis/analyses.js';
import type { Variants } from '../../analysis/variants.js';
import * as ast from '../../generated/ast.js';
import { docOf } from '../../lowering/doc.js';
import { lowerCable, lowerFamily, lowerModel } from '../../lowering/models.js';
import type { Closures } from '../../naming/closures.js';
import { leafAt, targetOf, type Target } from '../occurrences.js';
import { feedCard, positionCard, vesselCard, writtenCard } from './aboard.js';
import { backboneCard, pgnCard, teeCard } from './bus.js';
import { bold, escape, markdown, portFacts, type Card } from './card.js';
import { closedWordCard } from './closed.js';
import { ratedLines } from './data.js';
import { deviceCard, portCard } from './devices.js';
import { cableCard, familyCard, modelCard } from './goods.js';
import { fileCard, isLibraryDeclared, libraryCard } from './library.js';
import { glueCard } from './glue.js';
import { sentenceCard } from './lines.js';
import { needCard, paneCard, viewCard } from './needs.js';
import { linkCard, runCard, zoneCard } from './places.js';
import { keywordCard, quantityCard, ruleCard, wireCard } from './words.js';

/** What is told: the boat, or the boat with an option. */
type Told = Pick<VesselAnalysis, 'analysis' | 'places'>;

export class WireloftHoverProvider implements HoverProvider {
  constructor(
    private readonly closures: Closures,
    private readonly analyses: Analyses,
    private readonly variants: Variants,
  ) {}

  getHoverContent(document: LangiumDocument, params: HoverParams): MaybePromise<Hover | undefined> {
    const offset = document.textDocument.offsetAt(params.position);
    const leaf = pointedAt(document, offset);
    if (!leaf || leaf.hidden) return undefined;
    const target = targetOf(leaf);
    const base = this.analyses.of(document.uri.toString());
    // Inside an option the boat is the one with the option; of what it takes out the base knows.
    const variant = base && this.variants.around(leaf.astNode, base);
    const { name } = { name: '', ...target?.node };
    const found = variant?.analysis.vessel.absent.includes(name) === false ? variant : base;
    const card = target
      ? this.named(target, leaf.astNode, found)
      : this.unnamed(document, leaf.astNode, leaf.text, leaf.grammarSource, found);
    if (!card) return undefined;
    return {
      contents: { kind: MarkupKind.Markdown, value: markdown(card) },
      range: (target?.cst ?? leaf).range,
    };
  }

  /** The card of a declaration, asked for at its name or at a name that leads to it. */
  private named({ node, number }: Target, at: AstNode, found: Told | undefined): Card | undefined {
    const doc = docOf(node);
    if (ast.isPortName(node) || ast.isPortRange(node)) {
      const device = ast.isEnd(at) ? at.device.ref?.name : undefined;
      const port = ast.isPortName(node) ? node.name : (number ?? node.first);
      const card = device === undefined || !found ? undefined : portCard(device, port, found.analysis);
      return card ?? this.portOfModel(node);
    }
    if (ast.isModelDecl(node)) {
      const model = lowerModel(node, '');
      return model && modelCard(model, doc);
    }
    if (ast.isCableDecl(node)) {
      const cable = lowerCable(node, '');
      return cable && cableCard(cable, doc);
    }
    if (isLibraryDeclared(node)) {
      const card = libraryCard(node, ast.isSignalDecl(node) ? this.covered(node, at) : [], doc);
      return found && ast.isSignalItem(at) ? withRates(card, node.name, at, found.analysis) : card;
    }
    if (ast.isFamilyDecl(node)) return familyCard(lowerFamily(node, ''), this.members(node, at), doc);
    if (ast.isPositionDecl(node)) return positionCard(node);
    if (ast.isModeDecl(node) || ast.isDayDecl(node) || ast.isOptionDecl(node))
      return writtenCard(node, found?.analysis, doc);
    if (!found) return undefined;
    const { analysis } = found;
    const { vessel } = analysis;
    if (ast.isDeviceDecl(node)) {
      const device = vessel.devices.find((d) => d.name === node.name);
      if (device) return ofOption(deviceCard(device, analysis), node);
    }
    if (ast.isZoneDecl(node)) {
      const zone = vessel.zones.find((z) => z.name === node.name);
      return zone && zoneCard(zone, analysis, doc);
    }
    if (ast.isRunDecl(node)) {
      const run = vessel.runs.find((r) => r.name === node.name);
      return run && runCard(run, analysis, doc);
    }
    if (ast.isBackboneDecl(node)) {
      const card = backboneCard(node.name, analysis, doc);
      if (card) return card;
    }
    if (ast.isPane(node)) return paneCard(node.$container.title, node.name, analysis);
    if (ast.isViewDecl(node)) return viewCard(node.title, analysis, doc);
    if (ast.isVesselDecl(node)) return vesselCard(analysis, doc);
    if ('name' in node && typeof node.name === 'string')
      return {
        heading: `${node.$type.replace(/Decl$/, '').toLowerCase()} ${bold(node.name)}`,
        lines: 'title' in node && typeof node.title === 'string' ? [escape(node.title)] : [],
        doc,
      };
    return undefined;
  }

  /** Keywords, quantities, rule codes, and declarations without a name. */
  private unnamed(
    document: LangiumDocument,
    node: AstNode,
    text: string,
    source: GrammarAST.AbstractElement | undefined,
    found: Told | undefined,
  ): Card | undefined {
    if (ast.isQuantity(node) || ast.isInterval(node)) return quantityCard(node);
    if (ast.isWireSize(node)) return wireCard(node);
    if (ast.isAllow(node) && text.includes('/')) return ruleCard(text);
    if (ast.isUseDecl(node)) return this.file(document, node);
    if (found && text === 'tee' && ast.isTeeItem(node)) {
      const origin = originOf(node, found);
      const card = origin === undefined ? undefined : teeCard(origin, found.analysis);
      if (card) return card;
    }
    if (
      (source === undefined || !GrammarAST.isKeyword(source)) &&
      (ast.isMessageItem(node) || ast.isPgnProperty(node) || ast.isPassesProperty(node))
    ) {
      const card = /^\d+$/.test(text) ? pgnCard(text) : sentenceCard(text);
      if (card) return card;
    }
    if (found && ['--', '->', 'link', 'run', 'feed'].includes(text)) {
      const card = this.connection(node, found);
      if (card) return card;
    }
    const need = AstUtils.getContainerOfType(node, ast.isNeedDecl);
    if (need && found && ['need', 'show', 'hear', 'last', 'spare', 'cost'].includes(text)) {
      const of = originOf(need, found);
      const card = of === undefined ? undefined : needCard(of, found.analysis, docOf(need));
      if (card) return card;
    }
    const glue = glueCard(text, node);
    if (glue) return glue;
    const keyword = source && GrammarAST.isKeyword(source) ? keywordCard(text, node) : undefined;
    return keyword ?? closedWordCard(text, node);
  }

  /** What joins two ends, and has no name. */
  private connection(node: AstNode, found: Told): Card | undefined {
    const origin = originOf(node, found);
    if (origin === undefined) return undefined;
    const { analysis } = found;
    if (ast.isLinkDecl(node)) return linkCard(origin, analysis, docOf(node));
    if (ast.isFeedDecl(node)) return feedCard(origin, analysis, docOf(node));
    const run = ast.isRunDecl(node) ? analysis.vessel.runs.find((r) => r.origin === origin) : undefined;
    return run && runCard(run, analysis, docOf(node));
  }

  private file(document: LangiumDocument, node: ast.UseDecl): Card | undefined {
    const uri = this.closures
      .facts(document)
      .uses.find((use) => use.node === node)
      ?.target.uri?.toString();
    const used = uri === undefined ? undefined : this.closures.document(uri);
    return used && fileCard(node.path, this.closures.facts(used));
  }

  /** Models of a family, as far as they can be seen from a place. */
  private members(family: ast.FamilyDecl, at: AstNode): string[] {
    const goods =
      this.closures.closureOf(AstUtils.getDocument(at).uri.toString())?.names.goods.values() ?? [];
    const isMember = (model: ast.ModelDecl): boolean =>
      model.properties.some((p) => ast.isFamiliesProperty(p) && p.families.some((f) => f.ref === family));
    return [...goods]
      .flat()
      .filter(ast.isModelDecl)
      .filter(isMember)
      .map((model) => model.name);
  }

  private covered(node: ast.SignalDecl, at: AstNode): string[] {
    const names = this.closures.closureOf(AstUtils.getDocument(at).uri.toString())?.names.signal.keys() ?? [];
    return [...names].filter((name) => name.startsWith(`${node.name}.`));
  }

  private portOfModel(node: ast.PortName | ast.PortRange): Card | undefined {
    const model = AstUtils.getContainerOfType(node, ast.isModelDecl);
    const lowered = model && lowerModel(model, '');
    const name = ast.isPortName(node) ? node.name : node.first;
    const port = lowered?.ports.find((p) => p.name === name);
    return port && modelPortCard(lowered?.name ?? '', node.$cstNode?.text ?? name, port);
  }
}

/** A signal that a model wants or gives, with what that comes to aboard. */
function withRates(card: Card, signal: string, { $container }: ast.SignalItem, analysis: Analysis): Card {
  if (!ast.isRatesProperty($container)) return card;
  const lines = ratedLines($container.$container.name, $container.key, signal, analysis);
  return { ...card, lines: [...card.lines, ...lines] };
}

function ofOption(card: Card, node: AstNode): Card {
  const option = AstUtils.getContainerOfType(node, ast.isOptionDecl);
  return option ? { ...card, lines: [`It comes with option ${escape(option.name)}.`, ...card.lines] } : card;
}

/** The text under the pointer; beside a name or between two marks, the text before. */
function pointedAt(document: LangiumDocument, offset: number): CstNode | undefined {
  const root = document.parseResult.value.$cstNode;
  const under = root && CstUtils.findLeafNodeAtOffset(root, offset);
  return under && !/^[.,:{}]$/.test(under.text) ? under : leafAt(document, offset);
}

const modelPortCard = (model: string, name: string, port: Port): Card => ({
  heading: bold(`${model}.${name}`),
  lines: [escape(portFacts(port))],
});

function originOf(node: AstNode, found: Told): string | undefined {
  return found.places.originOf(node);
}
