/** Takes the pieces of .loft out of a page, so that what a page says can be held against what the tool does. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';

const root = join(import.meta.dirname, '..', '..', '..');
const prelude = readFileSync(join(root, 'tests', 'docs', 'prelude.loft'), 'utf8');

/** A fenced block of a page, as "```loft bad file=engines.loft". */
export interface Snippet {
  /** Line of the page on which the block begins, from 1. */
  readonly line: number;
  /** What stands after the language: `bad`, `good`, `whole`. */
  readonly words: readonly string[];
  /** The name it is kept under; the vessel's own file where none is given. */
  readonly file: string;
  /** It has a name, so it goes with the one before it. */
  readonly named: boolean;
  readonly text: string;
}

const FENCE = /^```loft([^\n]*)\n([\s\S]*?)^```$/gm;
const OWN_FILE = 'boat.loft';

/** Reads a page below the project's folder. */
export function readPage(path: string): string {
  return readFileSync(join(root, path), 'utf8');
}

/** Every block of the language in a page's text. */
export function snippetsOf(page: string): readonly Snippet[] {
  return [...page.matchAll(FENCE)].map((match) => {
    const words = (match[1] ?? '').split(' ').filter((word) => word !== '');
    const named = words.find((word) => word.startsWith('file='));
    return {
      line: page.slice(0, match.index).split('\n').length,
      words: words.filter((word) => word !== named),
      named: named !== undefined,
      file: named?.slice('file='.length) ?? OWN_FILE,
      text: match[2] ?? '',
    };
  });
}

/**
 * The files that snippets stand for, by name. What is not `whole` and has no name of its own stands in a boat that is
 * declared already: the prelude goes before it.
 */
export function filesOf(snippets: readonly Snippet[]): ReadonlyMap<string, string> {
  const files = new Map<string, string>();
  for (const { file, words, text } of snippets) {
    if (files.has(file)) throw new Error(`Two snippets are named ${file}.`);
    files.set(file, words.includes('whole') || file !== OWN_FILE ? text : prelude + text);
  }
  return files;
}
