/**
 * The parser. A text is parsed with anchors first, which keeps a half-typed declaration from costing its neighbours; where that
 * finds errors it is parsed again without, and that tree is kept if it has none, so that line ends never change a valid text.
 */
import type { IToken, TokenType } from 'chevrotain';
import {
  createCompletionParser,
  createParser as buildRules,
  LangiumParser,
  type AstNode,
  type LangiumCompletionParser,
  type LangiumCoreServices,
  type ParseResult,
  type ParserOptions,
} from 'langium';
import { WireloftLexer } from './lexer.js';
import { passedLimit } from './limits.js';
import { WireloftTokenBuilder } from './tokens.js';

/** The part of chevrotain's recovery that is adjusted here. */
interface Recovering {
  LA(howMuch: number): IToken;
  canRecoverWithSingleTokenDeletion(expected: TokenType): boolean;
}

/** Recovery by deleting one token must leave anchors and braces alone: they belong to what comes next. */
function keepAnchors(parser: object, services: LangiumCoreServices): void {
  const { wrapper } = parser as { wrapper: Recovering };
  const tokens = services.parser.TokenBuilder;
  if (!(tokens instanceof WireloftTokenBuilder)) return;
  const standard = wrapper.canRecoverWithSingleTokenDeletion.bind(wrapper);
  wrapper.canRecoverWithSingleTokenDeletion = (expected) =>
    !tokens.kept.has(wrapper.LA(1).tokenType) && standard(expected);
}

export class WireloftParser extends LangiumParser {
  constructor(private readonly services: LangiumCoreServices) {
    super(services);
    keepAnchors(this, services);
  }

  override parse<T extends AstNode = AstNode>(input: string, options: ParserOptions = {}): ParseResult<T> {
    const text = passedLimit(input) ? '' : input;
    const first = super.parse<T>(text, options);
    const lexer = this.services.parser.Lexer;
    if (first.parserErrors.length === 0 || !(lexer instanceof WireloftLexer)) return first;
    lexer.anchored = false;
    try {
      const second = super.parse<T>(text, options);
      return second.parserErrors.length === 0 ? second : first;
    } finally {
      lexer.anchored = true;
    }
  }
}

export function createParser(services: LangiumCoreServices): LangiumParser {
  const parser = buildRules(services.Grammar, new WireloftParser(services), services.parser.Lexer.definition);
  parser.finalize();
  return parser;
}

export function createCompletion(services: LangiumCoreServices): LangiumCompletionParser {
  const parser = createCompletionParser(services);
  keepAnchors(parser, services);
  return parser;
}
