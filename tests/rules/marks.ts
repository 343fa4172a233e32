/**
 * Fixtures that carry what is expected of them: a comment under a line marks what is found in it.
 *
 * `//   ^^^^ error net/loop: part of the message` marks the stretch above the carets; `//<- error net/loop: ...` what begins
 * with the line's first character, or goes on over several lines. `waived` before the severity says that an `allow` covers it,
 * and `unknown` in its place that the rule could not judge. The head of the file says which rules it is about:
 *
 *     // rule: net/loop, need/not-met
 *     // verdict: screen source signal reached
 *     // free: hub ethernet 2
 */
import type { Analysis } from '../../src/checks/analysis.js';
import type { Problem, ProjectReport } from '../../src/language/project/report.js';
import type { Place } from '../../src/vessel/origin.js';

/** Something found, or expected, at a line. */
interface Mark {
  /** Line of the text without marks, from 0. */
  readonly line: number;
  /** Columns, or undefined where it begins with the line. */
  readonly stretch: readonly [from: number, to: number] | undefined;
  /** `error`, `waived warning`, `unknown`. */
  readonly kind: string;
  readonly rule: string;
  readonly text: string;
}

/** A fixture taken apart. */
export interface Fixture {
  readonly rules: readonly string[];
  readonly verdicts: readonly {
    readonly ask: readonly [screen: string, source: string, signal: string];
    readonly verdict: string;
  }[];
  readonly free: readonly { readonly device: string; readonly medium: string; readonly count: number }[];
  /** The lines without marks. */
  readonly lines: readonly string[];
  readonly marks: readonly Mark[];
  /** For each line of the file with marks, its number without them. */
  readonly numbers: readonly number[];
}

const MARK =
  /^ *\/\/(?:<-| *(\^+)) ((?:waived )?(?:error|warning|information|unknown)) ([a-z][a-z/-]*): (.*)$/;
const HEAD = /^\/\/ (rule|verdict|free): (.*)$/;

/** Reads a fixture's text. */
export function readFixture(text: string): Fixture {
  const lines: string[] = [];
  const marks: Mark[] = [];
  const numbers: number[] = [];
  for (const line of text.split('\n')) {
    const found = MARK.exec(line);
    if (found) {
      const [, carets, kind = '', rule = '', part = ''] = found;
      const from = carets === undefined ? 0 : line.indexOf('^');
      marks.push({
        line: lines.length - 1,
        stretch: carets === undefined ? undefined : [from, from + carets.length],
        kind,
        rule,
        text: part,
      });
    } else {
      if (/^ *\/\/(<-| *\^)/.test(line)) throw new Error(`This mark cannot be read: ${line}`);
      lines.push(line);
    }
    numbers.push(lines.length - 1);
  }
  const heads = lines.flatMap((line) => {
    const [, key, value = ''] = HEAD.exec(line) ?? [];
    return key === undefined ? [] : [{ key, words: value.split(/[ ,]+/) }];
  });
  const of = (key: string): string[][] => heads.filter((head) => head.key === key).map((head) => head.words);
  return {
    rules: of('rule').flat(),
    verdicts: of('verdict').map(([screen = '', source = '', signal = '', verdict = '']) => ({
      ask: [screen, source, signal],
      verdict,
    })),
    free: of('free').map(([device = '', medium = '', count = '']) => ({
      device,
      medium,
      count: Number(count),
    })),
    lines,
    marks,
    numbers,
  };
}

/**
 * The fixture's text as it should be: the marks that the report makes. A mark keeps its wording while that is part of the
 * message, and takes the message's first sentence otherwise, so that a text that differs shows what is wrong.
 */
export function markedText(fixture: Fixture, report: ProjectReport, file: string): string {
  const found = [...problemMarks(fixture, report, file), ...unknownMarks(fixture, report, file)];
  const spent = new Set<Mark>();
  const worded = found.map((mark) => {
    const expected = fixture.marks.find(
      (other) => !spent.has(other) && sameButText(mark, other) && mark.text.includes(other.text),
    );
    if (!expected) return { ...mark, text: firstSentence(mark.text) };
    spent.add(expected);
    return expected;
  });
  worded.sort(
    (a, b) =>
      a.line - b.line ||
      (a.stretch?.[0] ?? -1) - (b.stretch?.[0] ?? -1) ||
      (a.rule < b.rule ? -1 : a.rule > b.rule ? 1 : 0),
  );
  return fixture.lines
    .flatMap((line, number) => [
      line,
      ...worded.filter((mark) => mark.line === number).map((mark) => render(mark, line)),
    ])
    .join('\n');
}

function problemMarks(fixture: Fixture, report: ProjectReport, file: string): Mark[] {
  const problems = [...report.vessels, ...report.files].flatMap((part) => part.problems);
  const here = [
    ...new Map(
      problems
        .filter((problem) => problem.place.file === file)
        .map((problem) => [JSON.stringify(problem), problem]),
    ).values(),
  ];
  return here
    .filter((problem) => fixture.rules.includes(problem.rule) || problem.severity === 'error')
    .map((problem) => ({
      ...markAt(fixture, problem.place),
      kind: kindOf(problem),
      rule: problem.rule,
      text: oneLine(problem.message),
    }));
}

function unknownMarks(fixture: Fixture, report: ProjectReport, file: string): Mark[] {
  return report.vessels.flatMap((vessel) =>
    vessel.option === null
      ? vessel.analysis.unknowns.flatMap((unknown) => {
          const place = vessel.places.find(unknown.at);
          if (place?.file !== file || !fixture.rules.includes(unknown.rule)) return [];
          return [
            {
              ...markAt(fixture, place),
              kind: 'unknown',
              rule: unknown.rule,
              text: oneLine(unknown.missing),
            },
          ];
        })
      : [],
  );
}

function markAt(fixture: Fixture, { range }: Place): Pick<Mark, 'line' | 'stretch'> {
  const line = fixture.numbers[range.start.line] ?? 0;
  const indent = indentOf(fixture.lines[line] ?? '');
  const plain =
    range.start.line === range.end.line &&
    range.start.character >= indent.length + 2 &&
    range.end.character > range.start.character;
  return { line, stretch: plain ? [range.start.character, range.end.character] : undefined };
}

const kindOf = (problem: Problem): string =>
  problem.waived === null ? problem.severity : `waived ${problem.severity}`;
const indentOf = (line: string): string => /^ */.exec(line)?.[0] ?? '';
const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim();
const firstSentence = (text: string): string => /^.{20,}?[.:](?= )/.exec(text)?.[0].slice(0, -1) ?? text;

function sameButText(one: Mark, other: Mark): boolean {
  return (
    one.line === other.line &&
    one.kind === other.kind &&
    one.rule === other.rule &&
    String(one.stretch) === String(other.stretch)
  );
}

function render(mark: Mark, above: string): string {
  const indent = indentOf(above);
  const head = mark.stretch
    ? `${indent}//`.padEnd(mark.stretch[0]) + '^'.repeat(mark.stretch[1] - mark.stretch[0])
    : `${indent}//<-`;
  return `${head} ${mark.kind} ${mark.rule}: ${mark.text}`;
}

/** How many ports of a medium are free on a device. */
export function freePorts(analysis: Analysis, device: string, medium: string): number {
  return analysis.ports.filter(
    (use) => use.device === device && use.port.medium === medium && use.on.length === 0,
  ).length;
}
