/** Names declared twice, and names that lead nowhere. */
import { AstUtils, type AstNode, type LangiumDocument, type LinkingError, type ReferenceInfo } from 'langium';
import * as ast from '../generated/ast.js';
import type { Closure, Closures } from '../naming/closures.js';
import type { Declared, FileFacts, Namespace } from '../naming/facts.js';
import { nearest } from '../naming/nearest.js';
import { addedBy, portNames } from '../naming/scopes.js';
import { MOST_FINDINGS } from '../parsing/limits.js';
import type { Problem } from '../project/report.js';
import type { Diagnosing } from './document.js';
import { article, either, placeOf, placeOfCst, plural, problem, replaceFix } from './problem.js';

/** What messages call the thing that a reference wants. */
const KINDS: Readonly<Record<string, string>> = {
  ZoneDecl: 'zone',
  RunDecl: 'run',
  DeviceDecl: 'device',
  BackboneDecl: 'backbone',
  ModeDecl: 'mode',
  DayDecl: 'day',
  OptionDecl: 'option',
  ModelDecl: 'model',
  CableDecl: 'cable',
  FamilyDecl: 'family',
  SignalDecl: 'signal',
  MediumDecl: 'medium',
  ClassDecl: 'class',
  ExposureDecl: 'exposure',
  FuseTypeDecl: 'fuse type',
  VesselDecl: 'vessel',
  PortItem: 'port',
  PositionDecl: 'position',
  Sourced: 'device or signal',
};

// ---------------------------------------------------------------- duplicates

export function duplicateProblems(document: LangiumDocument, closures: Closures): Problem[] {
  const facts = closures.facts(document);
  const closure = closures.closureOf(facts.uri);
  if (!closure) return [];
  return facts.kind === 'library' ? [] : crossFile(facts, closure);
}

/** Duplicates of names in the closure, at the file's own declarations or, for catalogues that clash, at its `use`. */
function crossFile(facts: FileFacts, closure: Closure): Problem[] {
  const problems: Problem[] = [];
  const kinds = new Map(closure.facts.map((file) => [file.uri, file.kind]));
  const isShared = (node: AstNode): boolean => {
    const kind = kinds.get(AstUtils.getDocument(node).uri.toString());
    return kind === 'catalogue' || kind === 'library';
  };
  for (const [name, nodes] of namesGivenTwice(closure)) {
    const own = nodes.filter((node) => AstUtils.getDocument(node).uri.toString() === facts.uri);
    for (const node of own) {
      // A catalogue only speaks of what its own closure shows; here the closure is the boat's, or its own.
      const other = nodes.find(
        (n) => n !== node && (facts.kind !== 'catalogue' || closure.root === facts.uri),
      );
      if (other) problems.push(duplicate(name, node, other));
    }
    if (own.length === 0 && facts.uri === closure.root && closure.vessel && nodes.every(isShared)) {
      const clash = clashAtUse(name, nodes, facts, closure);
      if (clash) problems.push(clash);
    }
  }
  return problems;
}

const givenTwice = new WeakMap<Closure, (readonly [string, readonly Declared[]])[]>();

/** Names of a closure with several declarations; sought once, not for each of its files. */
function namesGivenTwice(closure: Closure): (readonly [string, readonly Declared[]])[] {
  let found = givenTwice.get(closure);
  if (!found) {
    found = (Object.keys(closure.names) as Namespace[]).flatMap((space) =>
      [...closure.names[space]].filter(([, nodes]) => nodes.length > 1),
    );
    givenTwice.set(closure, found);
  }
  return found;
}

function duplicate(name: string, node: Declared, other: Declared): Problem {
  const kind = KINDS[other.$type] ?? 'thing';
  const message =
    node.$type === other.$type
      ? `There are two ${plural(kind)} named ${name}. Give one of them another name.`
      : `${name} is the name of ${article(kind)} already, and they share one namespace. Give one of them another name.`;
  return problem('type/duplicate', message, placeOf(node, 'name'), {
    related: [{ place: placeOf(other, 'name'), message: `the other ${name} is declared here` }],
  });
}

