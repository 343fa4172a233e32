/** Hover on a need, on a view and on its panes. */
import type { Analysis, PaneResult, ViewAnswer } from '../../../checks/analysis.js';
import { answerText, grouped, signalsBySource } from './answers.js';
import { bold, code, escape, rows, type Card } from './card.js';

export function needCard(origin: string, analysis: Analysis, doc: string | undefined): Card | undefined {
  const need = analysis.needs.find((n) => n.spot.origin === origin);
  if (!need) return undefined;
  const kind = analysis.vessel.needs.find((n) => n.origin === origin)?.kind;
  const judged = kind === 'show' || kind === 'hear' || kind === 'spare';
  const open = judged ? 'Not known' : 'Not judged';
  const verdict = need.met === true ? 'Met' : need.met === false ? 'Not met' : open;
  const lines = [need.reason === null ? `${verdict}.` : `${verdict}: ${escape(need.reason)}.`];
  const verb = kind === 'hear' ? ['hears', 'does not hear', 'may hear'] : ['shows', "can't show", 'may show'];
  for (const screen of new Set(need.answers.map((answer) => answer.screen)))
    for (const [index, visible] of [true, false, null].entries())
      lines.push(
        ...grouped(
          `${escape(screen)} ${verb[index] ?? ''}`,
          need.answers.filter((answer) => answer.screen === screen && answer.visible === visible),
          signalsBySource,
        ),
      );
  return { heading: `need ${bold(need.text)}`, lines, doc };
}

/** A view: each of its panes, and whether its screen can show it. */
export function viewCard(title: string, analysis: Analysis, doc: string | undefined): Card {
  const view = analysis.vessel.views.find((v) => v.name === title);
  const results = analysis.panes.filter((result) => result.view === view);
  const screen = view?.screen === undefined ? '' : ` on ${bold(view.screen)}`;
  return {
    heading: `view ${bold(title)}${screen}`,
    lines: view
      ? rows(results.map((result) => `${code(result.pane.name)} ${layerText(result)}`))
      : [OF_OPTION],
    doc,
  };
}

/** A pane: how its screen gets each of its layers. */
export function paneCard(view: string, pane: string, analysis: Analysis): Card {
  const results = analysis.panes.filter((r) => r.view.name === view && r.pane.name === pane);
  return {
    heading: `pane ${bold(pane)} of ${bold(view)}`,
    lines: results.length > 0 ? results.map(layerText) : [OF_OPTION],
  };
}

const OF_OPTION = 'Not judged: its screen is not declared, or it comes with an option.';

/** "chart: yes, plotter chart, its own", or no with the reason. */
function layerText({ layer, shown }: PaneResult): string {
  const verdict = shown.visible === true ? 'yes' : shown.visible === false ? 'no' : 'not known';
  const [first] = shown.answers;
  const why = first === undefined ? (shown.reason ?? '') : answerText(first);
  const what = [verdict, first && shown.visible === true ? source(first) : '', why].filter(
    (part) => part !== '',
  );
  return `${escape(layer.text)}: ${escape(what.join(', '))}`;
}

const source = (answer: ViewAnswer): string => `${answer.source} ${answer.signal}`;
