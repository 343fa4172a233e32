/** Builds the report of a project whose documents are linked. No file system here. */
import type { LangiumDocument } from 'langium';
import type { Counts } from '../../checks/finding.js';
import { documentProblems, inOrder } from '../diagnosis/document.js';
import type { Services, SharedServices } from '../module.js';
import type { FileReport, Problem, ProjectReport, VesselReport } from './report.js';

/** Reports on the vessels and files that the given documents belong to. */
export function reportOn(
  documents: readonly LangiumDocument[],
  shared: SharedServices,
  services: Services,
): ProjectReport {
  const closures = shared.naming.Closures;
  const problems = new Map<string, Problem[]>();
  const of = (uri: string): readonly Problem[] => {
    let list = problems.get(uri);
    if (!list) {
      const document = closures.document(uri);
      list = document ? documentProblems(document, services.diagnosis.Diagnosing) : [];
      problems.set(uri, list);
    }
    return list;
  };
  const vessels = new Map<string, VesselReport>();
  const files = new Map<string, FileReport>();
  for (const document of documents) {
    const uri = document.uri.toString();
    const closure = closures.closureOf(uri);
    if (!closure?.vessel) {
      for (const facts of closure?.facts ?? [closures.facts(document)])
        if (facts.kind !== 'library') files.set(facts.uri, { file: facts.uri, problems: of(facts.uri) });
      continue;
    }
    if (vessels.has(closure.root)) continue;
    const found = shared.analysis.Analyses.of(closure.root);
    if (!found) continue;
    const own = closure.facts.filter((facts) => facts.kind === 'vessel' || facts.kind === 'fragment');
    const all = [...own.flatMap((facts) => of(facts.uri)), ...[...found.problems.values()].flat()];
    vessels.set(closure.root, {
      name: closure.vessel.name,
      file: closure.root,
      option: null,
      problems: byFile(all),
      counts: countsOf(all, found.analysis.unknowns.length),
      rulesRun: found.analysis.rulesRun,
      analysis: found.analysis,
      places: found.places,
    });
    for (const facts of closure.facts)
      if (facts.kind === 'catalogue') files.set(facts.uri, { file: facts.uri, problems: of(facts.uri) });
  }
  const order = <T extends { readonly file: string }>(map: ReadonlyMap<string, T>): T[] =>
    [...map.values()].sort((a, b) => (a.file < b.file ? -1 : 1));
  return {
    vessels: order(vessels),
    files: order(files),
    text: (file) => closures.document(file)?.textDocument.getText(),
  };
}

function byFile(problems: Problem[]): Problem[] {
  const groups = new Map<string, Problem[]>();
  for (const problem of problems) {
    const group = groups.get(problem.place.file);
    if (group) group.push(problem);
    else groups.set(problem.place.file, [problem]);
  }
  return [...groups.keys()].sort().flatMap((file) => inOrder(groups.get(file) ?? []));
}

function countsOf(problems: readonly Problem[], unknown: number): Counts {
  const of = (severity: Problem['severity']): number =>
    problems.filter((p) => p.waived === null && p.severity === severity).length;
  return {
    error: of('error'),
    warning: of('warning'),
    information: of('information'),
    waived: problems.filter((p) => p.waived !== null).length,
    unknown,
  };
}
