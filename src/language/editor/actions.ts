/** Code actions: the repairs that findings carry, waivers with a reason, and all safe repairs at once. */
import type { LangiumDocument, MaybePromise } from 'langium';
import type { CodeActionProvider } from 'langium/lsp';
import {
  CodeActionKind,
  type CodeAction,
  type CodeActionParams,
  type Diagnostic,
  type TextEdit,
  type WorkspaceEdit,
} from 'vscode-languageserver';
import { findRule } from '../../checks/rules.js';
import type { Place } from '../../vessel/origin.js';
import type { Analyses } from '../analysis/analyses.js';
import { headEnd } from '../lowering/places.js';
import type { Closures } from '../naming/closures.js';
import { relativePath } from '../naming/paths.js';
import { quote } from '../parsing/values.js';
import type { Fix, Problem } from '../project/report.js';
import type { WireloftValidator } from './validator.js';

/** Rules whose preferred repair changes nothing that the boat means: `source.fixAll` applies these alone. */
const SAFE: ReadonlySet<string> = new Set(['allow/unused', 'type/unit', 'syntax']);

export class WireloftCodeActionProvider implements CodeActionProvider {
  constructor(
    private readonly validator: () => WireloftValidator,
    private readonly analyses: Analyses,
    private readonly closures: Closures,
  ) {}

  getCodeActions(
    document: LangiumDocument,
    params: CodeActionParams,
  ): MaybePromise<CodeAction[] | undefined> {
    const only = params.context.only;
    const wants = (kind: string): boolean =>
      only === undefined || only.some((o) => kind === o || kind.startsWith(`${o}.`));
    // Problems are taken anew rather than from the diagnostics: some clients drop what travels with those.
    const problems = this.validator().problems(document);
    const actions: CodeAction[] = [];
    if (wants(CodeActionKind.QuickFix))
      for (const diagnostic of params.context.diagnostics) {
        const problem = problems.find((p) => matches(p, diagnostic));
        if (problem?.waived !== null) continue;
        actions.push(...problem.fixes.map((fix) => quickFix(fix, diagnostic)));
        actions.push(
          ...this.missingUse(problem, diagnostic, document),
          ...this.waiver(problem, diagnostic, document),
        );
      }
    if (
      only?.some((kind) => kind === CodeActionKind.Source || kind.startsWith(CodeActionKind.SourceFixAll))
    ) {
      const all = fixAll(problems);
      if (all) actions.push(all);
    }
    return actions;
  }

  /** "Allow it, with a reason": a waiver at the end of the head of what the finding stands on. */
  private waiver(problem: Problem, diagnostic: Diagnostic, document: LangiumDocument): CodeAction[] {
    if (findRule(problem.rule)?.waivable !== true) return [];
    const found = this.analyses.of(document.uri.toString());
    const finding = found?.analysis.findings.find(
      (f) => f.rule === problem.rule && f.message === problem.message,
    );
    const node = finding && found?.places.nodeOf(finding.at.origin);
    const end = node && 'allows' in node ? headEnd(node)?.range.end : undefined;
    if (!end) return [];
    const edit: TextEdit = {
      range: { start: end, end },
      newText: ` allow ${problem.rule} because ${quote('why it is right here')}`,
    };
    return [
      {
        title: `Allow ${problem.rule} here, with a reason`,
        kind: CodeActionKind.QuickFix,
        diagnostics: [diagnostic],
        edit: { changes: { [document.uri.toString()]: [edit] } },
      },
    ];
  }

  /** A name that a catalogue under the root declares, and this file does not use. */
  private missingUse(problem: Problem, diagnostic: Diagnostic, document: LangiumDocument): CodeAction[] {
    if (problem.rule !== 'type/unknown-name') return [];
    const name = document.textDocument.getText(diagnostic.range);
    const closure = this.closures.closureOf(document.uri.toString());
    const inside = new Set(closure?.facts.map((facts) => facts.uri));
    const start = { line: 0, character: 0 };
    return this.closures.loadedFiles().flatMap((uri) => {
      const other = this.closures.document(uri);
      if (!other || inside.has(uri)) return [];
      const facts = this.closures.facts(other);
      if (facts.kind !== 'catalogue' || !(facts.names.goods.has(name) || facts.names.signal.has(name)))
        return [];
      const path = relativePath(document.uri, other.uri);
      const edit: TextEdit = { range: { start, end: start }, newText: `use ${quote(path)}\n` };
      return [
        {
          title: `Add use "${path}", which declares ${name}`,
          kind: CodeActionKind.QuickFix,
          diagnostics: [diagnostic],
          edit: { changes: { [document.uri.toString()]: [edit] } },
        },
      ];
    });
  }
}

const samePlace = (a: Place['range'], b: Place['range']): boolean =>
  a.start.line === b.start.line &&
  a.start.character === b.start.character &&
  a.end.line === b.end.line &&
  a.end.character === b.end.character;

function matches(problem: Problem, diagnostic: Diagnostic): boolean {
  const message = typeof diagnostic.message === 'string' ? diagnostic.message : diagnostic.message.value;
  return (
    problem.rule === diagnostic.code &&
    samePlace(problem.place.range, diagnostic.range) &&
    message.endsWith(problem.message)
  );
}

function quickFix(fix: Fix, diagnostic: Diagnostic): CodeAction {
  return {
    title: fix.title,
    kind: CodeActionKind.QuickFix,
    diagnostics: [diagnostic],
    ...(fix.preferred ? { isPreferred: true } : {}),
    edit: workspaceEdit([fix]),
  };
}

function workspaceEdit(fixes: readonly Fix[]): WorkspaceEdit {
  const changes: Record<string, TextEdit[]> = {};
  for (const { place, text } of fixes.flatMap((fix) => fix.edits))
    (changes[place.file] ??= []).push({ range: place.range, newText: text });
  return { changes };
}

/** Every preferred repair of the safe rules, those that overlap left for the next time. */
function fixAll(problems: readonly Problem[]): CodeAction | undefined {
  const taken: Place[] = [];
  const fixes = problems
    .filter((problem) => problem.waived === null && SAFE.has(problem.rule))
    .flatMap((problem) => problem.fixes.find((fix) => fix.preferred) ?? [])
    .filter((fix) => {
      const free = fix.edits.every(({ place }) => !taken.some((other) => overlap(place, other)));
      if (free) taken.push(...fix.edits.map(({ place }) => place));
      return free;
    });
  if (fixes.length === 0) return undefined;
  return { title: 'Apply all safe repairs', kind: CodeActionKind.SourceFixAll, edit: workspaceEdit(fixes) };
}

function overlap(a: Place, b: Place): boolean {
  const before = (x: Place['range']['start'], y: Place['range']['start']): boolean =>
    x.line < y.line || (x.line === y.line && x.character < y.character);
  return a.file === b.file && before(a.range.start, b.range.end) && before(b.range.start, a.range.end);
}
