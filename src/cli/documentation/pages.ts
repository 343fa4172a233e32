/** The pages about the program, made from what the program itself says. scripts/cli-pages.mjs writes them. */
import { COMMANDS } from '../commands.js';
import { commandHelp, EXIT_STATUSES, programHelp } from '../terminal/help.js';
import { schemas } from './schemas.js';

/** Paths relative to the project, and texts. */
export function pages(): ReadonlyMap<string, string> {
  const all = [...schemas()];
  return new Map([
    ['docs/cli.md', commandPage(all.map(([name]) => name))],
    ...all.map(
      ([name, schema]) => [`docs/schemas/${name}`, `${JSON.stringify(schema, undefined, 2)}\n`] as const,
    ),
  ]);
}

function commandPage(schemaNames: readonly string[]): string {
  const block = (help: string): string => `\`\`\`text\n${help.trim()}\n\`\`\``;
  return `${[
    '<!-- Generated from the commands by scripts/cli-pages.mjs. Do not edit. -->',
    '# The program in a terminal',
    block(programHelp(COMMANDS)),
    ...COMMANDS.flatMap((command) => [`## wireloft ${command.name}`, block(commandHelp(command))]),
    '## Streams and exit status',
    'Standard output carries the result and nothing else; progress and whatever went wrong go to standard error, and progress shows in a terminal only. If the reader of the output goes away (`wireloft check . | head`), the program ends quietly with the status it would have had.',
    EXIT_STATUSES.map(([status, text]) => `- \`${status}\`: ${text}`).join('\n'),
    'With status 3 the program reports itself in one line. Set `WIRELOFT_TRACE=1` and run it again to get the stack that a report of the fault should have.',
    '## JSON',
    'Fields are only ever added, and the second number of `format` grows when they are: ignore fields that you do not know.',
    schemaNames.map((name) => `- [${name}](schemas/${name})`).join('\n'),
    '## Comma-separated values',
    'RFC 4180, with a line of field names. A text that a spreadsheet would take for a formula, because it begins with `=`, `+`, `-` or `@`, gets an apostrophe in front.',
  ].join('\n\n')}\n`;
}
