/** Small pieces of text that messages share. */

/** `a`, `a and b`, `a, b and c`; at most `limit` names, then how many more. */
export function listOf(names: readonly string[], joiner: 'and' | 'or' = 'and', limit = 6): string {
  const shown =
    names.length > limit ? [...names.slice(0, limit), `${names.length - limit} more`] : [...names];
  const last = shown.pop();
  if (last === undefined) return 'none';
  return shown.length === 0 ? last : `${shown.join(', ')} ${joiner} ${last}`;
}

/** A number with at most `digits` decimals and no trailing noughts. */
export function number(value: number, digits = 2): string {
  return String(Number(value.toFixed(digits)));
}

/** A length in metres. */
export function metres(value: number): string {
  return `${number(value)} m`;
}

/** A small length in millimetres. */
export function millimetres(value: number): string {
  return `${number(value * 1000, 1)} mm`;
}

/** `1 port`, `2 ports`. */
export function count(value: number, noun: string): string {
  return `${value} ${noun}${value === 1 ? '' : 's'}`;
}

/** `once`, `10 times`: of so many a second. */
export function times(value: number): string {
  const text = number(value);
  return text === '1' ? 'once' : `${text} times`;
}

/** Orders by code unit, which no locale changes. */
export function compareText(first: string, second: string): number {
  return first < second ? -1 : first > second ? 1 : 0;
}
