/** Names of nodes: each terminal has one for each of its two conductors. */
import type { TerminalLoad } from '../loads/load.js';
import type { Load } from '../solve/circuit.js';

export const plusOf = (terminal: string): string => `${terminal}+`;
export const minusOf = (terminal: string): string => `${terminal}-`;

/** What a terminal draws at the most of its mode; undefined where it draws nothing or that is not known. */
export function loadOf(
  { terminal, running }: TerminalLoad,
  plus: string,
  minus: string,
  cutOutVolts?: number,
): Load | undefined {
  if (running === undefined || !(running.amount > 0)) return undefined;
  return {
    id: terminal,
    plus,
    minus,
    kind: running.unit === 'W' ? 'power' : 'current',
    amount: running.amount,
    ...(cutOutVolts === undefined ? {} : { cutOutVolts }),
  };
}
