/** The pieces that the TextMate grammar is put together from. */
import { allWords, reserved, statementWords } from './words.mjs';

/**
 * @typedef {{ name?: string, patterns?: Rule[] }} Capture
 * @typedef {{
 *   include?: string, name?: string, match?: string, begin?: string, end?: string, patterns?: Rule[],
 *   captures?: Record<string, Capture>, beginCaptures?: Record<string, Capture>, endCaptures?: Record<string, Capture>,
 * }} Rule
 */

/** @param {readonly string[]} words */
const any = (words) => `(?:${words.join('|')})`;

export const ANY_NAME = '[\\p{L}_][\\p{L}\\p{M}\\p{Nd}_]*';
export const NAME = `(?!${any(reserved)}\\b)${ANY_NAME}`;
export const PLAIN = `(?!${any(allWords)}\\b)${ANY_NAME}`;
export const NUMBER = '\\d+(?:\\.\\d+)?';
export const RULE_CODE = '[a-z][a-z0-9]*/[a-z0-9][a-z0-9-]*';

/** A statement that begins its line ends whatever is still open above it: a half-typed one colours only itself. */
export const STOP = `(?=^\\s*${any(statementWords)}\\s+[\\p{L}_"])`;

export const scope = {
  thing: 'variable.other.wireloft',
  type: 'support.type.wireloft',
  value: 'support.constant.wireloft',
  member: 'variable.other.member.wireloft',
  port: 'entity.name.variable.port.wireloft',
  number: 'constant.numeric.wireloft',
  unit: 'keyword.other.unit.wireloft',
  property: 'support.type.property-name.wireloft',
  action: 'keyword.control.wireloft',
  flag: 'storage.modifier.wireloft',
  connective: 'keyword.other.wireloft',
  waiver: 'keyword.control.waiver.wireloft',
  colon: 'punctuation.separator.colon.wireloft',
};

/** @param {string} word */
export const statementScope = (word) => `storage.type.${word}.wireloft`;

/**
 * The scope of a name where it is declared: what editors colour like the token types that the language server gives
 * the same names a moment later, so that nothing flickers.
 * @param {string} word the word that declares it
 */
export function declaredScope(word) {
  if (['vessel', 'zone', 'option'].includes(word)) return `entity.name.namespace.${word}.wireloft`;
  if (['run', 'device', 'backbone'].includes(word)) return `entity.name.variable.${word}.wireloft`;
  if (['mode', 'day'].includes(word)) return `entity.name.function.${word}.wireloft`;
  return `entity.name.type.${word}.wireloft`;
}

/** @param {readonly (string | undefined)[]} names the scope of each group in turn */
export const captures = (...names) =>
  Object.fromEntries(
    names.flatMap((name, index) => (name === undefined ? [] : [[String(index + 1), { name }]])),
  );

/**
 * After `begin` comes a name, on this line or a later one. A number, a text or a brace ends the wait.
 * @param {string} begin
 * @param {readonly string[]} beginScopes
 * @param {string} nameScope
 * @param {string} [name]
 * @returns {Rule}
 */
export const expect = (begin, beginScopes, nameScope, name = NAME) => ({
  begin,
  beginCaptures: captures(...beginScopes),
  end: `${STOP}|(${name})|(?=[^\\s/])`,
  endCaptures: captures(nameScope),
  patterns: [{ include: '#comments' }],
});

/**
 * @param {readonly string[]} words
 * @param {string} wordScope
 * @param {string} nameScope
 * @param {string} [name]
 */
export const expectAfter = (words, wordScope, nameScope, name = NAME) =>
  expect(`\\b(${words.join('|')})\\b`, [wordScope], nameScope, name);

/**
 * @param {string} match
 * @param {...(string | undefined)} names
 * @returns {Rule}
 */
export const match = (match, ...names) => ({ match, captures: captures(...names) });

/**
 * @param {readonly string[]} words
 * @param {string} name
 * @returns {Rule}
 */
export const plain = (words, name) => ({ match: `\\b${any(words)}\\b`, name });

/**
 * The name right after the word that declares it.
 * @param {string} nameScope
 * @returns {Rule}
 */
export const declared = (nameScope) => ({
  begin: '\\G',
  end: `(${NAME})|(?=[^\\s/])`,
  endCaptures: captures(nameScope),
  patterns: [{ include: '#comments' }],
});

/**
 * A declaration whose block has rules of its own.
 * @param {string} word
 * @param {string} next what must follow the word
 * @param {readonly Rule[]} head the rules for what stands before the block
 * @param {readonly Rule[]} body
 * @returns {Rule}
 */
export const withBlock = (word, next, head, body) => ({
  name: `meta.${word}.wireloft`,
  begin: `\\b(${word})\\b(?=\\s+${next})`,
  beginCaptures: captures(statementScope(word)),
  end: `${STOP}|(?<=\\})`,
  patterns: [
    ...head,
    {
      begin: '\\{',
      beginCaptures: { 0: { name: 'punctuation.section.block.begin.wireloft' } },
      end: `${STOP}|(\\})`,
      endCaptures: captures('punctuation.section.block.end.wireloft'),
      patterns: [...body, { include: '#text' }],
    },
    { include: '#text' },
  ],
});
