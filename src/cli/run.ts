/** From the words of the command line to an exit status. */
import { nearest } from '../language/naming/nearest.js';
import { listOf } from '../vessel/words.js';
import { COMMANDS } from './commands.js';
import { quoted, readArguments } from './terminal/arguments.js';
import type { Command } from './terminal/command.js';
import { reportFault } from './terminal/fault.js';
import { commandHelp, programHelp } from './terminal/help.js';
import { printable } from './terminal/printable.js';
import { STATUS, UsageError, type Status, type World } from './terminal/world.js';

/** Runs one command. Never throws: whatever goes wrong becomes a line on the error stream and a status. */
export async function run(
  words: readonly string[],
  world: World,
  commands: readonly Command[] = COMMANDS,
): Promise<Status> {
  const [name, ...rest] = words;
  try {
    if (name === undefined) {
      world.error.write(programHelp(commands));
      return STATUS.usage;
    }
    if (name === '--help' || name === '-h') return print(world, programHelp(commands));
    if (name === '--version' || name === '-V') return print(world, `${world.version}\n`);
    const command = commands.find((candidate) => candidate.name === name);
    if (!command) throw unknownCommand(name, commands);
    if (asksForHelp(rest)) return print(world, commandHelp(command));
    return await command.run(readArguments(command, rest), world);
  } catch (error) {
    if (!(error instanceof UsageError)) return reportFault(error, world);
    const help = commands.some((command) => command.name === name)
      ? `wireloft ${name ?? ''} --help`
      : 'wireloft --help';
    world.error.write(`wireloft: ${error.message}\nSee "${help}".\n`);
    return STATUS.usage;
  }
}

function print(world: World, text: string): Status {
  world.out.write(text);
  return STATUS.clean;
}

/** `--help` counts wherever it stands, unless `--` ended the options before it. */
function asksForHelp(words: readonly string[]): boolean {
  const end = words.indexOf('--');
  const options = end < 0 ? words : words.slice(0, end);
  return options.includes('--help') || options.includes('-h');
}

function unknownCommand(name: string, commands: readonly Command[]): UsageError {
  const names = commands.map((command) => command.name);
  if (name.endsWith('.loft'))
    return new UsageError(`${quoted(name)} is no command. Did you mean "wireloft check ${printable(name)}"?`);
  const near = nearest(name, names);
  const hint = near === undefined ? `There are ${listOf(names, 'and', 12)}.` : `Did you mean ${near}?`;
  return new UsageError(`There is no command ${quoted(name)}. ${hint}`);
}
