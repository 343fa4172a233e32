/**
 * Random syntax trees with their words, made by walking the grammar: whatever the grammar allows comes up, and nothing else.
 * A tree is a function of a tape of numbers; zeros make the smallest tree, so a failing tape shrinks well.
 */
import { AstUtils, GrammarAST, GrammarUtils, type Grammar } from 'langium';
import { keywordsOf, RESERVED } from '../../../src/language/parsing/tokens.js';
import { quote } from '../../../src/language/parsing/values.js';

/** A node with its type and features; references are the names they are written with. */
export type Plain = string | boolean | readonly Plain[] | { readonly [feature: string]: Plain };

export interface RandomTree {
  readonly tree: Plain;
  readonly words: readonly string[];
  /** Parser rules that took part, as often as they did. */
  readonly rules: readonly string[];
  /** The kinds of names that took part. */
  readonly names: readonly ('identifier' | 'keyword' | 'reserved')[];
  /** Why the text has an earlier reading; such a tree cannot be written. */
  readonly misread: readonly Misreading[];
}

/**
 * Where a clause is left out and what follows begins just like it, the text means the clause. The only places of the grammar
 * where that can be; each is explained by the message that the reader then gets.
 */
export type Misreading =
  'a unit left out before a plain word' | 'sealed, after a port' | 'od, after a captive tail';

type Node = Record<string, Plain> & { $type: string };

const identifiers = [
  'a',
  'bow',
  'plotter',
  'm',
  'A',
  'V',
  'h',
  'mm2',
  'größe',
  'Ωm',
  '_x1',
  'e5',
  'chart',
  'at1',
  'inflow',
  'zoneB',
];
const numbers = ['0', '1', '12', '2.5', '400', '0.75'];
const texts = ['', 'a', 'Two "words"', 'back\\slash', '// no comment', 'größer'];
const terminals: Readonly<Record<string, readonly string[]>> = {
  ID: identifiers,
  NUMBER: numbers,
  AUGHT: ['1/0', '2/0', '4/0'],
  DATE: ['2027-04-01', '1999-12-31'],
  RULECODE: ['cable/not-sealed', 'net/x', 'a1/b2-c'],
};

/** Longest repetition of one element. */
const MOST = 3;

export class TreeMaker {
  private readonly free: readonly string[];
  private readonly rules = new Map<string, GrammarAST.ParserRule>();
  private readonly reached = new Reached();

  constructor(grammar: Grammar) {
    const words = keywordsOf(grammar).filter((word) => /^[a-z]/.test(word));
    this.free = words.filter((word) => !RESERVED.some((reserved) => reserved === word));
    for (const rule of grammar.rules) if (GrammarAST.isParserRule(rule)) this.rules.set(rule.name, rule);
  }

  /** Names of every parser rule. */
  get ruleNames(): readonly string[] {
    return [...this.rules.keys()];
  }

  /** The tree that a tape spells, from a rule. */
  make(tape: readonly number[], from = 'Spec'): RandomTree {
    const rule = this.rules.get(from);
    if (!rule) throw new Error(`The grammar has no parser rule ${from}.`);
    const names = this.ruleNames;
    const walk = new Walk(tape, this.free, names[(tape[0] ?? 0) % names.length] ?? from, this.reached);
    const tree = walk.node(rule);
    return { tree, words: walk.words, rules: walk.rules, names: walk.names, misread: walk.misread };
  }
}

/** Which rules each part of the grammar can lead to. */
class Reached {
  private readonly known = new Map<GrammarAST.AbstractElement, ReadonlySet<string>>();

  from(element: GrammarAST.AbstractElement): ReadonlySet<string> {
    const known = this.known.get(element);
    if (known) return known;
    const found = new Set<string>();
    this.known.set(element, found);
    for (const node of AstUtils.streamAst(element)) {
      const rule = GrammarAST.isRuleCall(node) ? node.rule.ref : undefined;
      if (!GrammarAST.isParserRule(rule)) continue;
      found.add(rule.name);
      for (const name of this.from(rule.definition)) found.add(name);
    }
    return found;
  }
}

class Walk {
  readonly words: string[] = [];
  readonly rules: string[] = [];
  readonly names: RandomTree['names'][number][] = [];
  readonly misread: Misreading[] = [];
  /** What the next word would be taken for. */
  private open: { readonly reading: Misreading; readonly takes: (word: string) => boolean }[] = [];
  private at = 0;

