/** Code lenses: who sees a source, what a screen shows, and how the vessel's needs stand. */
import type { LangiumDocument, MaybePromise } from 'langium';
import type { CodeLensProvider } from 'langium/lsp';
import type { CodeLens, Range } from 'vscode-languageserver';
import type { Analysis } from '../../checks/analysis.js';
import { count } from '../../vessel/words.js';
import type { Analyses } from '../analysis/analyses.js';
import * as ast from '../generated/ast.js';
import { headline } from '../lowering/places.js';
import { specOf } from '../naming/facts.js';

/** Pairs of screen and signal beyond which a boat gets no lenses: they would cost more than they tell. */
const MOST_PAIRS = 4_000;

export class WireloftCodeLensProvider implements CodeLensProvider {
  constructor(private readonly analyses: Analyses) {}

  provideCodeLens(document: LangiumDocument): MaybePromise<CodeLens[] | undefined> {
    const analysis = this.analyses.of(document.uri.toString())?.analysis;
    if (!analysis) return undefined;
    const small = analysis.screens.length * analysis.sources.length <= MOST_PAIRS;
    return specOf(document).statements.flatMap((statement) => {
      const range = headline(statement).range;
      if (ast.isVesselDecl(statement)) return [lens(range, vesselTitle(analysis))];
      if (!ast.isDeviceDecl(statement) || !small) return [];
      return [shownOn(statement.name, analysis), seenBy(statement.name, analysis)].flatMap((title) =>
        title === undefined ? [] : [lens(range, title)],
      );
    });
  }
}

/** A lens that only tells: a command without a name does nothing in any client. */
const lens = (range: Range, title: string): CodeLens => ({ range, command: { title, command: '' } });

function vesselTitle({ needs, ports, counts }: Analysis): string {
  const judged = needs.filter((need) => need.met !== null);
  const met = judged.filter((need) => need.met === true).length;
  const free = ports.filter((use) => use.port.medium === 'ethernet' && use.on.length === 0).length;
  const parts = [`${met} of ${count(judged.length, 'need')} met`];
  if (needs.length > judged.length) parts.push(`${needs.length - judged.length} not judged`);
  parts.push(`${count(free, 'ethernet port')} free`);
  if (counts.unknown > 0) parts.push(`${counts.unknown} unknown`);
  return parts.join(' · ');
}

/** "3 of 4 screens see this": a source that some other screen could want. */
function seenBy(source: string, analysis: Analysis): string | undefined {
  const signals = analysis.sources.filter((s) => s.source === source && !analysis.screens.includes(source));
  const screens = analysis.screens.filter((screen) => screen !== source);
  if (signals.length === 0 || screens.length === 0) return undefined;
  const seeing = screens.filter((screen) =>
    signals.some((s) => analysis.answer(screen, source, s.signal).visible === true),
  );
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
  const sources = [...new Set(analysis.sources.map((s) => s.source))].filter((source) => source !== screen);
  if (sources.length === 0) return undefined;
  const shown = sources.filter((source) =>
    analysis.sources.some(
      (s) => s.source === source && analysis.answer(screen, source, s.signal).visible === true,
    ),
  );
  return `shows ${shown.length} of ${count(sources.length, 'source')}`;
}
