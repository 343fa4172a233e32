/** Looks for cheaper designs of the vessels of a report: it takes a solver and its time, so it is asked for by itself. */
import { cheaperOf } from '../../checks/design/cheaper.js';
import { search } from '../../checks/design/search.js';
import type { Solver } from '../../checks/design/solver.js';
import { cheaperProblem } from '../analysis/cheaper.js';
import type { SharedServices } from '../module.js';
import { withProblem } from './build.js';
import type { ProjectReport } from './report.js';

const NOTHING_KEPT = { devices: new Set<string>(), links: new Set<string>() };

/** The report with a finding at each vessel that can meet her needs for less; options are judged with nothing of the kind. */
export function withCheaper(report: ProjectReport, shared: SharedServices, solver: Solver): ProjectReport {
  const { Analyses: analyses } = shared.analysis;
  const today = analyses.today();
  return {
    ...report,
    vessels: report.vessels.map((vessel) => {
      const base = vessel.option === null ? analyses.of(vessel.file) : undefined;
      // A text with a fault is not the boat that is meant.
      const isBroken = vessel.problems.some((one) => one.finding === undefined && one.severity === 'error');
      if (base === undefined || isBroken) return vessel;
      const { analysis, places } = base;
      const cheaper = cheaperOf(search(analysis.vessel, solver, { today, best: 1, keep: NOTHING_KEPT }));
      const problem = cheaper && cheaperProblem(analysis, places, cheaper, today);
      return { ...(problem ? withProblem(vessel, problem) : vessel), rulesRun: vessel.rulesRun + 1 };
    }),
  };
}