/** Two shared files that declare the same name: said once, where the boat uses the later one. */
function clashAtUse(
  name: string,
  nodes: readonly Declared[],
  facts: FileFacts,
  closure: Closure,
): Problem | undefined {
  const files = [...new Set(nodes.map((node) => AstUtils.getDocument(node).uri.toString()))];
  const first = nodes[0];
  const last = nodes.find((node) => AstUtils.getDocument(node).uri.toString() === files[files.length - 1]);
  if (files.length < 2 || !first || !last || closure.vessel === undefined) return undefined;
  const use = facts.uses.find((u) => u.target.uri?.toString() === files[files.length - 1]) ?? facts.uses[0];
  if (!use) return undefined;
  return problem(
    'type/duplicate',
    `Two catalogues that ${closure.vessel.name} uses declare ${name}. Rename one, or use only one of them.`,
    placeOf(use.node, 'path'),
    {
      related: [
        { place: placeOf(first, 'name'), message: `${name} is declared here` },
        { place: placeOf(last, 'name'), message: `and here` },
      ],
    },
  );
}

/** Ports, positions and panes of one declaration, and what an option adds. */
export function repeatedInside(statement: ast.Statement): Problem[] {
  const problems: Problem[] = [];
  const check = (what: string, named: Iterable<readonly [string, AstNode]>): void => {
    const seen = new Map<string, AstNode>();
    for (const [name, node] of named) {
      const before = seen.get(name);
      if (before && before !== node)
        problems.push(
          problem(
            'type/duplicate',
            `There are two ${plural(what)} named ${name} here. Give one of them another name.`,
            placeOf(node),
            {
              related: [{ place: placeOf(before), message: `the other ${name}` }],
            },
          ),
        );
      else seen.set(name, node);
    }
  };
  if (ast.isModelDecl(statement)) {
    check(
      'port',
      [...portNames(statement)].map(([name, item]) => [name, item] as const),
    );
    check(
      'position',
      statement.properties
        .flatMap((p) => (ast.isPositionsProperty(p) ? p.positions : []))
        .map((p) => [p.name, p] as const),
    );
  }
  if (ast.isViewDecl(statement))
    check(
      'pane',
      statement.panes.map((p) => [p.name, p] as const),
    );
  if (ast.isOptionDecl(statement)) {
    check(
      'added thing',
      statement.edits.flatMap((edit) => {
        const d = ast.isAddEdit(edit) ? edit.declaration : undefined;
        return d && 'name' in d && d.name ? [[d.name, d] as const] : [];
      }),
    );
  }
  return problems;
}

/** What an option adds under a name that the base has: nothing is redeclared. */
export function optionProblems(document: LangiumDocument, closure: Closure | undefined): Problem[] {
  if (!closure) return [];
  return (document.parseResult.value as ast.Spec).statements.filter(ast.isOptionDecl).flatMap((option) =>
    [...addedBy(option)].flatMap(([name, node]) => {
      const base = closure.names.aboard.get(name)?.[0];
      if (!base) return [];
      const message = `${name} is aboard already; an option redeclares nothing. Add it under another name, or "change" or "remove" what is there.`;
      return [
        problem('type/duplicate', message, placeOf(node, 'name'), {
          related: [{ place: placeOf(base, 'name'), message: `${name} is declared here` }],
        }),
      ];
    }),
  );
}

// ---------------------------------------------------------------- unknown names

