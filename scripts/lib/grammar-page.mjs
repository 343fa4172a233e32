/** docs/grammar.md from the EBNF that Langium's generator prints. */

const width = 100;

/** Terminals whose pattern in the grammar file is not what the lexer matches: see src/language/parsing. */
const described = new Map([
  ['ID', 'a letter or "_", then letters, digits and "_"; letters of any script, and no keyword'],
  ['NAME', 'an ID, or a keyword that is not reserved'],
  ['ANYNAME', 'an ID, or any keyword'],
]);

/**
 * The page: Langium's EBNF without the places of white space, one alternative a line where a rule is long.
 * @param {string} ebnf
 * @returns {string}
 */
export function grammarPage(ebnf) {
  const rules = ebnf
    .trim()
    .split(/\n{2,}/)
    .map(tidyRule);
  const isTerminal = (/** @type {{ name: string }} */ rule) => /^[A-Z_]+$/.test(rule.name);
  const print = (/** @type {{ name: string, body: string }[]} */ list) =>
    list.map((rule) => layOut(rule.name, rule.body)).join('\n\n');
  const shown = rules.filter((rule) => rule.name !== 'HIDDEN');
  return [
    '<!-- Generated from src/language/wireloft.langium by `npm run generate`. Do not edit. -->',
    '',
    '# The grammar',
    '',
    'Every rule of the language in EBNF, as the parser has it; what the words mean is in [language.md](language.md).',
    'Between any two parts of a rule there may be white space and comments. `?` is at most once, `*` any number of',
    'times, `+` at least once.',
    '',
    '```ebnf',
    print(shown.filter((rule) => !isTerminal(rule))),
    '```',
    '',
    '## Words, numbers and texts',
    '',
    'As regular expressions, or in words between question marks.',
    '',
    '```ebnf',
    print(shown.filter(isTerminal)),
    '```',
    '',
  ].join('\n');
}

/**
 * @param {string} rule
 * @returns {{ name: string, body: string }}
 */
function tidyRule(rule) {
  const match = /^<(\w+)> ::= ([\s\S]*)$/.exec(rule.trim());
  const [, name, body] = match ?? [];
  if (name === undefined || body === undefined)
    throw new Error(`The generator printed an unexpected rule: ${rule}`);
  const words = described.get(name);
  if (words !== undefined) return { name, body: `? ${words} ?` };
  const withoutHidden = body.replaceAll('<HIDDEN>* ', '');
  if (/^[A-Z_]+$/.test(name)) return { name, body: withoutHidden };
  const bare = withoutHidden.replace(/"[^"]*"|<(\w+)>/g, (text, reference) => reference ?? text);
  return { name, body: withoutOuterBrackets(bare).replaceAll('( ', '(').replaceAll(' )', ')') };
}

/** @param {string} body */
function withoutOuterBrackets(body) {
  if (!body.startsWith('(') || !body.endsWith(')')) return body;
  const inner = body.slice(1, -1);
  return splitTop(inner, ')').length === 1 ? inner.trim() : body;
}

/**
 * Splits where `separator` stands outside quotes and brackets.
 * @param {string} text
 * @param {string} separator one character
 * @returns {string[]}
 */
function splitTop(text, separator) {
  const parts = [];
  let depth = 0;
  let start = 0;
  for (const match of text.matchAll(/"[^"]*"|[()|]/g)) {
    if (match[0] === '(') depth++;
    if (match[0] === separator && depth === 0) {
      parts.push(text.slice(start, match.index).trim());
      start = match.index + 1;
    } else if (match[0] === ')') depth--;
  }
  parts.push(text.slice(start).trim());
  return parts;
}

/**
 * @param {string} name
 * @param {string} body
 */
function layOut(name, body) {
  const line = `${name} ::= ${body}`;
  if (line.length <= width) return line;
  const alternatives = splitTop(body, '|');
  if (alternatives.length > 1) return `${name} ::=\n    ${alternatives.join('\n  | ')}`;
  return `${name} ::=\n    ${wrap(body)}`;
}

/**
 * Breaks a long sequence between its parts.
 * @param {string} body
 */
function wrap(body) {
  let lines = '';
  let length = 0;
  for (const part of body.match(/"[^"]*"\S*|\S+/g) ?? []) {
    if (length > 0 && length + part.length > width - 6) {
      lines += '\n    ';
      length = 0;
    } else if (length > 0) lines += ' ';
    lines += part;
    length += part.length + 1;
  }
  return lines;
}
