import { join } from 'node:path';
import { layOut } from '../format/layout.js';
import { createFile, systemMessage } from '../files/write.js';
import { quoted } from '../terminal/arguments.js';
import type { Invocation } from '../terminal/command.js';
import { STATUS, UsageError, type Status, type World } from '../terminal/world.js';
import { nameProblem, suggestName } from './name.js';
import { starter } from './starter.js';

export async function runNew(invocation: Invocation, world: World): Promise<Status> {
  const name = (invocation.arguments[0] ?? '').normalize('NFC');
  const problem = nameProblem(name);
  if (problem !== undefined)
    throw new UsageError(`${quoted(name)} is no name for a vessel: ${problem} Try ${suggestName(name)}.`);
  const file = `${name}.loft`;
  try {
    if (!(await createFile(join(world.folder, file), layOut(starter(name)).text)))
      throw new UsageError(
        `${file} is there already, and is left as it is. Give another name, or move that file away.`,
      );
  } catch (error) {
    const reason = systemMessage(error);
    if (reason === undefined) throw error;
    throw new UsageError(`${file} cannot be written here: ${reason}.`);
  }
  world.out.write(`${file}\n`);
  world.error.write(`Written. Check it with "wireloft check ${file}".\n`);
  return STATUS.clean;
}
