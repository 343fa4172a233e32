/**
 * The parser. A text is parsed with anchors first, which keeps a half-typed declaration from costing its neighbours; where that
 * finds errors it is parsed again without, and that tree is kept if it has none, so that line ends never change a valid text.
 */
import type { IRecognitionException, IToken, TokenType } from 'chevrotain';
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
import { MOST_SYNTAX_ERRORS, passedLimit } from './limits.js';
import { WireloftTokenBuilder } from './tokens.js';

/** The part of chevrotain's recovery that is adjusted here. */
interface Recovering {
  recoveryEnabled: boolean;
  SAVE_ERROR(error: IRecognitionException): IRecognitionException;
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

/**
 * Recovery ends after so many errors: it nests a call for each, and what is left of such a text is no spec. Returns a function
 * that starts the count anew; without recovery, the parser gives up at the first error.
 */
function boundRecovery(parser: object): (recovery: boolean) => void {
  const { wrapper } = parser as { wrapper: Recovering };
  const save = wrapper.SAVE_ERROR.bind(wrapper);
  let errors = 0;
  wrapper.SAVE_ERROR = (error) => {
    if (++errors >= MOST_SYNTAX_ERRORS) wrapper.recoveryEnabled = false;
    return save(error);
  };
  return (recovery) => {
    errors = 0;
    wrapper.recoveryEnabled = recovery;
  };
}

class WireloftParser extends LangiumParser {
  /** Starts the count of errors anew, with recovery or without. */
  private readonly begin: (recovery: boolean) => void;

  constructor(private readonly services: LangiumCoreServices) {
    super(services);
    keepAnchors(this, services);
    this.begin = boundRecovery(this);
  }

  override parse<T extends AstNode = AstNode>(input: string, options: ParserOptions = {}): ParseResult<T> {
    const text = passedLimit(input) ? '' : input;
    this.begin(true);
    const first = super.parse<T>(text, options);
    const lexer = this.services.parser.Lexer;
    if (first.parserErrors.length === 0 || first.parserErrors.length >= MOST_SYNTAX_ERRORS) return first;
    if (!(lexer instanceof WireloftLexer)) return first;
    lexer.anchored = false;
    // With any error this tree is not kept, so it need not be whole.
    this.begin(false);
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
