/** What a snippet inserts is right as it stands, but for the names that its reader has to fill in. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pathToFileURL } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { statementWords } from '../../scripts/syntax/words.mjs';
import { openProject } from '../../src/language/project/open.js';

interface Snippet {
  readonly prefix: string | readonly string[];
  readonly body: readonly string[];
  readonly description: string;
}

const path = join(import.meta.dirname, '..', '..', 'snippets', 'wireloft.json');
const snippets = JSON.parse(readFileSync(path, 'utf8')) as Readonly<Record<string, Snippet>>;

/** Statements that only the bundled library makes. */
const libraryOnly = ['medium', 'class', 'exposure', 'fusetype'];

const choice = /\$\{\d+\|([^|]*)\|\}/g;
const placeholder = /\$\{(\d+):([^}]*)\}/g;

/** The texts that a snippet inserts: with the first choice everywhere, and with every other choice once. */
function expansions(body: string): readonly string[] {
  const longest = Math.max(1, ...[...body.matchAll(choice)].map(([, words = '']) => words.split(',').length));
  const defaults = new Map([...body.matchAll(placeholder)].map(([, number, text]) => [number, text]));
  return Array.from({ length: longest }, (_, index) =>
    body
      .replace(choice, (_whole, words: string) => {
        const all = words.split(',');
        return all[index % all.length] ?? '';
      })
      .replace(placeholder, '$2')
      .replace(/\$(\d+)/g, (_whole, number: string) => defaults.get(number) ?? ''),
  );
}

/** Puts a text where its snippet belongs. */
function inPlace(name: string, text: string): string {
  if (name === 'Port' || name === 'Power port') return `model Thing : gateway { ${text} }\n`;
  if (name === 'Waiver') return `vessel Boat\nzone bow exposed ${text}\n`;
  return /^(?:Vessel|Aboard|Family|Model|Cable|Signal)/.test(name) ? `${text}\n` : `vessel Boat\n${text}\n`;
}

const folder = mkdtempSync(join(tmpdir(), 'wireloft-snippets-'));
afterAll(() => rmSync(folder, { recursive: true }));

/** A finding with the text it is about. */
interface Found {
  readonly rule: string;
  readonly message: string;
  readonly text: string;
}

/** What is found in every expansion of every snippet, by the snippet's name. */
async function findings(): Promise<ReadonlyMap<string, readonly Found[]>> {
  const written = new Map<string, { readonly name: string; readonly lines: readonly string[] }>();
  for (const [name, snippet] of Object.entries(snippets))
    for (const [index, expansion] of expansions(snippet.body.join('\n')).entries()) {
      const file = join(folder, `${name.replace(/\W+/g, '-')}-${String(index)}.loft`);
      const text = inPlace(name, expansion);
      writeFileSync(file, text);
      written.set(pathToFileURL(file).href, { name, lines: text.split('\n') });
    }
  const { report, unreadable } = await openProject([folder], { root: folder, today: '2026-01-01' });
  if (unreadable.length > 0) throw new Error(unreadable.map((one) => one.message).join('\n'));
  const found = new Map<string, Found[]>(Object.keys(snippets).map((name) => [name, []]));
  for (const { rule, message, place } of [...report.vessels, ...report.files].flatMap(
    (one) => one.problems,
  )) {
    const source = written.get(place.file);
    const { start, end } = place.range;
    const text = source?.lines[start.line]?.slice(start.character, end.character) ?? '';
    found.get(source?.name ?? '')?.push({ rule, message, text });
  }
  return found;
}

describe('the snippets', () => {
  let found: ReadonlyMap<string, readonly Found[]>;
  beforeAll(async () => {
    found = await findings();
  });

  it('begin every statement that can be written', () => {
    const prefixes = new Set(Object.values(snippets).flatMap((snippet) => snippet.prefix));
    const missing = statementWords.filter((word) => !prefixes.has(word) && !libraryOnly.includes(word));
    expect(missing).toEqual([]);
  });

  it('are read by the parser: names that are not filled in are found', () => {
    expect([...found.values()].flat().filter(({ rule }) => rule === 'type/unknown-name')).not.toEqual([]);
  });

  it.each(Object.entries(snippets))('%s', (name, snippet) => {
    expect(snippet.description).not.toBe('');
    const toFill = new Set(
      [...snippet.body.join('\n').matchAll(placeholder)].flatMap(([, , text = '']) => text.split('.')),
    );
    const own = (found.get(name) ?? []).filter(
      ({ rule, text }) =>
        /^(?:syntax|type|catalogue)/.test(rule) &&
        !(rule === 'type/unknown-name' && text.split('.').some((it) => toFill.has(it))),
    );
    expect(own).toEqual([]);
  });
});
