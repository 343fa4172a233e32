/** Code lenses: who sees a source, what a screen shows, and how the vessel's needs stand. */
import type { LangiumDocument, MaybePromise } from 'langium';
import type { CodeLensProvider } from 'langium/lsp';
import type { CodeLens, Range } from 'vscode-languageserver';
import type { Analysis, SourceSignal } from '../../checks/analysis.js';
import { savingText } from '../../checks/design/cheaper.js';
import { priceText } from '../../checks/design/prices.js';
import type { Thought } from '../../checks/design/thought.js';
import { priceDifference } from '../../checks/parts/price.js';
import { count } from '../../vessel/words.js';
import type { Analyses } from '../analysis/analyses.js';
import type { Variants } from '../analysis/variants.js';
import * as ast from '../generated/ast.js';
import { headline } from '../lowering/places.js';
import { specOf } from '../naming/facts.js';
import type { Thoughts } from './thoughts.js';

/** Pairs of screen and signal beyond which a boat gets no lenses: they would cost more than they tell. */
const MOST_PAIRS = 4_000;

export class WireloftCodeLensProvider implements CodeLensProvider {
  constructor(
    private readonly analyses: Analyses,
    private readonly variants: Variants,
    private readonly thoughts: Thoughts,
  ) {}

  provideCodeLens(document: LangiumDocument): MaybePromise<CodeLens[] | undefined> {
    const found = this.analyses.of(document.uri.toString());
    if (!found) return undefined;
    const { statements } = specOf(document);
    const thought = this.thoughts.last(found)?.thought;
    const lenses = statements.flatMap((statement) =>
      ast.isVesselDecl(statement)
        ? [lens(headline(statement).range, baseTitle(found.analysis, thought))]
        : [...deviceLenses(statement, found.analysis), ...lossLenses(statement, found.analysis, thought)],
    );
    if (!statements.some(ast.isOptionDecl)) return lenses;
    // Of an option that was not analysed yet there is nothing to tell.
    const inOptions = this.variants
      .last(found)
      .flatMap(({ options, analysis }) =>
        options
          .filter(({ node }) => statements.includes(node))
          .flatMap(({ node }) => [
            lens(headline(node).range, optionTitle(analysis, found.analysis)),
            ...node.edits.flatMap((edit) =>
              ast.isAddEdit(edit) && edit.declaration ? deviceLenses(edit.declaration, analysis) : [],
            ),
          ]),
      );
    return [...lenses, ...inOptions];
  }
}

/** Who sees a source, and what a screen shows. */
function deviceLenses(node: ast.Statement, analysis: Analysis): CodeLens[] {
  if (!ast.isDeviceDecl(node) || analysis.screens.length * analysis.sources.length > MOST_PAIRS) return [];
  const { range } = headline(node);
  return [shownOn(node.name, analysis), seenBy(node.name, analysis)].flatMap((title) =>
    title === undefined ? [] : [lens(range, title)],
  );
}

/** A lens that only tells: a command without a name does nothing in any client. */
const lens = (range: Range, title: string): CodeLens => ({ range, command: { title, command: '' } });

/** "its loss costs 2 of 5 needs", as it was when last worked out. */
function lossLenses(node: ast.Statement, { needs }: Analysis, thought: Thought | undefined): CodeLens[] {
  const loss = ast.isDeviceDecl(node) && thought?.losses.find(({ device }) => device === node.name);
  if (!loss) return [];
  return [
    lens(headline(node).range, `its loss costs ${loss.needs.length} of ${count(needs.length, 'need')}`),
  ];
}

/** "16964 USD, could cost 108 USD less, 6 of 6 needs met, 2 ethernet ports free". */
function baseTitle(analysis: Analysis, thought: Thought | undefined): string {
  const { vessel } = analysis;
  const cheaper = thought?.cheaper;
  const isMeant = vessel.waivers.some(({ rule, on }) => rule === 'choice/cheaper' && on === vessel.origin);
  return [
    priceText(vessel, analysis.parts()),
    cheaper && !isMeant ? `could cost ${savingText(vessel, cheaper)} less` : '',
    vesselTitle(analysis),
  ]
    .filter(Boolean)
    .join(', ');
}

/** "450 USD more, 7 of 7 needs met, 1 ethernet port free". */
function optionTitle(analysis: Analysis, base: Analysis): string {
  return [priceDifference(analysis.parts(), base.parts()), vesselTitle(analysis)].filter(Boolean).join(', ');
}

/** "6 of 6 needs met, 2 ethernet ports free". */
function vesselTitle({ needs, ports, counts }: Analysis): string {
  const judged = needs.filter((need) => need.met !== null);
  const met = judged.filter((need) => need.met === true).length;
  const ethernet = ports.filter((use) => use.port.medium === 'ethernet');
  const free = ethernet.filter((use) => use.on.length === 0).length;
  const parts = [needs.length === 0 ? 'no needs yet' : `${met} of ${count(judged.length, 'need')} met`];
  if (needs.length > judged.length) parts.push(`${needs.length - judged.length} not judged`);
  if (ethernet.length > 0) parts.push(`${count(free, 'ethernet port')} free`);
  if (counts.unknown > 0) parts.push(`${counts.unknown} unknown`);
  return parts.join(', ');
}

const reaches = (analysis: Analysis, screen: string, signals: readonly SourceSignal[]): boolean =>
  signals.some((s) => analysis.answer(screen, s.source, s.signal).visible === true);

/** "1 of 3 screens sees this", of a source or of a black box with something plugged into it; not of a screen's own charts. */
function seenBy(device: string, analysis: Analysis): string | undefined {
  const { screens } = analysis;
  const signals = screens.includes(device) ? [] : analysis.standsFor(device);
  if (signals.length === 0 || screens.length === 0) return undefined;
  const seeing = screens.filter((screen) => reaches(analysis, screen, signals));
  return seeing.length === screens.length
    ? `${everyScreen(screens.length)} this`
    : `${seeing.length} of ${count(screens.length, 'screen')} ${seeing.length === 1 ? 'sees' : 'see'} this`;
}

function everyScreen(screens: number): string {
  if (screens === 1) return 'the screen sees';
  return screens === 2 ? 'both screens see' : `all ${screens} screens see`;
}

/** "shows 5 of 6 sources". */
function shownOn(screen: string, analysis: Analysis): string | undefined {
  if (!analysis.screens.includes(screen)) return undefined;
  const bySource = new Map<string, SourceSignal[]>();
  for (const one of analysis.sources)
    if (one.source !== screen) bySource.set(one.source, [...(bySource.get(one.source) ?? []), one]);
  if (bySource.size === 0) return undefined;
  const shown = [...bySource.values()].filter((signals) => reaches(analysis, screen, signals));
  return `shows ${shown.length} of ${count(bySource.size, 'source')}`;
}
