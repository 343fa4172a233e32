/**
 * Tokens. Names are a token category, so that a keyword can be a name wherever nothing else is meant, and the keyword that
 * begins a declaration, an item or a property becomes an *anchor* when it is first on its line: then it is no name, and
 * recovery after a typing error can hold on to it.
 */
import { Lexer, type IToken, type TokenType } from 'chevrotain';
import { DefaultTokenBuilder, GrammarAST, stream, type Grammar } from 'langium';
import { LETTERS, MARKS_AND_DIGITS } from './letters.js';
import { walk } from './walk.js';

/** Words that glue statements; they are names only where a name is the only possibility (ANYNAME). */
export const RESERVED = [
  'at',
  'using',
  'on',
  'in',
  'or',
  'from',
  'by',
  'because',
  'until',
  'allow',
  'with',
  'without',
  'others',
  'capped',
] as const;

const reserved: ReadonlySet<string> = new Set(RESERVED);
const isWord = (keyword: string): boolean => /^[a-z][a-z0-9]*$/.test(keyword);

/** Suffix of the token type that stands for an anchor keyword where it is not first on its line. */
const SOFT = ' (soft)';

export class WireloftTokenBuilder extends DefaultTokenBuilder {
  /** Keywords by their text. The lexer finds words, and which of them are keywords is looked up: a pattern for each takes longer. */
  private readonly words = new Map<string, TokenType>();
  /** Soft token type to its hard twin. */
  readonly hardTwin = new Map<TokenType, TokenType>();
  /** Types that recovery never deletes: anchors and braces. */
  readonly kept = new Set<TokenType>();

  override buildTokens(grammar: Grammar): TokenType[] {
    const terminals = this.buildTerminalTokens(stream(grammar.rules));
    const terminal = new Map(terminals.map((type) => [type.name, type]));
    const name = required(terminal, 'NAME');
    const anyName = required(terminal, 'ANYNAME');
    const id = required(terminal, 'ID');
    id.CATEGORIES = [name, anyName];

    const anchors = anchorKeywords(grammar);
    const keywords: TokenType[] = [];
    for (const keyword of keywordsOf(grammar)) {
      if (!isWord(keyword)) {
        const type = { name: keyword, PATTERN: keyword };
        if (keyword === '{' || keyword === '}') this.kept.add(type);
        keywords.push(type);
        continue;
      }
      const categories = reserved.has(keyword) ? [anyName] : [name, anyName];
      if (!anchors.has(keyword) || reserved.has(keyword)) {
        const type = { name: keyword, PATTERN: Lexer.NA, CATEGORIES: categories };
        this.words.set(keyword, type);
        keywords.push(type);
        continue;
      }
      const hard: TokenType = { name: keyword, PATTERN: Lexer.NA };
      const soft: TokenType = { name: keyword + SOFT, PATTERN: Lexer.NA, CATEGORIES: [hard, ...categories] };
      this.words.set(keyword, soft);
      this.hardTwin.set(soft, hard);
      this.kept.add(hard);
      keywords.push(hard, soft);
    }
    return [...keywords, ...terminals];
  }

  protected override buildTerminalToken(terminal: GrammarAST.TerminalRule): TokenType {
    if (terminal.name === 'NAME' || terminal.name === 'ANYNAME')
      return { name: terminal.name, PATTERN: Lexer.NA };
    if (terminal.name === 'ID')
      return {
        name: 'ID',
        PATTERN: new RegExp(`[_a-zA-Z${LETTERS}][_0-9a-zA-Z${LETTERS}${MARKS_AND_DIGITS}]*`),
        // Said here so that the lexer need not work it out of the pattern at each start.
        LINE_BREAKS: false,
        START_CHARS_HINT: wordStarts(),
      };
    return super.buildTerminalToken(terminal);
  }

  /** Tells keywords from other words. */
  spell(tokens: readonly IToken[]): void {
    for (const token of tokens) {
      const type = token.tokenType.name === 'ID' ? this.words.get(token.image) : undefined;
      if (type) retype(token, type);
    }
  }

