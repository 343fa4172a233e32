/** Code actions: the repairs that findings carry, waivers with a reason, and all safe repairs at once. */
import { AstUtils, CstUtils, type AstNode, type LangiumDocument, type MaybePromise } from 'langium';
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
import type { Variants } from '../analysis/variants.js';
import { addUse } from '../diagnosis/addUse.js';
import * as ast from '../generated/ast.js';
import { headEnd } from '../lowering/places.js';
import type { Closures } from '../naming/closures.js';
import { relativePath } from '../naming/paths.js';
import { quote } from '../parsing/values.js';
import type { Fix, Problem } from '../project/report.js';
import { messageOf } from './diagnostics.js';
import type { WireloftValidator } from './validator.js';

/** Kind of the action that applies every safe repair; a client that asks for `source.fixAll` gets it as well. */
const FIX_ALL = `${CodeActionKind.SourceFixAll}.wireloft`;

/** The kinds of actions there are. */
export const ACTION_KINDS: readonly string[] = [CodeActionKind.QuickFix, FIX_ALL];

/** Rules whose preferred repair changes nothing that the boat means: `source.fixAll` applies these alone. */
const SAFE: ReadonlySet<string> = new Set(['syntax', 'type/unit']);

/** Safe as well, but only in a boat that is read whole: what a waiver is for may not be found while a name in it is unknown. */
const UNUSED = 'allow/unused';

export class WireloftCodeActionProvider implements CodeActionProvider {
  constructor(
    private readonly validator: () => WireloftValidator,
    private readonly analyses: Analyses,
    private readonly variants: Variants,
    private readonly closures: Closures,
  ) {}

  getCodeActions(
    document: LangiumDocument,
    params: CodeActionParams,
  ): MaybePromise<CodeAction[] | undefined> {
    const only = params.context.only;
    const covers = (kind: string): boolean =>
      only?.some((asked) => kind === asked || kind.startsWith(`${asked}.`)) === true;
    // Problems are taken anew rather than from the diagnostics: some clients drop what travels with those.
    const problems = this.validator().problems(document);
    const actions: CodeAction[] = [];
    if (only === undefined || covers(CodeActionKind.QuickFix))
      for (const diagnostic of params.context.diagnostics) {
        const problem = problems.find((p) => matches(p, diagnostic));
        if (problem?.waived !== null) continue;
        actions.push(...problem.fixes.map((fix) => quickFix(fix, diagnostic)));
        actions.push(
          ...this.missingUse(problem, diagnostic, document),
          ...this.waiver(problem, diagnostic, document),
        );
      }
    // Actions on the whole source are for those who ask: on saving, or in a menu of their own.
    if (covers(FIX_ALL)) {
      const all = fixAll(
        problems.filter(({ rule }) => SAFE.has(rule) || (rule === UNUSED && this.isWhole(document))),
      );
      if (all) actions.push(all);
    }
    return actions;
  }

  /** No file of the boat has a fault that hides something from the checks. */
  private isWhole(document: LangiumDocument): boolean {
    const files = this.closures.closureOf(document.uri.toString())?.documents ?? [document];
    return files.every((file) =>
      this.validator()
        .problems(file)
        .every(
          ({ rule, severity }) =>
            severity !== 'error' || !/^(syntax|encoding|limit|use|type)(\/|$)/.test(rule),
        ),
    );
  }

