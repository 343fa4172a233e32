/** What a command is: its help, its options, and what it does. The help is data, so that the docs are made from it. */
import type { Status, World } from './world.js';

export interface Option {
  /** Long name without dashes. */
  readonly name: string;
  /** What its value is called in the help; undefined for a flag. */
  readonly value?: string;
  /** The only values it takes. */
  readonly choices?: readonly string[];
  readonly text: string;
}

export interface Argument {
  /** As in the usage line, `PATH...`. Dots: one or more. */
  readonly name: string;
  /** The only words it takes, each with what it means. */
  readonly choices?: readonly (readonly [word: string, text: string])[];
  readonly text: string;
}

export interface Example {
  readonly line: string;
  readonly text: string;
}

/** What was typed, read and found to fit the command's options and arguments. */
export interface Invocation {
  readonly arguments: readonly string[];
  readonly flag: (name: string) => boolean;
  readonly value: (name: string) => string | undefined;
}

export interface Command {
  readonly name: string;
  readonly summary: string;
  /** Paragraphs. */
  readonly about: readonly string[];
  readonly arguments: readonly Argument[];
  readonly options: readonly Option[];
  readonly examples: readonly Example[];
  /** Loads what it needs when it is called, and not before. */
  readonly run: (invocation: Invocation, world: World) => Promise<Status>;
}

export const COLOUR_OPTION: Option = {
  name: 'color',
  value: 'WHEN',
  choices: ['auto', 'always', 'never'],
  text: 'Colours in the output. The default, auto, follows the terminal and NO_COLOR.',
};

export const ROOT_OPTION: Option = {
  name: 'root',
  value: 'DIR',
  text: 'No "use" may lead out of this folder. The default is the git root, else the working folder, else the smallest folder with all that is checked.',
};

export const TODAY_OPTION: Option = {
  name: 'today',
  value: 'DATE',
  text: 'The date that waivers with "until" are held against, as 2026-05-01. The default is today.',
};

export const WITH_OPTION: Option = {
  name: 'with',
  value: 'NAME,...',
  text: 'The vessel with these of its options together.',
};
