/** Files that a `use` may name. */
import { relativePath } from '../../../naming/paths.js';
import { isInside } from '../../../naming/paths.js';
import type { FileFacts } from '../../../naming/facts.js';
import type { Boat } from '../boat.js';
import { kinds, type Suggestion } from '../suggestion.js';

/** Files under the root that are not used yet: catalogues, and fragments of the vessel. Paths with their quotes. */
export function paths(boat: Boat): Suggestion[] {
  const { closures, document, facts } = boat;
  const root = closures.root(document.uri);
  const used = new Set(facts.uses.map((use) => use.target.uri?.toString()));
  const found: { path: string; facts: FileFacts }[] = [];
  for (const uri of closures.loadedFiles()) {
    const other = closures.document(uri);
    if (!other || uri === facts.uri || used.has(uri)) continue;
    if (other.uri.scheme === 'file' && !isInside(other.uri, root)) continue;
    const otherFacts = closures.facts(other);
    if (isUsable(otherFacts, boat))
      found.push({ path: relativePath(document.uri, other.uri), facts: otherFacts });
  }
  return found
    .sort((a, b) => depth(a.path) - depth(b.path) || (a.path < b.path ? -1 : 1))
    .map(({ path, facts: other }) => ({ label: `"${path}"`, kind: kinds.file, detail: whatItIs(other) }));
}

/** A vessel's file is used by nobody, and a fragment by its own vessel's files alone. */
function isUsable(other: FileFacts, boat: Boat): boolean {
  if (other.kind === 'fragment') return other.aboard?.vessel?.$refText === boat.closure?.vessel?.name;
  return other.kind === 'catalogue';
}

const depth = (path: string): number => path.split('/').length;

function whatItIs(facts: FileFacts): string {
  if (facts.kind === 'fragment') return `fragment aboard ${facts.aboard?.vessel?.$refText ?? ''}`;
  const families = [...facts.names.goods].filter(([, nodes]) => nodes[0]?.$type === 'FamilyDecl');
  const goods = facts.names.goods.size - families.length;
  return `catalogue of ${goods} models and cables${families.length > 0 ? `, family ${families.map(([name]) => name).join(', ')}` : ''}`;
}