  constructor(
    private readonly tape: readonly number[],
    private readonly free: readonly string[],
    /** The way leads to this rule first, so that rare rules come up as often as others. */
    private goal: string | undefined,
    private readonly reached: Reached,
  ) {
    this.choose(1);
  }

  private leads(element: GrammarAST.AbstractElement): boolean {
    return this.goal !== undefined && this.reached.from(element).has(this.goal);
  }

  private enter(rule: GrammarAST.ParserRule): void {
    this.rules.push(rule.name);
    if (rule.name === this.goal) this.goal = undefined;
  }

  private alternative(element: GrammarAST.Alternatives): GrammarAST.AbstractElement {
    const leading = element.elements.filter((part) => this.leads(part));
    return this.pick(leading.length > 0 ? leading : element.elements);
  }

  /** A number below `count` from the tape; zero when the tape is at its end. */
  private choose(count: number): number {
    return (this.tape[this.at++] ?? 0) % count;
  }

  private pick<T>(list: readonly T[]): T {
    const picked = list[this.choose(list.length)];
    if (picked === undefined) throw new Error('Nothing to pick from.');
    return picked;
  }

  node(rule: GrammarAST.ParserRule): Plain {
    this.enter(rule);
    const type = rule.inferredType?.name ?? rule.returnType?.ref?.name ?? rule.name;
    return this.into(rule.definition, { $type: type });
  }

  private into(element: GrammarAST.AbstractElement, node: Node): Node {
    let result = node;
    const times = this.count(element);
    for (let count = times; count > 0; count--) result = this.once(element, result);
    this.leaveOpen(element, times);
    return result;
  }

  private leaveOpen(element: GrammarAST.AbstractElement, times: number): void {
    const feature = GrammarAST.isAssignment(element) ? element.feature : undefined;
    const keyword =
      GrammarAST.isGroup(element) && GrammarAST.isKeyword(element.elements[0])
        ? element.elements[0].value
        : undefined;
    if (feature === 'unit' && times === 0) {
      const inch = AstUtils.streamAst(element).some(
        (node) => GrammarAST.isKeyword(node) && node.value === 'in',
      );
      const takes = (word: string): boolean =>
        word === '%' || (inch && word === 'in') || identifiers.includes(word.normalize('NFC'));
      this.open.push({ reading: 'a unit left out before a plain word', takes });
    }
    if (feature === 'features')
      this.open.push({ reading: 'sealed, after a port', takes: (word) => word === 'sealed' });
    if (keyword === 'od' && times === 0)
      this.open.push({ reading: 'od, after a captive tail', takes: (word) => word === 'od' });
  }

  private push(word: string): void {
    for (const { reading, takes } of this.open) if (takes(word)) this.misread.push(reading);
    this.open = [];
    this.words.push(word);
  }

  private count(element: GrammarAST.AbstractElement): number {
    const { cardinality } = element;
    const least = this.leads(element) ? 1 : 0;
    return Math.max(least, this.anyCount(cardinality));
  }

  private anyCount(cardinality: GrammarAST.AbstractElement['cardinality']): number {
    if (cardinality === '?') return this.choose(2);
    if (cardinality === '*') return this.choose(MOST + 1);
    if (cardinality === '+') return 1 + this.choose(MOST);
    return 1;
  }

  private once(element: GrammarAST.AbstractElement, node: Node): Node {
    if (GrammarAST.isKeyword(element)) this.push(element.value);
    else if (GrammarAST.isGroup(element))
      return element.elements.reduce((made, part) => this.into(part, made), node);
    else if (GrammarAST.isAlternatives(element)) return this.into(this.alternative(element), node);
    else if (GrammarAST.isAction(element))
      return { ...node, $type: element.inferredType?.name ?? element.type?.ref?.name ?? '' };
    else if (GrammarAST.isAssignment(element)) return this.assigned(element, node);
    else if (GrammarAST.isRuleCall(element) && GrammarAST.isParserRule(element.rule.ref)) {
      const made = this.node(element.rule.ref);
      if (typeof made === 'object' && !Array.isArray(made)) return { ...node, ...(made as Node) };
    } else throw new Error(`Cannot make ${element.$type}.`);
    return node;
  }

