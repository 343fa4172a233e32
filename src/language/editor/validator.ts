/** The document validator: what stands in the text, then what the one analysis of its vessel says of it. */
import type { DocumentValidator, LangiumDocument } from 'langium';
import type { Diagnostic } from 'vscode-languageserver';
import type { Analyses } from '../analysis/analyses.js';
import { documentProblems, inOrder, type Diagnosing } from '../diagnosis/document.js';
import type { Problem } from '../project/report.js';
import { diagnosticOf } from './diagnostics.js';

export class WireloftValidator implements DocumentValidator {
  constructor(
    private readonly diagnosing: () => Diagnosing,
    private readonly analyses: Analyses,
    private readonly rulePage: (rule: string) => string | undefined,
  ) {}

  validateDocument(document: LangiumDocument): Promise<Diagnostic[]> {
    if (document.uri.scheme === 'builtin') return Promise.resolve([]);
    return Promise.resolve(this.problems(document).map((problem) => diagnosticOf(problem, this.rulePage)));
  }

  /** Problems of one document, as the terminal would list them. */
  problems(document: LangiumDocument): Problem[] {
    const uri = document.uri.toString();
    const found = this.analyses.of(uri);
    return inOrder([...documentProblems(document, this.diagnosing()), ...(found?.problems.get(uri) ?? [])]);
  }
}
