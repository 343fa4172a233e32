/** The page that lists every construct with its cells. */
import { format, resolveConfig } from 'prettier';
import { fileURLToPath } from 'node:url';
import type { Construct, Group } from './construct.js';

const page = fileURLToPath(new URL('../../docs/constructs.md', import.meta.url));

const INTRODUCTION = `# Every construct

Each row is a construct of the language; each cell has been tried, and the tests try it again (\`tests/constructs\`). How to read them:

- **parses**: the construct in its canonical layout.
- **resolves**: a name in it, and the declaration that it leads to. A dash where it names nothing.
- **a mistake**: a text with a fault, and the rule that tells it.
- **is laid out from**: a text that the formatter turns into the first. \`⏎\` is a line's end.
- **completes**: with the cursor at \`▮\`, what is offered, among others; behind "not", what does not fit there and is not.
- **says**: with the pointer at \`▮\`, a part of what is shown.
`;

export async function constructsPage(groups: readonly Group[]): Promise<string> {
  const count = groups.reduce((sum, group) => sum + group.constructs.length, 0);
  const tables = groups.map((group) => `## ${group.title}\n\n${table(group.constructs)}`);
  const text = `<!-- Generated from tests/constructs. Run "npx vitest run tests/constructs -u". -->\n\n${INTRODUCTION}\n${count} constructs.\n\n${tables.join('\n\n')}\n`;
  return format(text, { ...(await resolveConfig(page)), filepath: page });
}

function table(constructs: readonly Construct[]): string {
  const head = ['construct', 'parses', 'resolves', 'a mistake', 'is laid out from', 'completes', 'says'];
  const rows = constructs.map(row);
  return [head, head.map(() => '---'), ...rows].map((cells) => `| ${cells.join(' | ')} |`).join('\n');
}

function row({ name, text, ugly, resolves, wrong, completes, hovers }: Construct): string[] {
  const [from = '', to = ''] = resolves?.split(' -> ') ?? [];
  const offered = completes[1].split(' ');
  const hidden = offered.filter((item) => item.startsWith('-')).map((item) => code(item.slice(1)));
  const shown = offered.filter((item) => !item.startsWith('-')).map(code);
  return [
    cell(name),
    code(text),
    resolves === undefined ? '-' : `${code(from)}: ${code(to)}`,
    `${shownIn(wrong[0], wrong[3])}: \`${wrong[1]}\`, "${cell(wrong[2])}"`,
    code(ugly),
    `${shownIn(completes[0], completes[2])}: ${shown.join(', ')}${hidden.length > 0 ? `; not ${hidden.join(', ')}` : ''}`,
    `${shownIn(hovers[0], hovers[2])}: "${cell(hovers[1])}"`,
  ];
}

/** What is tried, and where it stands if not at the row's own place. */
const shownIn = (text: string, frame: string | undefined): string =>
  frame === undefined
    ? code(text)
    : `${code(text)} in ${code((frame.split('\n')[0] ?? '').replace(/ \{$/, ''))}`;

const cell = (text: string): string => text.replaceAll('|', '\\|');

/** Text as code in a table: no pipe, no line end. */
const code = (text: string): string => {
  const shown = text
    .replace('$0', '▮')
    .replaceAll(/\n+/g, ' ⏎ ')
    .replaceAll('\t', ' ')
    .replaceAll('|', '\\|')
    .trim();
  return `\`${shown}\``;
};