  /** A waiver with a reason at the end of the head of what the finding stands on, or of what encloses that. */
  private waiver(problem: Problem, diagnostic: Diagnostic, document: LangiumDocument): CodeAction[] {
    if (findRule(problem.rule)?.waivable !== true) return [];
    const node = this.waivable(problem, document);
    const end = node && headEnd(node)?.range.end;
    // A waiver of this rule that is there already no longer holds; that is a finding of its own.
    if (!end || node.allows.some((allow) => allow.rule === problem.rule)) return [];
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

  /** What a waiver of the problem can stand on: for what an option brings, something in the option or the option itself. */
  private waivable(problem: Problem, document: LangiumDocument): Waivable | undefined {
    const found = this.analyses.of(document.uri.toString());
    const { finding, option } = problem;
    if (!found || !finding) return undefined;
    if (option === null) return waivableNode(found.places.nodeOf(finding.at.origin));
    const lowered = this.variants.optionsOf(found).find((one) => one.option.name === option);
    const node = waivableNode(lowered?.places.nodeOf(finding.at.origin));
    return node && AstUtils.hasContainerOfType(node, (one) => one === lowered?.node) ? node : lowered?.node;
  }

  /** Uses of the catalogues under the root that declare a name which is unknown here; preferred where there is one way only. */
  private missingUse(problem: Problem, diagnostic: Diagnostic, document: LangiumDocument): CodeAction[] {
    if (problem.rule !== 'type/unknown-name') return [];
    const asked = referenceAt(document, problem.place.range.start);
    if (!asked) return [];
    const closure = this.closures.closureOf(document.uri.toString());
    const inside = new Set(closure?.facts.map((facts) => facts.uri));
    const declaring = this.closures.loadedFiles().flatMap((uri) => {
      const other = inside.has(uri) ? undefined : this.closures.document(uri);
      if (!other) return [];
      const { kind, names } = this.closures.facts(other);
      const declared = [...(names.goods.get(asked.name) ?? []), ...(names.signal.get(asked.name) ?? [])];
      return kind === 'catalogue' && declared.some((node) => ast.reflection.isSubtype(node.$type, asked.type))
        ? [relativePath(document.uri, other.uri)]
        : [];
    });
    const only = declaring.length === 1 && !problem.fixes.some((fix) => fix.preferred);
    return declaring.sort().map((path) =>
      quickFix(
        {
          title: `Add use "${path}", which declares ${asked.name}`,
          preferred: only,
          edits: [addUse(document, path)],
        },
        diagnostic,
      ),
    );
  }
}

type Waivable = AstNode & { readonly allows: readonly ast.Allow[] };

const isWaivable = (node: AstNode): node is Waivable => 'allows' in node;

/** The node itself where it takes waivers, else what encloses it: a view for its panes, a backbone for its items. */
function waivableNode(node: AstNode | undefined): Waivable | undefined {
  return node && (isWaivable(node) ? node : waivableNode(node.$container));
}

/** The name that is referred to at a position, and the type of what is wanted there. */
function referenceAt(
  document: LangiumDocument,
  { line, character }: Place['range']['start'],
): { readonly name: string; readonly type: string } | undefined {
  const root = document.parseResult.value.$cstNode;
  const leaf =
    root && CstUtils.findLeafNodeAtOffset(root, document.textDocument.offsetAt({ line, character }));
  if (!leaf) return undefined;
  for (const info of AstUtils.streamReferences(leaf.astNode)) {
    const cst = '$refNode' in info.reference ? info.reference.$refNode : undefined;
    if (cst && cst.offset <= leaf.offset && leaf.end <= cst.end)
      return { name: info.reference.$refText, type: ast.reflection.getReferenceType(info) };
  }
  return undefined;
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
    message === messageOf(problem)
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

/** Every preferred repair of these problems, those that overlap left for the next time. */
function fixAll(problems: readonly Problem[]): CodeAction | undefined {
  const taken: Place[] = [];
  const fixes = problems
    .filter((problem) => problem.waived === null)
    .flatMap((problem) => problem.fixes.find((fix) => fix.preferred) ?? [])
    .filter((fix) => {
      const free = fix.edits.every(({ place }) => !taken.some((other) => overlap(place, other)));
      if (free) taken.push(...fix.edits.map(({ place }) => place));
      return free;
    });
  if (fixes.length === 0) return undefined;
  return { title: 'Apply all safe repairs', kind: FIX_ALL, edit: workspaceEdit(fixes) };
}

function overlap(a: Place, b: Place): boolean {
  const before = (x: Place['range']['start'], y: Place['range']['start']): boolean =>
    x.line < y.line || (x.line === y.line && x.character < y.character);
  return a.file === b.file && before(a.range.start, b.range.end) && before(b.range.start, a.range.end);
}
