/** Counts over everything that was checked. What two reports share is one finding: a vessel's options repeat what its base has. */
import type { Counts, Unknown } from '../../checks/finding.js';
import type { Problem, ProjectReport, VesselReport } from '../../language/project/report.js';

/** A problem with the option it first shows up in; null for a base vessel or a file of its own. */
export interface Found {
  readonly problem: Problem;
  readonly option: string | null;
}

/** Every problem once: of the vessels in their order, then of the other files. */
export function allProblems(report: ProjectReport): readonly Found[] {
  const seen = new Set<string>();
  const found: Found[] = [];
  const add = (problem: Problem, option: string | null): void => {
    const key = problemKey(problem);
    if (seen.has(key)) return;
    seen.add(key);
    found.push({ problem, option });
  };
  for (const vessel of report.vessels) for (const problem of vessel.problems) add(problem, vessel.option);
  for (const file of report.files) for (const problem of file.problems) add(problem, null);
  return found;
}

/** What tells a problem from every other: its rule, its place and its words. */
export function problemKey(problem: Pick<Problem, 'rule' | 'message' | 'place'>): string {
  const { start, end } = problem.place.range;
  return JSON.stringify([
    problem.rule,
    problem.place.file,
    start.line,
    start.character,
    end.line,
    end.character,
    problem.message,
  ]);
}

/** An unknown with the vessel that it belongs to. */
export interface FoundUnknown {
  readonly unknown: Unknown;
  readonly vessel: VesselReport;
}

/** Every unknown once for each vessel, whichever of its options have it. */
export function allUnknowns(report: ProjectReport): readonly FoundUnknown[] {
  const seen = new Set<string>();
  return report.vessels.flatMap((vessel) =>
    vessel.analysis.unknowns.flatMap((unknown) => {
      const key = JSON.stringify([
        vessel.file,
        unknown.rule,
        unknown.at.origin,
        unknown.at.part,
        unknown.missing,
      ]);
      if (seen.has(key)) return [];
      seen.add(key);
      return [{ unknown, vessel }];
    }),
  );
}

/** Counts of what `allProblems` and `allUnknowns` give. A waived finding counts as waived and not by its severity. */
export function totals(report: ProjectReport): Counts {
  const counts = { error: 0, warning: 0, information: 0, waived: 0, unknown: allUnknowns(report).length };
  for (const { problem } of allProblems(report)) {
    if (problem.waived === null) counts[problem.severity]++;
    else counts.waived++;
  }
  return counts;
}
