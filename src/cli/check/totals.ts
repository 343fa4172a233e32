/** Counts over everything that was checked. What two reports share is one finding: a vessel's options repeat what its base has. */
import type { Counts } from '../../checks/finding.js';
import type { Problem } from '../../language/project/report.js';
import type { Checked, CheckedProblem, CheckedUnknown, CheckedVessel } from './checked.js';

/** Every problem once: of the vessels in their order, then of the other files. */
export function allProblems(report: Checked): readonly CheckedProblem[] {
  const seen = new Set<string>();
  const all = [...report.vessels, ...report.files].flatMap((part) => part.problems);
  return all.filter((problem) => {
    const key = problemKey(problem);
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  });
}

/** " (with option light)"; nothing for what the vessel has without any. */
export function withOption(option: string | null): string {
  if (option === null) return '';
  return ` (with ${option.includes(',') ? 'options' : 'option'} ${option})`;
}

/** What tells a problem from every other: its rule, its place, its words and the option that brings it. */
export function problemKey(problem: Problem): string {
  const { start, end } = problem.place.range;
  return JSON.stringify([
    problem.rule,
    problem.place.file,
    start.line,
    start.character,
    end.line,
    end.character,
    problem.message,
    problem.option,
  ]);
}

/** An unknown with the vessel that it belongs to. */
export interface FoundUnknown {
  readonly unknown: CheckedUnknown;
  readonly vessel: CheckedVessel;
}

/** Every unknown once for each vessel, whichever of its options have it. */
export function allUnknowns(report: Checked): readonly FoundUnknown[] {
  const seen = new Set<string>();
  return report.vessels.flatMap((vessel) =>
    vessel.unknowns.flatMap((unknown) => {
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
export function totals(report: Checked): Counts {
  const counts = { error: 0, warning: 0, information: 0, waived: 0, unknown: allUnknowns(report).length };
  for (const problem of allProblems(report)) {
    if (problem.waived === null) counts[problem.severity]++;
    else counts.waived++;
  }
  return counts;
}
