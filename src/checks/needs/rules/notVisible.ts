import { rule } from '../../rule.js';

/** `view/not-visible`: a pane shows what its screen cannot. */
export const notVisible = rule(
  { code: 'view/not-visible', severities: ['error'], summary: 'A pane shows what its screen cannot.' },
  ({ panes }, report) => {
    for (const { view, pane, layer, shown } of panes) {
      const at = { origin: pane.origin };
      if (shown.visible === null) report.unknown(at, shown.reason ?? `${layer.text} cannot be judged`);
      if (shown.visible !== false) continue;
      const [answer] = shown.answers;
      const nearest = answer?.nearest ?? null;
      const remedy = nearest === null ? '' : ` To make it right: ${nearest}.`;
      report.find({
        message: `${view.screen ?? 'The screen'} cannot show ${layer.text} in pane ${pane.name} of view "${view.name}": ${shown.reason ?? 'no reason is known'}.${remedy}`,
        at,
        related: (answer?.hops ?? []).slice(-1).map((hop) => ({ at: hop.spot, message: hop.why })),
      });
    }
  },
);
