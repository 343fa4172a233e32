/** The lines of the files that a report speaks of, each file split once. */
import type { Checked } from './checked.js';

/** Gives a line of a file by its zero-based number; undefined where there is none. */
export type LineReader = (file: string, line: number) => string | undefined;

export function lineReader(report: Pick<Checked, 'texts'>): LineReader {
  const split = new Map<string, readonly string[]>();
  return (file, line) => {
    let lines = split.get(file);
    if (!lines) {
      // The line ends of the Language Server Protocol, by which positions are counted.
      lines = (report.texts.get(file) ?? '').split(/\r\n|\n|\r/);
      split.set(file, lines);
    }
    return lines[line];
  };
}
