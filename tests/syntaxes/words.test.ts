import { describe, expect, it } from 'vitest';
import { allWords, reserved } from '../../scripts/syntax/words.mjs';
import { textMateGrammar } from '../../scripts/syntax/textmate.mjs';
import { WireloftGrammar } from '../../src/language/generated/grammar.js';
import { keywordsOf, RESERVED } from '../../src/language/parsing/tokens.js';
import { grammarJson } from './colours.js';

describe('the words of the TextMate grammar', () => {
  it('are the keywords of the language, each once', () => {
    const keywords = keywordsOf(WireloftGrammar()).filter((word) => /^[a-z]/.test(word));
    expect([...allWords].sort()).toEqual([...keywords].sort());
  });

  it('reserve the same words', () => {
    expect([...reserved].sort()).toEqual([...RESERVED].sort());
  });

  it('are those that the committed grammar was made from', () => {
    expect(grammarJson()).toEqual(JSON.parse(textMateGrammar()));
  });
});
