/** A report as GitHub Flavored Markdown. */
import type { Block, Report } from './report.js';

/** A text as it is read, whatever signs are in it. */
export const escapeMarkdown = (text: string): string => text.replace(/[\\|<>*_`[\]]/g, '\\$&');

/** Write the report. Drawings are named, and stand in the PDF. */
export function toMarkdown(report: Report): string {
  const parts = [
    `# ${escapeMarkdown(report.title)}`,
    escapeMarkdown(report.subtitle),
    report.facts.map(([caption, value]) => `- ${caption}: ${escapeMarkdown(value)}`).join('\n'),
    `> ${escapeMarkdown(report.caution)}`,
    ...report.sections.flatMap(({ title, blocks, sheets }) => [
      `## ${escapeMarkdown(title)}`,
      ...blocks.map(blockText),
      ...(sheets === undefined || sheets.length === 0
        ? []
        : [sheets.map((sheet) => `- ${escapeMarkdown(sheet.title)}`).join('\n')]),
    ]),
  ];
  return `${parts.filter((part) => part !== '').join('\n\n')}\n`;
}

function blockText(block: Block): string {
  if (block.kind === 'heading') return `### ${escapeMarkdown(block.text)}`;
  if (block.kind === 'text') return escapeMarkdown(block.text);
  const line = (texts: readonly string[]): string => `| ${texts.join(' | ')} |`;
  return [
    line(block.columns.map(({ title }) => escapeMarkdown(title))),
    line(block.columns.map(({ numeric }) => (numeric === true ? '---:' : '---'))),
    ...block.rows.map((row) => line(row.map((text) => escapeMarkdown(text.replace(/\s+/g, ' '))))),
  ].join('\n');
}
