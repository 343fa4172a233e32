import { DefaultLexer, type LexerResult, type TokenizeOptions } from 'langium';
import { WireloftTokenBuilder } from './tokens.js';

/** The lexer, with anchors on request. The completion parser always works with anchors. */
export class WireloftLexer extends DefaultLexer {
  /** Set while the parser tries a text again in which line ends mean nothing. */
  anchored = true;

  override tokenize(text: string, options?: TokenizeOptions): LexerResult {
    const result = super.tokenize(text, options);
    if (this.anchored && this.tokenBuilder instanceof WireloftTokenBuilder)
      this.tokenBuilder.anchor(result.tokens);
    return result;
  }
}
