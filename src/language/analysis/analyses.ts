/**
 * One analysis per vessel, made when first asked for and kept until what it says changes. A change of white space or comments
 * makes an equal vessel: then only the places are taken anew.
 */
import { analyse } from '../../checks/analyse.js';
import type { Analysis } from '../../checks/analysis.js';
import { lowerVessel } from '../lowering/vessel.js';
import type { PlaceTable } from '../lowering/places.js';
import type { Closure, Closures } from '../naming/closures.js';
import type { Problem } from '../project/report.js';
import { problemsOf } from './problems.js';
import { sameData } from '../../vessel/same.js';

export interface VesselAnalysis {
  readonly closure: Closure;
  readonly analysis: Analysis;
  readonly places: PlaceTable;
  /** Findings as problems, by the file they stand in. */
  readonly problems: ReadonlyMap<string, readonly Problem[]>;
}

interface Kept {
  readonly today: string;
  readonly result: VesselAnalysis;
}

export class Analyses {
  private readonly kept = new Map<string, Kept>();
  /** How many times a vessel was really analysed; for tests of what is done again. */
  runs = 0;

  constructor(
    private readonly closures: Closures,
    /** Today's date, ISO 8601. A parameter, so that checks never read a clock. */
    public today: () => string,
  ) {}

  /**
   * The analysis as it last was made, at most an edit behind: for answers that may not wait for one. All files of the closure
   * must be linked, since one is made where there is none.
   */
  last(uri: string): VesselAnalysis | undefined {
    const root = this.closures.rootOf(uri);
    const kept = root === undefined ? undefined : this.kept.get(root);
    return kept ? kept.result : this.of(uri);
  }

  /** The analysis of the vessel that a file belongs to. All files of its closure must be linked. */
  of(uri: string): VesselAnalysis | undefined {
    const closure = this.closures.closureOf(uri);
    if (!closure?.vessel) return undefined;
    const kept = this.kept.get(closure.root);
    const today = this.today();
    if (kept?.today === today && kept.result.closure === closure) return kept.result;
    const lowered = lowerVessel(closure);
    if (!lowered) return undefined;
    const same = kept?.today === today && sameData(kept.result.analysis.vessel, lowered.vessel);
    if (!same) this.runs++;
    const analysis = same ? kept.result.analysis : analyse(lowered.vessel, { today });
    const result = {
      closure,
      analysis,
      places: lowered.places,
      problems: problemsOf(analysis, lowered.places),
    };
    this.kept.set(closure.root, { today, result });
    return result;
  }
}
