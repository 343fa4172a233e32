/** Builds the report of a project whose documents are linked. No file system here. */
import type { LangiumDocument } from 'langium';
import type { Counts } from '../../checks/finding.js';
import { findingKey } from '../../checks/options/variant.js';
import type { VesselAnalysis } from '../analysis/analyses.js';
import type { VariantAnalysis, Variants } from '../analysis/variants.js';
import { documentProblems, inOrder } from '../diagnosis/document.js';
import type { Services, SharedServices } from '../module.js';
import type { FileReport, Problem, ProjectReport, VesselReport } from './report.js';

/**
 * With which options vessels are checked: each as it is and with each option by itself, only as it is, or with the named options
 * together. A vessel that has none of the named ones is checked as it is.
 */
export type Chosen = 'each' | 'none' | ReadonlySet<string>;

/** Reports on the vessels and files that the given documents belong to. `checked` is told how many vessels there are so far. */
export function reportOn(
  documents: readonly LangiumDocument[],
  shared: SharedServices,
  services: Services,
  chosen: Chosen = 'each',
  checked: (vessels: number) => void = () => undefined,
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
  const vessels = new Map<string, readonly VesselReport[]>();
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
    const texts = own.flatMap((facts) => of(facts.uri));
    const options = shared.analysis.Variants.optionsOf(found).map(({ option }) => option);
    const plain = { ...found, options };
    const base = vesselReport(plain, null, texts, [...found.problems.values()].flat());
    const variants = variantsOf(found, shared.analysis.Variants, chosen).map((variant) =>
      vesselReport({ ...found, ...variant, options }, variant.name, texts, [
        ...sharedProblems(found, variant),
        ...variant.problems,
      ]),
    );
    // With options chosen, the vessel is asked for with them.
    const whole = typeof chosen === 'object' && variants.length > 0 ? variants : [base, ...variants];
    vessels.set(closure.root, whole);
    checked(vessels.size);
    for (const facts of closure.facts)
      if (facts.kind === 'catalogue') files.set(facts.uri, { file: facts.uri, problems: of(facts.uri) });
  }
  const order = <T>(map: ReadonlyMap<string, T>): T[] =>
    [...map].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, item]) => item);
  return {
    vessels: order(vessels).flat(),
    files: order(files),
    text: (file) => closures.document(file)?.textDocument.getText(),
  };
}

function variantsOf(found: VesselAnalysis, variants: Variants, chosen: Chosen): readonly VariantAnalysis[] {
  if (chosen === 'none') return [];
  if (chosen === 'each') return variants.each(found);
  const together = variants.together(found, chosen);
  return together ? [together] : [];
}

/** What a variant has in common with its base, said once for both. */
function sharedProblems(base: VesselAnalysis, variant: VariantAnalysis): Problem[] {
  const keys = new Set(variant.analysis.findings.map(findingKey));
  return [...base.problems.values()]
    .flat()
    .filter(({ finding }) => finding !== undefined && keys.has(findingKey(finding)));
}

function vesselReport(
  {
    closure,
    analysis,
    places,
    options,
  }: Pick<VesselAnalysis, 'closure' | 'analysis' | 'places'> & Pick<VesselReport, 'options'>,
  option: string | null,
  texts: readonly Problem[],
  found: readonly Problem[],
): VesselReport {
  const all = [...texts, ...found];
  return {
    name: analysis.vessel.name,
    file: closure.root,
    option,
    options,
    problems: byFile(all),
    counts: countsOf(all, analysis.unknowns.length),
    rulesRun: analysis.rulesRun,
    analysis,
    places,
  };
}

/** A vessel's report with one problem more. */
export function withProblem(report: VesselReport, problem: Problem): VesselReport {
  const problems = byFile([...report.problems, problem]);
  return { ...report, problems, counts: countsOf(problems, report.counts.unknown) };
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
