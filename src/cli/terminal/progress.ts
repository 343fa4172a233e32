/** Progress for whoever waits in front of a terminal; silent anywhere else. */
import { printable } from './printable.js';
import type { Sink } from './world.js';

/** Shows a line until it is cleared, which may be done more than once. */
export function startProgress(sink: Sink, text: string): { readonly clear: () => void } {
  if (!sink.terminal) return { clear: () => undefined };
  sink.write(printable(text).slice(0, (sink.columns ?? 80) - 1));
  let shown = true;
  return {
    clear: () => {
      // Back to the start of the line, and erase it (ECMA-48 CR and EL).
      if (shown) sink.write('\r\u001b[K');
      shown = false;
    },
  };
}
