/** Everything that can be said of one file by itself and its names: no engineering here. */
import type { LangiumDocument, ReferenceInfo } from 'langium';
import type { Closures } from '../naming/closures.js';
import { specOf } from '../naming/facts.js';
import { SinceLinked } from '../naming/sinceLinked.js';
import { walk } from '../parsing/walk.js';
import type { Problem } from '../project/report.js';
import { duplicateProblems, optionProblems, repeatedInside, unknownNames } from './names.js';
import { propertyProblems } from './properties.js';
import { quantityProblems } from './quantities.js';
import { capped, syntaxProblems } from './syntax.js';
import { useProblems, type Surroundings } from './uses.js';

export interface Diagnosing {
  readonly closures: Closures;
  readonly surroundings: Surroundings;
  readonly keywords: readonly string[];
  readonly namesAt: (info: ReferenceInfo) => Iterable<string>;
  readonly typeOf: (info: ReferenceInfo) => string;
}

/** What was found in a file by itself: an edit of one file has the others of its boat looked at again. */
const found = new SinceLinked<{ readonly syntax: readonly Problem[]; readonly inside: readonly Problem[] }>();

function problemsInside(document: LangiumDocument): Problem[] {
  const problems: Problem[] = [];
  const inLibrary = document.uri.scheme === 'builtin';
  for (const statement of specOf(document).statements) problems.push(...repeatedInside(statement));
  walk(document.parseResult.value, (node) => {
    for (const problem of quantityProblems(node)) problems.push(problem);
    for (const problem of propertyProblems(node, inLibrary)) problems.push(problem);
  });
  return problems;
}

/** Problems of a linked document, in the order of the text. */
export function documentProblems(document: LangiumDocument, by: Diagnosing): Problem[] {
  const { syntax, inside } = found.of(document, () => ({
    syntax: syntaxProblems(document, by.keywords),
    inside: problemsInside(document),
  }));
  if (syntax.some((p) => p.rule === 'encoding' || p.rule === 'limit/file-size' || p.rule === 'limit/nesting'))
    return [...syntax];
  const facts = by.closures.facts(document);
  const orphan = facts.kind === 'fragment' && by.closures.rootOf(facts.uri) === undefined;
  if (orphan) return [...syntax, ...useProblems(document, by.closures, by.surroundings)];
  const broken = new Set(syntax.map((p) => p.place.range.start.line));
  const problems = [
    ...syntax,
    ...useProblems(document, by.closures, by.surroundings),
    ...duplicateProblems(document, by.closures),
    ...optionProblems(document, by.closures.closureOf(facts.uri)),
    ...unknownNames(document, by, broken),
  ];
  for (const problem of inside) problems.push(problem);
  return capped(document, inOrder(withoutEchoes(problems, broken)));
}

/** What stands on a line with a syntax error is often its echo: only the syntax error is shown there. */
function withoutEchoes(problems: Problem[], broken: ReadonlySet<number>): Problem[] {
  return broken.size === 0
    ? problems
    : problems.filter(
        (p) => p.rule === 'syntax' || p.rule.startsWith('limit/') || !broken.has(p.place.range.start.line),
      );
}

export function inOrder(problems: Problem[]): Problem[] {
  return problems.sort(
    (a, b) =>
      a.place.range.start.line - b.place.range.start.line ||
      a.place.range.start.character - b.place.range.start.character ||
      (a.rule < b.rule ? -1 : a.rule > b.rule ? 1 : 0),
  );
}
