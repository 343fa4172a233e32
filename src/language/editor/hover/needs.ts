/** Hover on a need and on a pane of a view. */
import type { Analysis, ViewAnswer } from '../../../checks/analysis.js';
import type { Pane, View, Wanted } from '../../../vessel/model.js';
import { bold, escape, rows, type Card } from './card.js';
import { answerText } from './devices.js';

export function needCard(origin: string, analysis: Analysis, doc: string | undefined): Card | undefined {
  const need = analysis.needs.find((n) => n.spot.origin === origin);
  if (!need) return undefined;
  const verdict = need.met === true ? 'Met.' : need.met === false ? 'Not met.' : 'Not known.';
  const lines = [need.reason === null ? verdict : `${verdict} ${escape(need.reason)}`];
  lines.push(...rows(need.answers.map((answer) => row(answer))));
  return { heading: bold(need.text), lines, doc };
}

const mark = (answer: ViewAnswer): string =>
  answer.visible === true ? 'yes' : answer.visible === false ? 'no' : 'not known';
const row = (answer: ViewAnswer): string =>
  `${answer.screen} shows ${answer.source} ${answer.signal}: ${mark(answer)}, ${escape(answerText(answer))}`;

export function paneCard(view: View, pane: Pane, analysis: Analysis): Card {
  const lines: string[] = [];
  const screen = view.screen;
  if (screen !== undefined)
    lines.push(
      ...rows(pane.layers.map((layer) => `${escape(layer.text)}: ${layerText(screen, layer, analysis)}`)),
    );
  return { heading: `pane ${bold(pane.name)} of ${bold(view.name)}`, lines };
}

/** How the screen gets what a layer asks for: its first source that reaches it, else the first reason. */
function layerText(screen: string, layer: Wanted, analysis: Analysis): string {
  const fits = (signal: string): boolean =>
    layer.signal === undefined || signal === layer.signal || signal.startsWith(`${layer.signal}.`);
  const sources = analysis.sources.filter(
    (s) => (layer.device === undefined || s.source === layer.device) && fits(s.signal),
  );
  const answers = sources.map((s) => analysis.answer(screen, s.source, s.signal));
  const best = answers.find((a) => a.visible === true) ?? answers[0];
  return best
    ? `${mark(best)}, ${best.source} ${best.signal}, ${escape(answerText(best))}`
    : 'nothing aboard gives it';
}
