/** Files of a command that writes into a folder. */
import { mkdir } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import { quoted } from '../terminal/arguments.js';
import { printable } from '../terminal/printable.js';
import { UsageError, type World } from '../terminal/world.js';
import { putFile, systemMessage } from './write.js';

export interface Output {
  readonly name: string;
  readonly content: string | Uint8Array;
}

/**
 * Puts the files into the folder, which is made if it is not there, and names each on the output.
 * @throws UsageError where the folder cannot be written to
 */
export async function writeAll(outputs: readonly Output[], out: string, world: World): Promise<void> {
  const folder = resolve(world.folder, out);
  try {
    await mkdir(folder, { recursive: true });
    for (const { name, content } of outputs) {
      await putFile(join(folder, name), content);
      world.out.write(`${printable(`${out.replace(/[/\\]+$/, '')}/${name}`)}\n`);
    }
  } catch (error) {
    const reason = systemMessage(error);
    if (reason === undefined) throw error;
    throw new UsageError(`--out ${quoted(out)} cannot be written to: ${reason}.`);
  }
}
