import '../src/language/polyfill.js';
import { afterEach, expect } from 'vitest';

// The parser reports an ambiguous alternative only when some input reaches it, and only by printing. Any test
// whose input does so fails.
const ambiguities: string[] = [];
const print = console.log;
console.log = (...values: unknown[]): void => {
  const text = values.map(String).join(' ');
  if (text.includes('Ambiguous Alternatives Detected')) ambiguities.push(text);
  print(...values);
};

afterEach(() => {
  expect(ambiguities.splice(0)).toEqual([]);
});
