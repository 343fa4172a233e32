/** Names as the language has them: a letter or `_`, then letters of any script, digits and `_`; reserved words aside. */
import { LETTERS, MARKS_AND_DIGITS } from '../../language/parsing/letters.js';
import { RESERVED } from '../../language/parsing/tokens.js';

const start = new RegExp(`^[_a-zA-Z${LETTERS}]`);
const part = new RegExp(`[_0-9a-zA-Z${LETTERS}${MARKS_AND_DIGITS}]`);
const whole = new RegExp(`^[_a-zA-Z${LETTERS}][_0-9a-zA-Z${LETTERS}${MARKS_AND_DIGITS}]*$`);
/** Longer file names are refused by common file systems, which count bytes. */
const LONGEST = 64;

/** Why a text is no name; undefined for a name. */
export function nameProblem(text: string): string | undefined {
  if (text.length > LONGEST) return `it has more than ${LONGEST} letters.`;
  if (isReserved(text)) return 'the language uses this word itself.';
  if (whole.test(text)) return undefined;
  return /^\p{Nd}/u.test(text) ? 'a name begins with a letter.' : 'a name has letters, digits and _ only.';
}

/** A name as near to the text as can be: `my boat-2` becomes `myBoat2`. */
export function suggestName(text: string): string {
  const words = text
    .split(/[^\p{L}\p{M}\p{N}_]+/u)
    .map((word) => Array.from(word, (letter) => (part.test(letter) ? letter : '')).join(''))
    .filter((word) => word !== '');
  const joined = words
    .map((word, index) => (index === 0 ? word : word.slice(0, 1).toUpperCase() + word.slice(1)))
    .join('')
    .slice(0, LONGEST - 4);
  const name =
    joined === '' || isReserved(joined)
      ? `boat${joined.slice(0, 1).toUpperCase()}${joined.slice(1)}`
      : joined;
  return start.test(name) ? name : `boat${name}`;
}

const isReserved = (text: string): boolean => (RESERVED as readonly string[]).includes(text);
