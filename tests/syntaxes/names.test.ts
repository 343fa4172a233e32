/** A keyword where a name is meant is coloured as a name, whichever keyword and wherever it stands. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { IGrammar } from 'vscode-textmate';
import { allWords, reserved } from '../../scripts/syntax/words.mjs';
import { agreement } from './agreement.js';
import { loadColours } from './colours.js';

const fixture = (name: string): string => readFileSync(join(import.meta.dirname, 'fixtures', name), 'utf8');
const everywhere = fixture('names.txt');
const wherePossible = fixture('reserved.txt');

describe('a name that is spelt as a keyword', () => {
  let grammar: IGrammar;
  beforeAll(async () => {
    grammar = await loadColours();
  });

  it.each(allWords.filter((word) => !reserved.includes(word)))('%s', (word) => {
    const { errors, wrong } = agreement(grammar, everywhere.replaceAll('WORD', word));
    expect(errors).toEqual([]);
    expect(wrong).toEqual([]);
  });

  it.each([...allWords, 'größe', 'Ωmega', '舵'])('%s, where nothing else can stand', (word) => {
    const { errors, wrong } = agreement(grammar, wherePossible.replaceAll('WORD', word));
    expect(errors).toEqual([]);
    expect(wrong).toEqual([]);
  });
});
