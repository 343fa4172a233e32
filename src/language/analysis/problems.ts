/** Findings of the analysis as problems at their places in the text. */
import type { Analysis } from '../../checks/analysis.js';
import type { Finding } from '../../checks/finding.js';
import type { Place } from '../../vessel/origin.js';
import type { PlaceTable } from '../lowering/places.js';
import type { Problem } from '../project/report.js';
import { fixOf } from './edits.js';

const NOWHERE: Place = {
  file: '',
  range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } },
};

/** Findings of a vessel by the file they stand in. */
export function problemsOf(analysis: Analysis, places: PlaceTable): Map<string, Problem[]> {
  const fallback = places.find({ origin: analysis.vessel.origin }) ?? NOWHERE;
  return byFile(
    analysis.findings.map((finding) => problemOf(finding, places.find(finding.at) ?? fallback, places)),
  );
}

function byFile(problems: Iterable<Problem>): Map<string, Problem[]> {
  const files = new Map<string, Problem[]>();
  for (const problem of problems) {
    const list = files.get(problem.place.file);
    if (list) list.push(problem);
    else files.set(problem.place.file, [problem]);
  }
  return files;
}

export function problemOf(finding: Finding, place: Place, places: PlaceTable): Problem {
  return {
    rule: finding.rule,
    severity: finding.severity,
    message: finding.message,
    place,
    related: finding.related.flatMap(({ at, message }) => {
      const related = places.find(at);
      return related ? [{ place: related, message }] : [];
    }),
    fixes: finding.repairs.flatMap((repair) => fixOf(repair, places) ?? []),
    waived: finding.waived,
    unused: finding.rule.startsWith('unused/'),
    option: null,
    finding,
  };
}
