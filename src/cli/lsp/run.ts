import type { Invocation } from '../terminal/command.js';
import { STATUS, UsageError, type Status } from '../terminal/world.js';

export async function runLsp(invocation: Invocation): Promise<Status> {
  if (!invocation.flag('stdio'))
    throw new UsageError('lsp speaks over standard input and output only: give --stdio.');
  await import('../../extension/server/main.js');
  return STATUS.clean;
}
