/** The pages of docs/rules: what the registry of rules says goes to the head of each page and into the table of all. */
import { format, resolveConfig } from 'prettier';
import { at, filesBelow, readIfThere } from './project.mjs';

/** Where the pages are. */
const rulesFolder = 'docs/rules';
const tablePath = `${rulesFolder}/README.md`;

/**
 * @typedef {{
 *   code: string,
 *   group: string,
 *   severities: readonly ('error' | 'warning' | 'information')[],
 *   summary: string,
 *   waivable: boolean,
 * }} RuleInfo
 */

/**
 * A rule's page, relative to the project.
 * @param {string} code
 */
export const pageOf = (code) => `${rulesFolder}/${code}.md`;

/**
 * The rule that a page is about.
 * @param {string} path relative to the project
 */
const codeOf = (path) => path.slice(rulesFolder.length + 1, -'.md'.length);

/** Every page of a rule that there is, relative to the project. */
export const rulePages = () =>
  filesBelow(at('docs', 'rules'))
    .filter((name) => name.endsWith('.md') && name !== 'README.md')
    .map((name) => `${rulesFolder}/${name}`);

/**
 * The pages as they must be: the table, and every page that there is with its head from the registry.
 * @param {readonly RuleInfo[]} rules
 * @returns {Promise<Map<string, string>>} paths relative to the project, and texts
 */
export async function produceRulePages(rules) {
  const texts = new Map(rulePages().map((path) => [path, readIfThere(at(path)) ?? '']));
  const pages = new Map([[tablePath, table(rules, texts)]]);
  for (const [path, text] of texts) {
    const rule = rules.find((one) => one.code === codeOf(path));
    pages.set(path, rule === undefined ? text : withHead(rule, text));
  }
  for (const [path, text] of pages) {
    const config = await resolveConfig(at(path));
    pages.set(path, await format(text, { ...config, filepath: at(path) }));
  }
  return pages;
}

/**
 * What a page says of where its rule comes from, on one line however it is wrapped.
 * @param {string} text
 */
export const sourceOf = (text) =>
  /^- \*\*Source:\*\* (.+(?:\n {2,}\S.*)*)/m.exec(text)?.[1]?.replaceAll(/\s+/g, ' ');

/**
 * Its words alone: a link would lead elsewhere from the table.
 * @param {string} text
 */
const plainSourceOf = (text) => sourceOf(text)?.replace(/\[([^\]]+)\]\([^)]*\)/g, '$1') ?? '';

/**
 * @param {RuleInfo} rule
 * @param {string} text
 */
function withHead(rule, text) {
  const body = text.indexOf('\n## ');
  return [
    `# ${rule.code}`,
    '',
    rule.summary,
    '',
    `- **Severity:** ${rule.severities.join(' or ')}`,
    `- **Waiver:** ${rule.waivable ? 'possible' : 'not possible'}`,
    `- **Source:** ${sourceOf(text) ?? 'common practice, no source'}`,
    body < 0 ? '' : text.slice(body),
  ].join('\n');
}

/** What the groups are about, in the order in which a reader meets them. */
const groups = new Map([
  ['syntax', 'The text'],
  ['encoding', 'The text'],
  ['limit', 'The text'],
  ['use', 'Files'],
  ['type', 'Names, quantities and ports'],
  ['unused', 'What nothing uses'],
  ['net', 'Ethernet'],
  ['sonar', 'Sonar'],
  ['cable', 'Cables'],
  ['power', 'Direct current'],
  ['energy', 'Direct current'],
  ['place', 'Places'],
  ['radio', 'Data'],
  ['data', 'Data'],
  ['need', 'What the boat must do'],
  ['view', 'What the boat must do'],
  ['allow', 'Waivers'],
]);

/**
 * @param {readonly RuleInfo[]} rules
 * @param {ReadonlyMap<string, string>} texts
 */
function table(rules, texts) {
  const sections = new Map([...groups.values()].map((title) => [title, /** @type {RuleInfo[]} */ ([])]));
  for (const rule of rules) {
    const title = groups.get(rule.group) ?? 'Other';
    sections.set(title, [...(sections.get(title) ?? []), rule]);
  }
  const row = (/** @type {RuleInfo} */ rule) =>
    `| [${rule.code}](${rule.code}.md) | ${rule.severities.join(' or ')} | ${rule.waivable ? 'possible' : ''} | ${rule.summary} | ${plainSourceOf(texts.get(pageOf(rule.code)) ?? '')} |`;
  const tables = [...sections]
    .filter(([, list]) => list.length > 0)
    .flatMap(([title, list]) => [
      `## ${title}`,
      [
        '| Rule | Severity | Waiver | Holds when | Source |',
        '| --- | --- | --- | --- | --- |',
        ...list.map(row),
      ].join('\n'),
    ]);
  return `${[
    '<!-- Generated from the registry of rules by scripts/rule-pages.mjs. Do not edit. -->',
    '# The rules',
    `Wireloft has ${rules.length} rules. Each has a code, \`group/name\`, which stands on its findings, leads to its page here, and is what a waiver names. Each page says what the rule means, why it matters, how to put the fault right, and where the rule comes from.`,
    'An **error** is something that cannot work or breaks a rule of the trade outright. A **warning** works today and is likely to be regretted. **Information** is something worth knowing. Where the spec does not say enough to judge, nothing is guessed: the case is counted as unknown, and the missing fact is named at the end of the report.',
    'A waiver keeps a finding and takes it out of the counts: `link hub -- bowScreen using PatchCord allow cable/not-sealed because "bench test" until 2027-04-01`. It stands at the end of the head of the declaration that the finding is about. A rule without a waiver in the table cannot be waived, because nothing after it could be trusted.',
    'Where a page names no published source, it says "common practice, no source": the trade works so, and no standard that we know of says it. "From memory" marks a figure that was not held against a copy of its source.',
    'The examples on these pages are checked whenever the project is tested. They stand in a small boat with the zones `bow`, `helm`, `cabin`, `engines` and `transom`, joined by runs, and with the gear of [examples/catalogue](../../examples/catalogue); supply and buses are left out unless they are the point.',
    ...tables,
  ].join('\n\n')}\n`;
}
