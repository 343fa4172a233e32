import { DefaultLexer, type LexerResult, type TokenizeOptions } from 'langium';
import { WireloftTokenBuilder } from './tokens.js';

/** The lexer, with keywords told from names, and anchors on request. The completion parser always works with anchors. */
export class WireloftLexer extends DefaultLexer {
  /** Set while the parser tries a text again in which line ends mean nothing. */
  anchored = true;

  override tokenize(text: string, options?: TokenizeOptions): LexerResult {
    const result = super.tokenize(text, options);
    const { tokenBuilder } = this;
    if (tokenBuilder instanceof WireloftTokenBuilder) {
      tokenBuilder.spell(result.tokens);
      if (this.anchored) tokenBuilder.anchor(result.tokens);
    }
    return result;
  }
}
