/**
 * The form in which constructs of the language are written down. Every construct has the same six cells, each a small text that
 * is tried: it parses, its names lead somewhere, a mistake in it is told, it is laid out, it is completed, and it says what it is
 * when pointed at.
 */

export interface Construct {
  /** What the page calls it; Markdown. */
  readonly name: string;
  /** The construct in its canonical layout, without a fault. */
  readonly text: string;
  /** The same, badly laid out. */
  readonly ugly: string;
  /** A name in `text`, and the beginning of what declares it: `helm -> zone helm`. Absent where the construct names nothing. */
  readonly resolves?: string;
  /** A text with a mistake, the rule that tells it, and a part of the message; by choice in another frame. */
  readonly wrong: readonly [text: string, rule: string, message: string, frame?: string];
  /** A half-typed text with `$0` for the cursor, and what is offered there; with `-` before it, what is not. */
  readonly completes: readonly [text: string, items: string, frame?: string];
  /** A text with `$0` for the pointer, and a part of what is said there. */
  readonly hovers: readonly [text: string, says: string, frame?: string];
  /** Where it stands, if not where the others of its group do. */
  readonly frame?: string;
}

/** Constructs that stand at the same place. `HERE` in the frame is that place; statements are at the file's end. */
export interface Group {
  readonly title: string;
  readonly frame: string;
  readonly constructs: readonly Construct[];
}

/** The frame of statements. */
export const STATEMENT = 'HERE';

/** A block with one place in it; what is around it stands apart, so that columns do not depend on it. */
export const block = (head: string, first = ''): string =>
  `${head} {\n${first === '' ? '' : `  ${first}\n\n`}  HERE\n}`;
