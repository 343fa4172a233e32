/** The document validator: what stands in the text, then what the one analysis of its vessel says of it. */
import type { DocumentValidator, LangiumDocument } from 'langium';
import type { Diagnostic } from 'vscode-languageserver';
import type { Analyses } from '../analysis/analyses.js';
import { cheaperProblem } from '../analysis/cheaper.js';
import type { VesselAnalysis } from '../analysis/analyses.js';
import type { Variants } from '../analysis/variants.js';
import { documentProblems, inOrder, type Diagnosing } from '../diagnosis/document.js';
import type { Problem } from '../project/report.js';
import { diagnosticOf } from './diagnostics.js';
import type { Thoughts } from './thoughts.js';

export class WireloftValidator implements DocumentValidator {
  constructor(
    private readonly diagnosing: () => Diagnosing,
    private readonly analyses: Analyses,
    private readonly variants: Variants,
    private readonly thoughts: Thoughts,
    private readonly rulePage: (rule: string) => string | undefined,
  ) {}

  validateDocument(document: LangiumDocument): Promise<Diagnostic[]> {
    if (document.uri.scheme === 'builtin') return Promise.resolve([]);
    return Promise.resolve(this.problems(document).map((problem) => diagnosticOf(problem, this.rulePage)));
  }

  /**
   * Problems of one document, as the terminal would list them; those of options as they were when last analysed, and a cheaper design as
   * it was when last looked for.
   */
  problems(document: LangiumDocument): Problem[] {
    const uri = document.uri.toString();
    const found = this.analyses.of(uri);
    const options = found
      ? this.variants
          .last(found)
          .flatMap(({ problems }) => problems.filter(({ place }) => place.file === uri))
      : [];
    return inOrder([
      ...documentProblems(document, this.diagnosing()),
      ...(found?.problems.get(uri) ?? []),
      ...options,
      ...(found ? this.cheaper(found).filter(({ place }) => place.file === uri) : []),
    ]);
  }

  private cheaper(found: VesselAnalysis): readonly Problem[] {
    const last = this.thoughts.last(found);
    if (last?.thought.cheaper === undefined) return [];
    const { analysis, places } = found;
    const today = this.analyses.today();
    return [cheaperProblem(analysis, places, last.thought.cheaper, today, last.current) ?? []].flat();
  }
}
