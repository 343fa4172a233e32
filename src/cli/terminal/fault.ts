import { printable } from './printable.js';
import { STATUS, type Status, type World } from './world.js';

/**
 * One line about a fault of the program itself. Who looks for its cause sets WIRELOFT_TRACE and gets the stack as well.
 */
export function reportFault(error: unknown, world: Pick<World, 'error' | 'environment' | 'version'>): Status {
  const what = error instanceof Error ? `${error.name}: ${error.message}` : String(error);
  world.error.write(
    `wireloft: this is a fault of the program, not of your files: ${printable(what).slice(0, 300)} (version ${world.version}). Please report it.\n`,
  );
  const trace = (world.environment['WIRELOFT_TRACE'] ?? '') !== '';
  if (trace && error instanceof Error) world.error.write(`${error.stack ?? 'There is no stack.'}\n`);
  return STATUS.fault;
}
