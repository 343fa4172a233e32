/** The TextMate grammar as an editor runs it: by vscode-textmate on the Oniguruma engine. */
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import oniguruma from 'vscode-oniguruma';
import textmate, { type IGrammar } from 'vscode-textmate';

const root = join(import.meta.dirname, '..', '..');

/** A stretch of one line with the scopes it is coloured by, outermost first. */
export interface Coloured {
  readonly line: number;
  readonly start: number;
  readonly end: number;
  readonly text: string;
  readonly scopes: readonly string[];
}

/** The grammar's own text, parsed. */
export function grammarJson(): unknown {
  return JSON.parse(readFileSync(join(root, 'syntaxes', 'wireloft.tmLanguage.json'), 'utf8'));
}

/** Loads the grammar of syntaxes/; every pattern in it must compile. */
export async function loadColours(): Promise<IGrammar> {
  const wasm = createRequire(import.meta.url).resolve('vscode-oniguruma/release/onig.wasm');
  await oniguruma.loadWASM(readFileSync(wasm));
  const registry = new textmate.Registry({
    onigLib: Promise.resolve({
      createOnigScanner: (patterns) => new oniguruma.OnigScanner(patterns),
      createOnigString: (text) => new oniguruma.OnigString(text),
    }),
    loadGrammar: () =>
      Promise.resolve(textmate.parseRawGrammar(JSON.stringify(grammarJson()), 'wireloft.tmLanguage.json')),
  });
  const grammar = await registry.loadGrammar('source.wireloft');
  if (!grammar) throw new Error('the grammar source.wireloft was not found');
  return grammar;
}

/** Colours a whole text, line after line. */
export function colour(grammar: IGrammar, text: string): readonly Coloured[] {
  const tokens: Coloured[] = [];
  let stack = textmate.INITIAL;
  for (const [line, content] of text.split(/\r?\n/).entries()) {
    const result = grammar.tokenizeLine(content, stack);
    if (result.stoppedEarly) throw new Error(`line ${String(line + 1)} took too long to colour`);
    stack = result.ruleStack;
    for (const { startIndex, endIndex, scopes } of result.tokens) {
      const end = Math.min(endIndex, content.length);
      if (startIndex < end)
        tokens.push({ line, start: startIndex, end, text: content.slice(startIndex, end), scopes });
    }
  }
  return tokens;
}

/** The innermost scope of a token, without the language's own suffix. */
export function innermost(token: Coloured): string {
  return (token.scopes.at(-1) ?? '').replace(/\.wireloft$/, '');
}