  /** Makes anchors of the keywords that are first on their line and followed by a word, a string or a number. */
  anchor(tokens: readonly IToken[]): void {
    let line = 0;
    for (let i = 0; i < tokens.length; i++) {
      const token = tokens[i];
      if (!token) continue;
      const first = token.startLine !== line;
      line = token.startLine ?? line;
      if (!first) continue;
      const hard = this.hardTwin.get(token.tokenType);
      const next = tokens[i + 1];
      if (!hard || !next || !/^[\p{L}_"0-9]/u.test(next.image)) continue;
      retype(token, hard);
    }
  }
}

/** Codes of characters that a word may start with. The lexer takes those beyond Latin by blocks of 255, and tries the pattern on any. */
function wordStarts(): number[] {
  const codes: number[] = [];
  for (let code = 0; code <= 0xff; code++)
    if (/[_a-zA-Z]/.test(String.fromCharCode(code)) || code >= 0x80) codes.push(code);
  for (let code = 0x100; code < 0xffff; code += 0x80) codes.push(code);
  codes.push(0xffff);
  return codes;
}

function retype(token: IToken, type: TokenType): void {
  token.tokenType = type;
  if (type.tokenTypeIdx !== undefined) token.tokenTypeIdx = type.tokenTypeIdx;
}

function required(types: ReadonlyMap<string, TokenType>, name: string): TokenType {
  const type = types.get(name);
  if (!type) throw new Error(`The grammar has no terminal ${name}.`);
  return type;
}

/** Every keyword of the grammar, longest first. */
export function keywordsOf(grammar: Grammar): string[] {
  const words = new Set<string>();
  for (const rule of grammar.rules)
    if (GrammarAST.isParserRule(rule))
      walk(rule, (node) => {
        if (GrammarAST.isKeyword(node)) words.add(node.value);
      });
  return [...words].sort((a, b) => b.length - a.length || (a < b ? -1 : 1));
}

/** Rules that are repeated on their own, one after another: a file's statements, a block's properties and items. */
function itemRules(grammar: Grammar): GrammarAST.ParserRule[] {
  const rules = new Set<GrammarAST.ParserRule>();
  for (const rule of grammar.rules) {
    if (!GrammarAST.isParserRule(rule)) continue;
    walk(rule.definition, (node) => {
      if (!GrammarAST.isAssignment(node) || node.cardinality !== '*' || node.operator !== '+=') return;
      const target = GrammarAST.isRuleCall(node.terminal) ? node.terminal.rule.ref : undefined;
      if (GrammarAST.isParserRule(target) && (rule.entry || followsBrace(node))) rules.add(target);
    });
  }
  return [...rules];
}

function followsBrace(node: GrammarAST.Assignment): boolean {
  const group = node.$container;
  if (!GrammarAST.isGroup(group)) return false;
  const before = group.elements[group.elements.indexOf(node) - 1];
  return GrammarAST.isKeyword(before) && before.value === '{';
}

/** The keywords with which those items begin. */
function anchorKeywords(grammar: Grammar): ReadonlySet<string> {
  const words = new Set<string>();
  const seen = new Set<GrammarAST.AbstractRule>();
  const first = (element: GrammarAST.AbstractElement): void => {
    if (GrammarAST.isKeyword(element)) words.add(element.value);
    else if (GrammarAST.isAlternatives(element)) element.elements.forEach(first);
    else if (GrammarAST.isGroup(element)) {
      const head = element.elements.find((e) => !GrammarAST.isAction(e));
      if (head) first(head);
    } else if (GrammarAST.isAssignment(element)) first(element.terminal);
    else if (GrammarAST.isRuleCall(element)) {
      const rule = element.rule.ref;
      if (GrammarAST.isParserRule(rule) && !seen.has(rule)) {
        seen.add(rule);
        first(rule.definition);
      }
    }
  };
  for (const rule of itemRules(grammar)) first(rule.definition);
  return new Set([...words].filter(isWord));
}
