/** Every command that there is, in the order of the help. */
import { CHECK } from './check/command.js';
import { COMPARE } from './compare/command.js';
import { DRAW } from './draw/command.js';
import { FORMAT } from './format/command.js';
import { LIST } from './list/command.js';
import { LSP } from './lsp/command.js';
import { REPORT } from './report/command.js';
import { SUGGEST } from './suggest/command.js';
import { NEW } from './new/command.js';
import type { Command } from './terminal/command.js';

export const COMMANDS: readonly Command[] = [CHECK, LIST, DRAW, REPORT, SUGGEST, COMPARE, FORMAT, NEW, LSP];
