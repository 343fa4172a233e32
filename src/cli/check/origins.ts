/** What tells a problem beyond its place: an identity by names, and the way it was come to. */
import { createHash } from 'node:crypto';
import type { Analysis, Hop, ViewAnswer } from '../../checks/analysis.js';
import type { Finding } from '../../checks/finding.js';

/**
 * Gives each problem an identity by its rule and the declared names it is about, so that it stays the same when lines move. Of
 * several with the same names each gets a number.
 */
export function fingerprinter(): (parts: readonly (string | undefined)[]) => string {
  const times = new Map<string, number>();
  return (parts) => {
    const key = JSON.stringify(parts);
    const time = (times.get(key) ?? 0) + 1;
    times.set(key, time);
    return `${createHash('sha256').update(key).digest('hex').slice(0, 32)}:${time}`;
  };
}

/** The ways by which a finding on a need or a pane was come to, hop by hop; none for any other finding. */
export function hopsBehind(finding: Finding, analysis: Analysis): readonly (readonly Hop[])[] {
  if (!/^(?:need|view)\//.test(finding.rule)) return [];
  const need = analysis.needs.find((result) => result.spot.origin === finding.at.origin);
  const answers = need ? need.answers : paneAnswers(finding, analysis);
  return answers
    .filter((answer) => answer.visible !== true && answer.hops.length > 0)
    .map((answer) => answer.hops);
}

function paneAnswers(finding: Finding, analysis: Analysis): readonly ViewAnswer[] {
  for (const { screen, panes } of analysis.vessel.views) {
    const pane = panes.find((candidate) => candidate.origin === finding.at.origin);
    if (!pane || screen === undefined) continue;
    return pane.layers.flatMap((layer) => {
      if (layer.device === undefined) return [];
      const { device, signal } = layer;
      const signals =
        signal === undefined
          ? analysis.sources.filter((source) => source.source === device).map((source) => source.signal)
          : [signal];
      return signals.map((one) => analysis.answer(screen, device, one));
    });
  }
  return [];
}
