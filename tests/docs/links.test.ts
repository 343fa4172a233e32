/** Every link of a page leads to a file of the project, and to a heading that is there. */
import { existsSync, readdirSync, readFileSync, statSync } from 'node:fs';
import { dirname, join, relative } from 'node:path';
import { describe, expect, it } from 'vitest';

const root = join(import.meta.dirname, '..', '..');
const pages = [
  ...readdirSync(root).filter((name) => name.endsWith('.md')),
  ...readdirSync(join(root, 'docs'), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.md'))
    .map((name) => join('docs', name)),
].sort();

/** A page's text without what only looks like a link. */
const prose = (text: string): string => text.replace(/^```[\s\S]*?^```$/gm, '').replace(/`[^`\n]*`/g, '');

/** The anchors of a page's headings, as the usual hosts of Markdown make them. */
function anchorsOf(text: string): ReadonlySet<string> {
  const headings = text.replace(/^```[\s\S]*?^```$/gm, '').matchAll(/^#+ (.+)$/gm);
  return new Set(
    [...headings].map((match) =>
      (match[1] ?? '')
        .toLowerCase()
        .replace(/[^\p{L}\p{N}\- _]/gu, '')
        .replaceAll(' ', '-'),
    ),
  );
}

function broken(page: string, target: string): string | undefined {
  const [path = '', anchor] = target.split('#');
  const file = path === '' ? join(root, page) : join(root, dirname(page), path);
  if (!existsSync(file)) return `${target} leads to no file`;
  if (relative(root, file).startsWith('..')) return `${target} leads out of the project`;
  if (anchor === undefined) return undefined;
  if (statSync(file).isDirectory()) return `${target} leads to a heading of a folder`;
  return anchorsOf(readFileSync(file, 'utf8')).has(anchor) ? undefined : `${target} leads to no heading`;
}

describe.each(pages)('%s', (page) => {
  it('has links that lead somewhere', () => {
    const text = prose(readFileSync(join(root, page), 'utf8'));
    const targets = [...text.matchAll(/\]\(([^)\s]+)\)/g)].map((match) => match[1] ?? '');
    // A page must not lean on the net, nor send its reader to a shop.
    expect(targets.filter((target) => /^[a-z]+:/i.test(target))).toEqual([]);
    expect(targets.flatMap((target) => broken(page, target) ?? [])).toEqual([]);
  });
});
