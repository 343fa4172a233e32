/** Reads a command's arguments with Node's own reader, and says in plain words what does not fit. */
import { parseArgs } from 'node:util';
import { nearest } from '../../language/naming/nearest.js';
import { listOf } from '../../vessel/words.js';
import type { Argument, Command, Invocation, Option } from './command.js';
import { printable } from './printable.js';
import { UsageError } from './world.js';

/** @throws UsageError naming the argument and what would be right */
export function readArguments(command: Command, words: readonly string[]): Invocation {
  const types = Object.fromEntries(
    command.options.map((option) => [
      option.name,
      { type: option.value === undefined ? 'boolean' : 'string' } as const,
    ]),
  );
  const { tokens } = parseArgs({
    args: [...words],
    options: types,
    allowPositionals: true,
    strict: false,
    tokens: true,
  });
  const given: string[] = [];
  const values = new Map<string, string>();
  const flags = new Set<string>();
  for (const token of tokens) {
    if (token.kind === 'positional') given.push(token.value);
    if (token.kind !== 'option') continue;
    const option = command.options.find((candidate) => candidate.name === token.name);
    if (option === undefined || !token.rawName.startsWith('--')) throw unknownOption(command, token.rawName);
    if (flags.has(option.name) || values.has(option.name))
      throw new UsageError(`--${option.name} is given twice. Give it once.`);
    if (option.value === undefined) {
      if (token.value !== undefined)
        throw new UsageError(`--${option.name} takes no value, and is given ${quoted(token.value)}.`);
      flags.add(option.name);
    } else {
      values.set(option.name, checkedValue(option, token.value, token.inlineValue === true));
    }
  }
  checkCount(command, given);
  checkChoices(command.arguments, given);
  return { arguments: given, flag: (name) => flags.has(name), value: (name) => values.get(name) };
}

function unknownOption(command: Command, written: string): UsageError {
  const names = [...command.options.map((option) => `--${option.name}`), '--help'];
  const near = nearest(written, names);
  const hint = near === undefined ? `It has ${listOf(names, 'and', 12)}.` : `Did you mean ${near}?`;
  return new UsageError(`${command.name} has no option ${quoted(written)}. ${hint}`);
}

function checkedValue(option: Option, value: string | undefined, inline: boolean): string {
  const what = option.value ?? '';
  // `--root --today` is a forgotten value, not a folder of that name; `--root=--today` is meant.
  if (value === undefined || value === '' || (!inline && value.startsWith('--')))
    throw new UsageError(
      `--${option.name} wants a value: --${option.name} ${option.choices?.join('|') ?? what}.`,
    );
  if (option.choices && !option.choices.includes(value))
    throw new UsageError(`--${option.name} is ${listOf(option.choices, 'or')}, not ${quoted(value)}.`);
  return value;
}

const repeats = (argument: Argument | undefined): boolean => argument?.name.endsWith('...') ?? false;

function checkCount(command: Command, given: readonly string[]): void {
  const missing = command.arguments[given.length];
  if (given.includes('')) throw new UsageError(`${command.name} is given an empty argument. Leave it out.`);
  if (missing) throw new UsageError(`${command.name} wants ${missing.name}: ${missing.text}`);
  const extra = given[command.arguments.length];
  if (extra !== undefined && !repeats(command.arguments.at(-1)))
    throw new UsageError(`${command.name} takes no further argument, and is given ${quoted(extra)}.`);
}

function checkChoices(expected: readonly Argument[], given: readonly string[]): void {
  for (const [index, argument] of expected.entries()) {
    const word = given[index];
    const choices = argument.choices?.map(([choice]) => choice);
    if (word === undefined || !choices || choices.includes(word)) continue;
    const near = nearest(word, choices);
    const hint = near === undefined ? '' : ` Did you mean ${near}?`;
    throw new UsageError(
      `${argument.name} is ${listOf(choices, 'or', choices.length)}, not ${quoted(word)}.${hint}`,
    );
  }
}

/** A word of the reader's as it is quoted back. */
export const quoted = (word: string): string => `"${printable(word)}"`;

/** @throws UsageError where the option's value is no date of the calendar, written as 2026-05-01 */
export function dateOption(name: string, value: string): string {
  const date = new Date(`${value}T00:00:00Z`);
  const right =
    /^\d{4}-\d{2}-\d{2}$/.test(value) &&
    !Number.isNaN(date.getTime()) &&
    date.toISOString().startsWith(value);
  if (!right) throw new UsageError(`--${name} wants a date such as 2026-05-01, not ${quoted(value)}.`);
  return value;
}

/** @throws UsageError where the option's value is no whole number from 0 */
export function countOption(name: string, value: string): number {
  if (!/^\d{1,9}$/.test(value))
    throw new UsageError(`--${name} wants a whole number from 0, not ${quoted(value)}.`);
  return Number(value);
}
