/** The help of the program and of each command, wrapped to a width. */
import type { Argument, Command, Option } from './command.js';

const WIDTH = 88;

const usageOf = (command: Command): string =>
  [
    'wireloft',
    command.name,
    ...command.arguments.map((argument) => argument.name),
    ...command.options.filter((option) => option.name === 'stdio').map((option) => `--${option.name}`),
    ...(command.options.some((option) => option.name !== 'stdio') ? ['[options]'] : []),
  ].join(' ');

const optionLabel = (option: Option): string =>
  option.value === undefined
    ? `--${option.name}`
    : `--${option.name} ${option.choices?.join('|') ?? option.value}`;

/** `wireloft --help` */
export function programHelp(commands: readonly Command[]): string {
  return [
    "wireloft: checks a vessel's electronics as written down in .loft files, and says what",
    'cannot work, why, and what would make it right.',
    '',
    'Usage: wireloft COMMAND [arguments]',
    '',
    'Commands:',
    ...columns(commands.map((command) => [command.name, command.summary])),
    '',
    'Options:',
    ...columns([
      ['--help', "This help, or after a command that command's."],
      ['--version', 'The version.'],
    ]),
    '',
    'Example:',
    '  wireloft check kittiwake.loft',
    '',
    'Exit status:',
    ...columns(EXIT_STATUSES),
    '',
  ].join('\n');
}

/** `wireloft COMMAND --help` */
export function commandHelp(command: Command): string {
  const options: Option[] = [...command.options, { name: 'help', text: 'This help.' }];
  return [
    `wireloft ${command.name}: ${command.summary}`,
    '',
    `Usage: ${usageOf(command)}`,
    '',
    ...command.about.flatMap((paragraph) => [...wrap(paragraph, WIDTH), '']),
    ...section('Arguments:', command.arguments.flatMap(argumentRows)),
    ...section(
      'Options:',
      options.map((option) => [optionLabel(option), option.text]),
    ),
    'Examples:',
    ...command.examples.flatMap((example) => [
      `  ${example.line}`,
      ...wrap(example.text, WIDTH - 6).map((line) => `      ${line}`),
    ]),
    '',
  ].join('\n');
}

export const EXIT_STATUSES: readonly (readonly [string, string])[] = [
  ['0', 'Clean; warnings are allowed unless --max-warnings says otherwise.'],
  ['1', 'There are findings of severity error, or too many warnings, or files to format.'],
  ['2', 'The command was used wrongly, or its input cannot be read.'],
  ['3', 'A fault of the program itself, reported in one line.'],
  ['130', 'Stopped by Ctrl-C. What "wireloft suggest" had found by then is printed.'],
];

const argumentRows = (argument: Argument): readonly (readonly [string, string])[] => [
  [argument.name, argument.choices ? `${argument.text} One of:` : argument.text],
  ...(argument.choices ?? []).map(([word, text]) => [`  ${word}`, text] as const),
];

function section(title: string, rows: readonly (readonly [string, string])[]): string[] {
  return rows.length === 0 ? [] : [title, ...columns(rows), ''];
}

/** Two columns, the second wrapped; a long first cell gets a line of its own. */
function columns(rows: readonly (readonly [string, string])[]): string[] {
  const left = Math.min(28, Math.max(...rows.map(([label]) => label.length)) + 2);
  return rows.flatMap(([label, text]) => {
    const lines = wrap(text, WIDTH - left - 2);
    const own = label.length + 2 > left;
    const first = own ? [`  ${label}`] : [`  ${label.padEnd(left)}${lines.shift() ?? ''}`];
    return [...first, ...lines.map((line) => `  ${' '.repeat(left)}${line}`)];
  });
}

/** Breaks a text at spaces; a word longer than the width stays whole. */
function wrap(text: string, width: number): string[] {
  const lines: string[] = [];
  let line = '';
  for (const word of text.split(' ')) {
    if (line !== '' && line.length + 1 + word.length > width) {
      lines.push(line);
      line = word;
    } else {
      line = line === '' ? word : `${line} ${word}`;
    }
  }
  return [...lines, line];
}