  private assigned(element: GrammarAST.Assignment, node: Node): Node {
    const value = this.value(element.terminal);
    if (element.operator === '?=') return { ...node, [element.feature]: true };
    if (element.operator === '=') return { ...node, [element.feature]: value };
    const before = node[element.feature];
    return { ...node, [element.feature]: [...(Array.isArray(before) ? (before as Plain[]) : []), value] };
  }

  private value(element: GrammarAST.AbstractElement): Plain {
    if (GrammarAST.isKeyword(element)) {
      this.push(element.value);
      return element.value;
    }
    if (GrammarAST.isAlternatives(element)) return this.value(this.alternative(element));
    if (GrammarAST.isCrossReference(element)) return element.terminal ? this.value(element.terminal) : '';
    if (!GrammarAST.isRuleCall(element)) throw new Error(`Cannot make a value of ${element.$type}.`);
    const rule = element.rule.ref;
    if (GrammarAST.isTerminalRule(rule)) return this.terminal(rule.name);
    if (!GrammarAST.isParserRule(rule))
      throw new Error('A call of a rule that is neither parsed nor a terminal.');
    if (!GrammarUtils.isDataTypeRule(rule)) return this.node(rule);
    this.enter(rule);
    return this.text(rule.definition);
  }

  /** The text of a rule that makes a string of several tokens. */
  private text(element: GrammarAST.AbstractElement): string {
    let result = '';
    for (let count = this.count(element); count > 0; count--) {
      if (GrammarAST.isGroup(element)) result += element.elements.map((part) => this.text(part)).join('');
      else if (GrammarAST.isAlternatives(element)) result += this.text(this.alternative(element));
      else result += this.string(element);
    }
    return result;
  }

  private string(element: GrammarAST.AbstractElement): string {
    const value = this.value(element);
    if (typeof value !== 'string') throw new Error('Only text can be part of a text.');
    return value;
  }

  private terminal(name: string): string {
    if (name === 'STRING') {
      const text = this.pick(texts);
      this.push(quote(text));
      return text;
    }
    const word =
      name === 'NAME' || name === 'ANYNAME'
        ? this.name(name === 'ANYNAME')
        : this.pick(terminals[name] ?? []);
    this.push(word);
    return word.normalize('NFC');
  }

  private name(any: boolean): string {
    const kind = this.choose(any ? 5 : 4);
    if (kind < 2) {
      this.names.push('identifier');
      const word = this.pick(identifiers);
      return kind === 1 ? word.normalize('NFD') : word;
    }
    this.names.push(kind === 4 ? 'reserved' : 'keyword');
    return this.pick(kind === 4 ? RESERVED : this.free);
  }
}

/** A syntax tree without everything that depends on the text's layout, nor what is empty or false. */
export function plainTree(node: object): Plain {
  const result: Record<string, Plain> = {};
  for (const [key, value] of Object.entries(node) as [string, unknown][]) {
    if (key.startsWith('$') && key !== '$type') continue;
    const plain = plainValue(value);
    if (plain !== undefined) result[key] = plain;
  }
  return result;
}

function plainValue(value: unknown): Plain | undefined {
  if (Array.isArray(value))
    return value.length === 0 ? undefined : value.map((item) => plainValue(item) ?? '');
  if (typeof value === 'string') return value;
  if (value === true) return true;
  if (typeof value !== 'object' || value === null) return undefined;
  return '$refText' in value ? String(value.$refText) : plainTree(value);
}

const glued: ReadonlySet<string> = new Set([',', ':', '{', '}', '->', '--', '.', '..', '+', '%']);
const separators = [' ', '  ', '\n', '\t ', '\r\n', '\n\n  ', ' /* c */ ', ' // c\n', '\n/// doc\n'];

/** Writes words with white space, line ends and comments from a tape; without line ends, in one line. */
export function write(words: readonly string[], tape: readonly number[] | undefined): string {
  let text = '';
  words.forEach((word, index) => {
    const before = words[index - 1];
    if (before === undefined) text += word;
    else {
      const choice = tape?.[index % tape.length] ?? 0;
      const mayTouch = glued.has(before) || glued.has(word);
      const separator = tape ? separators[choice % separators.length] : ' ';
      text += (mayTouch && choice % 3 === 1 ? '' : (separator ?? ' ')) + word;
    }
  });
  return text;
}
