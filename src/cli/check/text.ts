/** Findings as a good compiler prints them. */
import type { Place } from '../../vessel/origin.js';
import { count, listOf } from '../../vessel/words.js';
import type { Problem } from '../../language/project/report.js';
import type { Paint } from '../terminal/colours.js';
import { displayPath } from '../terminal/paths.js';
import { printable } from '../terminal/printable.js';
import type { Checked } from './checked.js';
import { excerpt } from './excerpt.js';
import { lineReader, type LineReader } from './lines.js';
import { allProblems, allUnknowns, totals, withOption } from './totals.js';

export interface TextOptions {
  /** Paths are given relative to it. */
  readonly folder: string;
  readonly paint: Paint;
  /** Columns that a quoted line may take. */
  readonly columns: number;
}

/** Lines that what is unknown by one rule may take. */
const MOST_UNKNOWN = 5;

/** The whole report, with a line end at its end. */
export function checkText(report: Checked, options: TextOptions): string {
  const lines = lineReader(report);
  const blocks = allProblems(report).map((problem) => problemBlock(problem, lines, options));
  const unknown = unknownBlock(report, options);
  return [...blocks, ...(unknown.length > 0 ? [unknown] : []), [lastLine(report, options)]]
    .map((block) => `${block.join('\n')}\n`)
    .join('\n');
}

function problemBlock(problem: Problem, lines: LineReader, options: TextOptions): string[] {
  const { paint } = options;
  const severity = paint.severity(problem.severity, problem.severity);
  const where = paint.bold(placeText(problem.place, options));
  const variant = printable(withOption(problem.option));
  const preferred = problem.fixes.find((fix) => fix.preferred) ?? problem.fixes[0];
  // Whoever reads the first line alone, as a script does, is not to take it for one that counts.
  const waived = problem.waived === null ? '' : 'waived ';
  return [
    `${where} ${waived}${severity} ${problem.rule}: ${printable(problem.message)}${variant}`,
    ...quotedLine(problem.place, lines, options, (marks) => paint.severity(problem.severity, marks)),
    ...problem.related.flatMap((related) => [
      `  ${placeText(related.place, options)}: ${printable(related.message)}`,
      ...quotedLine(related.place, lines, options, paint.dim),
    ]),
    ...(preferred ? [`  ${paint.good('repair:')} ${printable(preferred.title)}`] : []),
    ...(problem.waived === null ? [] : [`  ${paint.dim('waived:')} ${printable(problem.waived)}`]),
  ];
}

function quotedLine(
  place: Place,
  lines: LineReader,
  options: TextOptions,
  paint: (marks: string) => string,
): string[] {
  const line = lines(place.file, place.range.start.line);
  if (line === undefined || line.trim() === '') return [];
  const number = String(place.range.start.line + 1).padStart(5);
  const quote = excerpt(line, place.range, Math.max(20, options.columns - number.length - 3));
  const bar = options.paint.dim('|');
  return [
    `${options.paint.dim(number)} ${bar} ${quote.line}`,
    `${' '.repeat(number.length)} ${bar} ${paint(quote.marks)}`,
  ];
}

/** `examples/kittiwake.loft:12:3`, counted from one as editors do. */
function placeText(place: Place, options: TextOptions): string {
  const { line, character } = place.range.start;
  return `${printable(displayPath(place.file, options.folder))}:${line + 1}:${character + 1}`;
}

/** What could not be judged, by rule, the first few of each by name. */
function unknownBlock(report: Checked, options: TextOptions): string[] {
  const byRule = new Map<string, Set<string>>();
  for (const { unknown } of allUnknowns(report)) {
    const missing = byRule.get(unknown.rule) ?? new Set<string>();
    byRule.set(unknown.rule, missing.add(unknown.missing));
  }
  if (byRule.size === 0) return [];
  const rows = [...byRule].flatMap(([rule, all]) => {
    const shown = [...all].slice(0, all.size > MOST_UNKNOWN ? MOST_UNKNOWN - 1 : MOST_UNKNOWN);
    const rest = all.size - shown.length;
    return [
      `  ${rule}`,
      ...shown.map((missing) => `      ${printable(missing)}`),
      ...(rest > 0 ? [`      and ${rest} more`] : []),
    ];
  });
  return [options.paint.bold('Not judged, because the spec does not say enough:'), ...rows];
}

/** "1 vessel with options chain, light", where nothing was checked without them. */
function chosenText({ vessels }: Checked): string {
  const names = [...new Set(vessels.map(({ option }) => printable(option ?? '')))];
  return `${count(vessels.length, 'vessel')} with ${names.join(', ').includes(',') ? 'options' : 'option'} ${names.join('; ')}`;
}

function lastLine(report: Checked, { paint }: TextOptions): string {
  const counts = totals(report);
  const bases = report.vessels.filter((vessel) => vessel.option === null).length;
  const variants = report.vessels.length - bases;
  const checked = [
    ...(bases > 0 ? [count(bases, 'vessel')] : []),
    ...(variants > 0 ? [bases > 0 ? count(variants, 'option') : chosenText(report)] : []),
    ...(report.files.length > 0
      ? [count(report.files.length, report.vessels.length > 0 ? 'other file' : 'file')]
      : []),
  ];
  const rulesRun = Math.max(0, ...report.vessels.map((vessel) => vessel.rulesRun));
  const errors = count(counts.error, 'error');
  const warnings = count(counts.warning, 'warning');
  const parts = [
    count(rulesRun, 'rule'),
    counts.error > 0 ? paint.severity('error', errors) : errors,
    counts.warning > 0 ? paint.severity('warning', warnings) : warnings,
    `${counts.information} information`,
    `${counts.waived} waived`,
    `${counts.unknown} unknown`,
  ];
  return `Checked ${listOf(checked)}: ${parts.join(', ')}.`;
}
