/** What is to be drawn of a vessel: as she is, or with some of her options. */
import type { Analysis } from '../../../checks/analysis.js';
import { overlay } from '../../../vessel/options/overlay.js';
import type { Places } from '../../../vessel/origin.js';
import { sameData } from '../../../vessel/same.js';
import type { VesselAnalysis } from '../../../language/analysis/analyses.js';
import type { EditorSharedServices } from '../../../language/editor/module.js';
import { PlaceTable } from '../../../language/lowering/places.js';
import type { Subject } from './artist/artist.js';
import type { DrawnOption } from './protocol.js';

/** A subject, and of which analysis it was made. */
export interface Made {
  readonly base: Analysis;
  readonly subject: Subject;
}

export interface Chosen extends Made {
  readonly options: readonly DrawnOption[];
  /** Names of those that are chosen, in the order of the text. */
  readonly names: readonly string[];
}

/** The places of a vessel with some of her options, in the texts as they are. */
export function placesWith(
  shared: EditorSharedServices,
  found: VesselAnalysis,
  names: readonly string[],
): Places {
  const chosen = shared.analysis.Variants.optionsOf(found).filter(({ option }) =>
    names.includes(option.name),
  );
  return chosen.length === 0 ? found.places : new PlaceTable(chosen.map(({ places }) => places));
}

/** `before` is taken again where it says the same. Options are laid over here, and analysed by whoever draws. */
export function choose(
  shared: EditorSharedServices,
  found: VesselAnalysis,
  wanted: readonly string[],
  before: (names: readonly string[]) => Made | undefined,
): Chosen {
  const { Analyses, Variants } = shared.analysis;
  const all = Variants.optionsOf(found);
  const chosen = all.filter(({ option }) => wanted.includes(option.name));
  const names = chosen.map(({ option }) => option.name);
  const options = all.map(({ option: { name, title } }): DrawnOption => ({
    name,
    title: title ?? '',
    chosen: names.includes(name),
  }));
  const base = found.analysis;
  const kept = before(names);
  const same = kept?.base === base ? kept.subject : undefined;
  const today = Analyses.today();
  if (chosen.length === 0) {
    const subject = same ?? { vessel: base.vessel, judged: { today }, analysis: () => base };
    return { base, subject, options, names };
  }
  const laid = chosen.map(({ option }) => option);
  const { vessel, faults } = overlay(base.vessel, laid);
  const subject =
    same !== undefined && sameData(same.vessel, vessel)
      ? same
      : {
          vessel,
          judged: { today, variant: { options: laid, base: base.findings, faults } },
          analysis: () => Variants.together(found, new Set(names))?.analysis ?? base,
        };
  return { base, subject, options, names };
}
