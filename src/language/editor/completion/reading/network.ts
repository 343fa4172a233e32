/**
 * The grammar as a network of states, one for each rule, so that a text can be read up to any place and asked what may come
 * next. The parser cannot be asked that: it commits itself, and recovers where the cursor stands.
 */
import { GrammarAST, GrammarUtils } from 'langium';

/** What a token must be: a keyword, or a terminal by its name. */
export type Match = { readonly keyword: string } | { readonly terminal: string };

export type Edge =
  | {
      readonly kind: 'token';
      readonly match: Match;
      readonly property: string | undefined;
      readonly to: State;
    }
  | {
      readonly kind: 'call';
      readonly rule: RuleNetwork;
      readonly property: string | undefined;
      readonly to: State;
    }
  /** Takes no token; where `type` is given, what is being read is of that type from here on. */
  | { readonly kind: 'free'; readonly type: string | undefined; readonly to: State };

export interface State {
  readonly id: number;
  readonly edges: readonly Edge[];
  /** The end of its rule. */
  final: boolean;
}

export interface RuleNetwork {
  readonly name: string;
  /** The type of node that the rule makes. */
  readonly type: string;
  /** Makes one text of its tokens, and no node. */
  readonly isText: boolean;
  readonly start: State;
}

interface MutableState {
  readonly id: number;
  edges: Edge[];
  final: boolean;
}

let states = 0;
const state = (): MutableState => ({ id: states++, edges: [], final: false });

/** The network of the grammar's entry rule, and through its calls of every other. */
export function networkOf(grammar: GrammarAST.Grammar): RuleNetwork {
  const networks = new Map<GrammarAST.ParserRule, RuleNetwork>();
  const entry = GrammarUtils.getEntryRule(grammar);
  if (!entry) throw new Error('The grammar has no entry rule.');
  return ruleNetwork(entry, networks);
}

type Networks = Map<GrammarAST.ParserRule, RuleNetwork>;

function ruleNetwork(rule: GrammarAST.ParserRule, networks: Networks): RuleNetwork {
  const known = networks.get(rule);
  if (known) return known;
  const start = state();
  const network = {
    name: rule.name,
    type: GrammarUtils.getExplicitRuleType(rule) ?? rule.name,
    isText: GrammarUtils.isDataTypeRule(rule),
    start,
  };
  networks.set(rule, network);
  build(rule.definition, undefined, start, networks).final = true;
  return network;
}

/** Adds an element behind a state and gives the state behind the element. */
function build(
  element: GrammarAST.AbstractElement,
  property: string | undefined,
  from: MutableState,
  networks: Networks,
): MutableState {
  const { cardinality } = element;
  if (cardinality === undefined) return buildOnce(element, property, from, networks);
  const entry = state();
  free(from, entry);
  const end = buildOnce(element, property, entry, networks);
  const exit = state();
  free(end, exit);
  if (cardinality !== '?') free(end, entry);
  if (cardinality !== '+') free(entry, exit);
  return exit;
}

function buildOnce(
  element: GrammarAST.AbstractElement,
  property: string | undefined,
  from: MutableState,
  networks: Networks,
): MutableState {
  if (GrammarAST.isGroup(element))
    return element.elements.reduce((at, child) => build(child, property, at, networks), from);
  const to = state();
  if (GrammarAST.isAlternatives(element)) {
    for (const child of element.elements) free(build(child, property, from, networks), to);
  } else if (GrammarAST.isAssignment(element)) {
    free(build(element.terminal, element.feature, from, networks), to);
  } else if (GrammarAST.isCrossReference(element)) {
    if (!element.terminal) throw new Error('A reference of the grammar has no terminal.');
    free(build(element.terminal, property, from, networks), to);
  } else if (GrammarAST.isAction(element)) {
    free(from, to, GrammarUtils.getTypeName(element));
  } else if (GrammarAST.isKeyword(element)) {
    from.edges.push({ kind: 'token', match: { keyword: element.value }, property, to });
  } else if (GrammarAST.isRuleCall(element)) {
    const rule = element.rule.ref;
    if (GrammarAST.isParserRule(rule))
      from.edges.push({ kind: 'call', rule: ruleNetwork(rule, networks), property, to });
    else from.edges.push({ kind: 'token', match: { terminal: element.rule.$refText }, property, to });
  } else {
    throw new Error(`Completion does not know the grammar's ${element.$type}.`);
  }
  return to;
}

function free(from: MutableState, to: MutableState, type?: string): void {
  from.edges.push({ kind: 'free', type, to });
}

const firsts = new WeakMap<RuleNetwork, ReadonlySet<string>>();

/** Keywords and terminals that a rule can begin with. No rule that others call is empty. */
export function firstOf(rule: RuleNetwork): ReadonlySet<string> {
  let first = firsts.get(rule);
  if (!first) firsts.set(rule, (first = new Set(firstFrom(rule.start, new Set()))));
  return first;
}

function* firstFrom(from: State, seen: Set<State>): Iterable<string> {
  if (seen.has(from)) return;
  seen.add(from);
  for (const edge of from.edges)
    if (edge.kind === 'free') yield* firstFrom(edge.to, seen);
    else if (edge.kind === 'call') yield* firstOf(edge.rule);
    else yield 'keyword' in edge.match ? edge.match.keyword : edge.match.terminal;
}
