/**
 * A comparison as a comment on a pull request: what is lost stands open, then short tables; long ones are folded. The verdict comes
 * last, as in the terminal.
 */
import { count } from '../../vessel/words.js';
import { escapeMarkdown } from '../report/markdown.js';
import { isSame } from './compare.js';
import type { Change, Comparison } from './model.js';
import { NOTHING, sectionsOf, summaryOf, supplyFigures } from './text.js';

/** Lines that a section has at the most before it is folded. */
const MOST_LINES = 8;

export function comparisonMarkdown(found: Comparison): string {
  if (isSame(found)) return `${NOTHING}\n`;
  const summary = summaryOf(found);
  return [
    ...lostLines(found),
    ...changeSections(found),
    ...listSections(found),
    ...summary.slice(0, -1).map(inComment),
    '',
    `**${inComment(summary.at(-1) ?? '')}**`,
    '',
  ].join('\n');
}

/** A text as it is read in a comment: it makes no table, mentions nobody and refers to no issue. */
function inComment(text: string): string {
  return escapeMarkdown(text.replaceAll('&', '&amp;').replace(/\s+/g, ' '))
    .replaceAll('~', '\\~')
    .replaceAll('@', '&#64;')
    .replace(/#(?=\w)/g, '&#35;');
}

/** What makes the change a regression: never folded. */
function lostLines({ needs, views, findings }: Comparison): readonly string[] {
  const errors = findings.gained.filter((text) => text.startsWith('error '));
  const lost = [
    ...needs.lost.map((text) => `need no longer met: ${text}`),
    ...errors.map((text) => `new ${text}`),
    ...(views.lost.length <= MOST_LINES ? views.lost.map((text) => `view lost: ${text}`) : []),
  ];
  if (lost.length === 0) return [];
  return ['### What is lost', '', ...lost.map((text) => `- ${inComment(text)}`), ''];
}

const NOUNS: Readonly<Record<Change['what'], string>> = {
  device: 'Devices',
  cable: 'Cables',
  feed: 'Feeds',
  bus: 'Buses',
};

function changeSections({ changes, supply }: Comparison): readonly string[] {
  const sections = (Object.keys(NOUNS) as Change['what'][]).flatMap((what) => {
    const own = changes.filter((one) => one.what === what);
    return section(NOUNS[what], own.length, [
      '| | What | Before | After |',
      '| --- | --- | --- | --- |',
      ...own.map(({ action, name, before, after }) => row([action, name, before ?? '', after ?? ''])),
    ]);
  });
  return [
    ...sections,
    ...section('Volts, amperes, wires and fuses', supply.length, [
      '| At | Before -> after |',
      '| --- | --- |',
      ...supply.map((one) => row([one.at, supplyFigures(one).join('; ')])),
    ]),
  ];
}

const row = (texts: readonly string[]): string => `| ${texts.map(inComment).join(' | ')} |`;

/** The rest is told in sentences. */
function listSections(found: Comparison): readonly string[] {
  return sectionsOf(found)
    .filter(({ kind }) => kind === 'follows')
    .flatMap(({ title, lines }) =>
      section(
        title,
        lines.length,
        lines.map((line) => `- ${inComment(line)}`),
      ),
    );
}

function section(title: string, many: number, lines: readonly string[]): readonly string[] {
  if (many === 0) return [];
  if (many <= MOST_LINES) return [`### ${title}`, '', ...lines, ''];
  const summary = `<summary>${title}: ${count(many, 'line')}</summary>`;
  return ['<details>', summary, '', ...lines, '', '</details>', ''];
}
