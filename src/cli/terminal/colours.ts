/** Colours for a terminal (SGR sequences of ECMA-48). */
import type { Severity } from '../../checks/finding.js';
import type { Sink, World } from './world.js';

export const COLOUR_CHOICES = ['auto', 'always', 'never'] as const;
export type ColourChoice = (typeof COLOUR_CHOICES)[number];

/** Paints text, or leaves it as it is where there are no colours. */
export interface Paint {
  readonly bold: (text: string) => string;
  readonly dim: (text: string) => string;
  readonly severity: (severity: Severity, text: string) => string;
  readonly good: (text: string) => string;
}

const same = (text: string): string => text;
export const PLAIN: Paint = { bold: same, dim: same, severity: (_severity, text) => text, good: same };

const sgr =
  (on: number, off: number) =>
  (text: string): string =>
    text === '' ? '' : `\u001b[${on}m${text}\u001b[${off}m`;

const severities: Readonly<Record<Severity, (text: string) => string>> = {
  error: sgr(31, 39),
  warning: sgr(33, 39),
  information: sgr(36, 39),
};
const COLOURED: Paint = {
  bold: sgr(1, 22),
  dim: sgr(2, 22),
  severity: (severity, text) => severities[severity](text),
  good: sgr(32, 39),
};

/** `auto` follows the terminal, NO_COLOR (set and not empty) and TERM. */
export function paintFor(choice: ColourChoice, sink: Sink, environment: World['environment']): Paint {
  if (choice === 'always') return COLOURED;
  const silenced = (environment['NO_COLOR'] ?? '') !== '' || environment['TERM'] === 'dumb';
  return choice === 'auto' && sink.terminal && !silenced ? COLOURED : PLAIN;
}
