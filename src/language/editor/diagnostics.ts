/** Problems as the protocol's diagnostics. */
import { DiagnosticSeverity, DiagnosticTag, type Diagnostic } from 'vscode-languageserver';
import { findRule } from '../../checks/rules.js';
import type { Fix, Problem } from '../project/report.js';

/** What travels with a diagnostic to the code action that repairs it. */
export interface DiagnosticData {
  readonly fixes: readonly Fix[];
}

const severities = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  information: DiagnosticSeverity.Information,
} as const;

/** A waived finding stays visible, as a hint with its reason. `page` gives the address of a rule's page. */
export function diagnosticOf(problem: Problem, page: (rule: string) => string | undefined): Diagnostic {
  const href = page(problem.rule);
  const data: DiagnosticData = { fixes: problem.fixes };
  return {
    range: problem.place.range,
    severity: isQuiet(problem) ? DiagnosticSeverity.Hint : severities[problem.severity],
    code: problem.rule,
    ...(href === undefined ? {} : { codeDescription: { href } }),
    source: 'wireloft',
    message: messageOf(problem),
    ...(problem.unused ? { tags: [DiagnosticTag.Unnecessary] } : {}),
    ...(problem.related.length > 0
      ? {
          relatedInformation: problem.related.map(({ place, message }) => ({
            location: { uri: place.file, range: place.range },
            message,
          })),
        }
      : {}),
    data,
  };
}

/** What counts for nothing, and what is looked for while nobody asked, does not call for attention. */
const isQuiet = ({ rule, waived }: Problem): boolean => waived !== null || findRule(rule)?.apart === true;

/** What an editor shows: with the option that brings it, and the reason of the waiver. */
export function messageOf({ message, option, waived }: Problem): string {
  const where = option === null ? message : `With option ${option}: ${message}`;
  return waived === null ? where : `Waived (${waived}): ${where}`;
}