/** Names that lead nowhere, but for those on a line with a syntax error, whose echo they are. */
export function unknownNames(
  document: LangiumDocument,
  by: Pick<Diagnosing, 'closures' | 'namesAt' | 'typeOf'>,
  syntaxErrors: ReadonlySet<number>,
): Problem[] {
  const closure = by.closures.closureOf(document.uri.toString());
  if (!closure) return [];
  const errors = document.references
    .flatMap(({ error }) => (error ? [error] : []))
    .filter(({ info }) => !syntaxErrors.has(info.reference.$refNode?.range.start.line ?? 0))
    .sort((a, b) => offsetOf(a) - offsetOf(b));
  const problems: Problem[] = [];
  for (const { info } of errors) {
    const type = by.typeOf(info);
    const text = info.reference.$refText;
    const inMissing = closure.missing.length > 0 && !BUNDLED.has(type);
    if (closure.suspended.has(text) || inMissing || hangsOnUnknown(info, type)) continue;
    // No more than these are listed; to look for the nearest name of ten thousand takes a minute.
    const known = problems.length < MOST_FINDINGS ? [...by.namesAt(info)] : [];
    problems.push(unknownName(info, type, closure, known));
  }
  return problems;
}

const offsetOf = ({ info }: LinkingError): number => info.reference.$refNode?.offset ?? 0;

/** What no missing file could declare: only the library does, or a model that is there. */
const BUNDLED: ReadonlySet<string> = new Set([
  'MediumDecl',
  'ClassDecl',
  'ExposureDecl',
  'FuseTypeDecl',
  'PortItem',
  'PositionDecl',
  'VesselDecl',
]);

function unknownName(info: ReferenceInfo, type: string, closure: Closure, known: readonly string[]): Problem {
  const text = info.reference.$refText;
  const place = placeOfCst(AstUtils.getDocument(info.container).uri.toString(), info.reference.$refNode);
  const kind = KINDS[type] ?? 'thing';
  const meant = nearest(text, known);
  const fixes = meant ? [replaceFix(`Change to ${meant}`, place, meant)] : [];
  const elsewhere = [closure.names.aboard, closure.names.goods, closure.names.signal]
    .map((space) => space.get(text)?.[0])
    .find((node) => node !== undefined);
  let message: string;
  if (elsewhere && KINDS[elsewhere.$type] !== kind) {
    message = `${text} is ${article(KINDS[elsewhere.$type] ?? 'thing')}, and ${article(kind)} is wanted here.`;
    return problem('type/unknown-name', meant ? `${message} Did you mean ${meant}?` : message, place, {
      fixes,
      related: [{ place: placeOf(elsewhere, 'name'), message: `${text} is declared here` }],
    });
  }
  if (type === 'PortItem') message = portMessage(info, text, known);
  else if (known.length > 0 && known.length <= 8 && !meant)
    message = `There is no ${kind} ${text}. Here ${either(known)} is meant.`;
  else
    message = `There is no ${kind} ${text}${ast.isSourceRef(info.container) && info.property === 'tail' ? ` of ${info.container.head.$refText}` : ''}.`;
  if (meant) message += ` Did you mean ${meant}?`;
  else if (known.length === 0 && type !== 'PortItem') message += ` No ${kind} is declared here yet.`;
  return problem('type/unknown-name', message, place, { fixes });
}

function portMessage(info: ReferenceInfo, text: string, known: readonly string[]): string {
  const device = ast.isEnd(info.container) ? info.container.device.$refText : 'The model';
  if (known.length === 0) return `${device} has no ports.`;
  const shown = known.length > 12 ? [...known.slice(0, 12), '...'] : known;
  return `${device} has no port ${text}. Its ports are ${shown.join(', ')}.`;
}

/** A port, a position or a signal's tail can't be judged while the name before it leads nowhere. */
function hangsOnUnknown(info: ReferenceInfo, type: string): boolean {
  const node = info.container;
  if (type === 'PortItem' && ast.isEnd(node)) return node.device.ref?.models[0]?.ref === undefined;
  if (type === 'PositionDecl') {
    const device = ast.isSetDuty(node)
      ? node.device.ref
      : AstUtils.getContainerOfType(node, ast.isDeviceDecl);
    return device?.models[0]?.ref === undefined;
  }
  return ast.isSourceRef(node) && info.property === 'tail' && node.head.ref === undefined;
}
