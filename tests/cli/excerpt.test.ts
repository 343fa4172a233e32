import stringWidth from 'string-width';
import { describe, expect, it } from 'vitest';
import { excerpt } from '../../src/cli/check/excerpt.js';
import { printable } from '../../src/cli/terminal/printable.js';

/** Quotes the stretch between two `|` of a line. */
function marked(text: string, width = 80): { line: string; marks: string } {
  const from = text.indexOf('|');
  const rest = text.slice(0, from) + text.slice(from + 1);
  const to = rest.indexOf('|');
  const line = rest.slice(0, to) + rest.slice(to + 1);
  return excerpt(line, { start: { line: 0, character: from }, end: { line: 0, character: to } }, width);
}

describe('a quoted line', () => {
  it('has marks under the stretch', () => {
    expect(marked('link |plotter.sonar| -- keel')).toEqual({
      line: 'link plotter.sonar -- keel',
      marks: '     ^^^^^^^^^^^^^',
    });
  });

  it('turns tabs into spaces and counts them as such', () => {
    expect(marked('\tport\t|sonar| : ethernet')).toEqual({
      line: '    port    sonar : ethernet',
      marks: '            ^^^^^',
    });
  });

  it('counts wide characters as two columns and combined ones as one', () => {
    expect(marked('device 船船|魚探| : Fish')).toEqual({
      line: 'device 船船魚探 : Fish',
      marks: '           ^^^^',
    });
    expect(marked('zone cafe\u0301 |helm|').marks).toBe('          ^^^^');
  });

  it('marks one column where the stretch is empty or behind the end', () => {
    expect(marked('vessel || {').marks).toBe('       ^');
    expect(
      excerpt('zone', { start: { line: 0, character: 9 }, end: { line: 0, character: 12 } }, 80),
    ).toEqual({
      line: 'zone',
      marks: '    ^',
    });
  });

  it('marks a stretch over several lines to the end of its first', () => {
    const range = { start: { line: 3, character: 6 }, end: { line: 9, character: 1 } };
    expect(excerpt('model Tern8 : display {   ', range, 80).marks).toBe('      ^^^^^^^^^^^^^^^^^');
  });

  it('lets nothing through that a terminal acts upon', () => {
    const { line } = marked('title |"\u001b[31mred\u0007\u202e"|');
    expect(line).toBe('title "\ufffd[31mred\ufffd\ufffd"');
    expect(printable('a\u001b]0;x\u0007\nb')).toBe('a\ufffd]0;x\ufffd b');
  });

  it.each([0, 5, 300, 40_000, 999_990])('cuts a line of a million characters around column %d', (column) => {
    const text = 'abcdefghij'.repeat(100_000);
    const range = { start: { line: 0, character: column }, end: { line: 0, character: column + 8 } };
    const { line, marks } = excerpt(text, range, 60);
    expect(stringWidth(line)).toBeLessThanOrEqual(60);
    const first = marks.indexOf('^');
    expect(line.slice(first, first + 8)).toBe(text.slice(column, column + 8));
    expect(marks.trim()).toBe('^^^^^^^^');
    expect(line.startsWith('\u2026')).toBe(column > 20);
  });

  it('marks at most what it shows', () => {
    const { line, marks } = marked(`a |${'x'.repeat(500)}| b`, 40);
    expect(stringWidth(line)).toBeLessThanOrEqual(40);
    expect(marks.length).toBeLessThanOrEqual(40);
    expect(line.endsWith('\u2026')).toBe(true);
  });
});
