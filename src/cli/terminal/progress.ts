/** Progress for whoever waits in front of a terminal; silent anywhere else. */
import { printable } from './printable.js';
import type { Sink } from './world.js';

export interface Progress {
  /** Shows another line in the place of the one that is shown. */
  readonly show: (text: string) => void;
  /** May be called more than once. */
  readonly clear: () => void;
}

/** Shows a line until it is cleared. */
export function startProgress(sink: Sink, text: string): Progress {
  if (!sink.terminal) return { show: () => undefined, clear: () => undefined };
  let shown = false;
  const clear = (): void => {
    // Back to the start of the line, and erase it (ECMA-48 CR and EL).
    if (shown) sink.write('\r\u001b[K');
    shown = false;
  };
  const show = (line: string): void => {
    clear();
    sink.write(printable(line).slice(0, (sink.columns ?? 80) - 1));
    shown = true;
  };
  show(text);
  return { show, clear };
}
