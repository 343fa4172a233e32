/** Compares the colours of a text with what the parser takes its tokens for. */
import { AstUtils, CstUtils, EmptyFileSystem, GrammarAST, isLeafCstNode, type LeafCstNode } from 'langium';
import type { IGrammar } from 'vscode-textmate';
import { createCoreServices } from '../../src/language/module.js';
import { colour, innermost, type Coloured } from './colours.js';

const parser = createCoreServices(EmptyFileSystem).Wireloft.parser.LangiumParser;

type Kind = 'keyword' | 'name' | 'unit' | 'number' | 'date' | 'string' | 'rule' | 'sign' | 'comment';

/** What the parser took a token for. */
function parsedKind(leaf: LeafCstNode): Kind {
  if (leaf.hidden) return 'comment';
  const source = leaf.grammarSource;
  const rule = source && AstUtils.getContainerOfType(source, GrammarAST.isParserRule)?.name;
  if (GrammarAST.isKeyword(source)) {
    if (/^(?:Unit|Length|Offset)$/.test(rule ?? '') && /^(?:in|%)$/.test(leaf.text)) return 'unit';
    return /^\w/.test(leaf.text) ? 'keyword' : 'sign';
  }
  if (rule === 'Unit') return 'unit';
  if (source?.$container && GrammarAST.isAssignment(source.$container)) {
    const { feature } = source.$container;
    if (feature === 'unit' || feature === 'per') return 'unit';
  }
  const terminal =
    source && GrammarAST.isRuleCall(source) ? source.rule.ref?.name : leaf.tokenType.name.replace(/ .*/, '');
  switch (terminal) {
    case 'NUMBER':
    case 'AUGHT':
      return 'number';
    case 'DATE':
      return 'date';
    case 'STRING':
      return 'string';
    case 'RULECODE':
      return 'rule';
    default:
      return 'name';
  }
}

const kinds: readonly (readonly [RegExp, Kind])[] = [
  [/^comment\./, 'comment'],
  [/^(?:string\.|constant\.character\.escape|punctuation\.definition\.string)/, 'string'],
  [/^constant\.numeric\.date/, 'date'],
  [/^constant\.numeric/, 'number'],
  [/^constant\.other\.rule/, 'rule'],
  [/^keyword\.other\.unit/, 'unit'],
  [/^(?:keyword\.operator|punctuation)\./, 'sign'],
  [/^(?:keyword|storage|support\.type\.property-name)/, 'keyword'],
  [/^(?:entity\.name|variable\.other|support\.(?:type|constant))/, 'name'],
];

/** What a reader takes it for by its colour. */
function colouredKind(token: Coloured): Kind | undefined {
  if (token.scopes.some((scope) => scope.startsWith('comment.'))) return 'comment';
  return kinds.find(([pattern]) => pattern.test(innermost(token)))?.[1];
}

/** How the colours of a text compare with its parse. */
export interface Agreement {
  /** The parser's own complaints; the comparison is worth nothing if there are any. */
  readonly errors: readonly string[];
  /** How many tokens were compared. */
  readonly count: number;
  /** Every token whose colour says something else than the parser, with its place. */
  readonly wrong: readonly string[];
}

/** Parses and colours a text, and compares the two token by token. */
export function agreement(grammar: IGrammar, text: string): Agreement {
  const { value, parserErrors, lexerErrors } = parser.parse(text);
  const lines = linesOf(colour(grammar, text));
  const wrong: string[] = [];
  let count = 0;
  const leaves = value.$cstNode ? CstUtils.streamCst(value.$cstNode).filter(isLeafCstNode) : [];
  for (const leaf of leaves) {
    const { line, character } = leaf.range.start;
    const token = lines.get(line)?.find((it) => it.start <= character && character < it.end);
    count++;
    if (!agrees(parsedKind(leaf), token)) {
      const place = `${String(line + 1)}:${String(character + 1)}`;
      const scopes = token?.scopes.slice(1).join(' ') ?? 'nothing';
      wrong.push(`${place} ${leaf.text} is a ${parsedKind(leaf)}, coloured as ${scopes}`);
    }
  }
  return { errors: [...lexerErrors, ...parserErrors].map((error) => error.message), count, wrong };
}

function linesOf(tokens: readonly Coloured[]): ReadonlyMap<number, readonly Coloured[]> {
  const lines = new Map<number, Coloured[]>();
  for (const token of tokens) {
    const line = lines.get(token.line);
    if (line) line.push(token);
    else lines.set(token.line, [token]);
  }
  return lines;
}

function agrees(parsed: Kind, token: Coloured | undefined): boolean {
  if (!token) return false;
  // The number of a port after a dot is its name.
  if (parsed === 'number' && innermost(token).startsWith('variable.other.member')) return true;
  return colouredKind(token) === parsed;
}
