/** The panes of views: each layer must be viewable on the view's screen. */
import type { Vessel } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import type { Sharing } from '../sharing/sharing.js';
import type { PaneResult } from '../analysis.js';
import { shown } from './wanted.js';

const NONE: ReadonlySet<string> = new Set();

/** Judge every pane of a vessel. Panes of a view whose screen is not declared are left out: the name is reported. */
export function computePanes(vessel: Vessel, lookup: Lookup, sharing: Sharing): readonly PaneResult[] {
  return vessel.views.flatMap((view) => {
    const { screen } = view;
    if (screen === undefined || lookup.device(screen) === undefined) return [];
    return view.panes.flatMap((pane) =>
      pane.layers.map((layer) => ({ view, pane, layer, shown: shown(sharing, screen, layer, NONE, true) })),
    );
  });
}
