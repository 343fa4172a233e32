/** Limits that keep hostile or broken input from hanging or crashing the tool. Each is named in the finding that reports it. */

/** Largest file read, in characters. A boat of 5,000 devices takes about 0.8 million. */
export const LARGEST_FILE = 4_000_000;
/** Deepest nesting of braces. The language itself never needs more than four. */
export const DEEPEST_NESTING = 64;
/** Most findings reported in one file. */
export const MOST_FINDINGS = 200;
/** Syntax errors after which the rest of a text is not read. */
export const MOST_SYNTAX_ERRORS = 500;
/** Most ports that one range may declare. */
export const LARGEST_PORT_RANGE = 256;

export interface PassedLimit {
  readonly rule: 'limit/file-size' | 'limit/nesting';
  readonly message: string;
}

/** The limit that a text passes, if any; such a text is not parsed. */
export function passedLimit(text: string): PassedLimit | undefined {
  if (text.length > LARGEST_FILE)
    return {
      rule: 'limit/file-size',
      message: `The file has ${text.length.toLocaleString('en')} characters; at most ${LARGEST_FILE.toLocaleString('en')} are read. Split the boat into fragments ("aboard").`,
    };
  const depth = nesting(text);
  if (depth > DEEPEST_NESTING)
    return {
      rule: 'limit/nesting',
      message: `Braces are nested ${depth} deep; at most ${DEEPEST_NESTING} are read. Close blocks with "}" where they end.`,
    };
  return undefined;
}

/** Deepest nesting of braces outside strings and comments. */
function nesting(text: string): number {
  let depth = 0;
  let deepest = 0;
  for (const match of text.matchAll(/\/\*[\s\S]*?\*\/|\/\/[^\n\r]*|"(?:\\.|[^"\\\n\r])*"?|[{}]/g)) {
    if (match[0] === '{') deepest = Math.max(deepest, ++depth);
    else if (match[0] === '}') depth = Math.max(0, depth - 1);
  }
  return deepest;
}
