/** Completion tests as data: a marked text, and what is offered at the mark. */
import { afterAll, beforeAll, expect, it } from 'vitest';
import { Asking } from './offered.js';

export interface Case {
  /** What is behind the boat, with `$0` for the cursor. */
  readonly text: string;
  /** Exactly these, in this order. */
  readonly only?: readonly string[];
  /** These first, in this order. */
  readonly first?: readonly string[];
  /** These among others. */
  readonly offers?: readonly string[];
  /** None of these. */
  readonly lacks?: readonly string[];
  /** What is said of them. */
  readonly details?: Readonly<Record<string, string>>;
  /** The line once an item has been taken. */
  readonly taken?: readonly [label: string, line: string];
  /** The sign that brought the list up, where it was not asked for. */
  readonly typed?: string;
}

/** A test for each case, against one server. A file other than the boat is given by its path. */
export function itOffers(
  cases: readonly Case[],
  path?: string,
  files?: Readonly<Record<string, string>>,
): void {
  let asking: Asking;
  beforeAll(async () => {
    asking = await Asking.start(files);
  });
  afterAll(() => asking.stop());
  it.each(cases)('$text', async ({ text, typed, ...expected }) => {
    const offered = await (path === undefined ? asking.aboard(text, typed) : asking.at(path, text, typed));
    const { labels } = offered;
    const { only, first, offers, lacks, details, taken } = expected;
    expect(Object.keys(expected).length).toBeGreaterThan(0);
    if (only) expect(labels).toEqual(only);
    if (first) expect(labels.slice(0, first.length)).toEqual(first);
    if (offers) expect(labels).toEqual(expect.arrayContaining([...offers]));
    if (lacks) expect(labels.filter((label) => lacks.includes(label))).toEqual([]);
    for (const [label, detail] of Object.entries(details ?? {})) expect(offered.detail(label)).toBe(detail);
    if (taken) expect(offered.taken(taken[0])).toBe(taken[1]);
    // Each item says in one line what it is.
    for (const item of offered.items) expect(item.detail).toMatch(/^[^\n]+$/);
  });
}
