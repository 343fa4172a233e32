/** Hover on what the bundled library declares, and on a file that is used. */
import * as ast from '../../generated/ast.js';
import type { FileFacts } from '../../naming/facts.js';
import { LIBRARY_PROPERTIES } from '../../typing/library.js';
import { rulesOf } from '../../typing/keywords.js';
import { bold, escape, type Card } from './card.js';

type Declared = ast.SignalDecl | ast.MediumDecl | ast.ClassDecl | ast.ExposureDecl | ast.FuseTypeDecl;

export function isLibraryDeclared(node: unknown): node is Declared {
  return (
    ast.isSignalDecl(node) ||
    ast.isMediumDecl(node) ||
    ast.isClassDecl(node) ||
    ast.isExposureDecl(node) ||
    ast.isFuseTypeDecl(node)
  );
}

export function libraryCard(node: Declared, covered: readonly string[], doc: string | undefined): Card {
  const kind = node.$type.replace(/Decl$/, '').toLowerCase().replace('fusetype', 'fuse type');
  const lines = node.title === undefined ? [] : [escape(node.title)];
  if (ast.isClassDecl(node) || ast.isMediumDecl(node)) {
    const { must, may } = rulesOf(node);
    if (must.length > 0) lines.push(`Must state ${must.join(', ')}.`);
    if (may.length > 0) lines.push(`May state ${may.join(', ')}.`);
  } else {
    // What the declaration says, as it says it.
    for (const property of node.properties)
      lines.push(
        ast.isExposureFlag(property)
          ? (LIBRARY_PROPERTIES[property.key]?.doc ?? '')
          : escape((property.$cstNode?.text ?? '').replace(/\s+/g, ' ')),
      );
  }
  if (covered.length > 0) lines.push(`Covers ${escape(covered.join(', '))}.`);
  return { heading: `${kind} ${bold(node.name)}`, lines, doc };
}

export function fileCard(path: string, facts: FileFacts): Card {
  const counts = [
    [facts.names.goods.size, 'name of models, cables and families', 'names of models, cables and families'],
    [facts.names.signal.size, 'signal', 'signals'],
    [facts.names.aboard.size, 'name of things aboard', 'names of things aboard'],
  ] as const;
  return {
    heading: `${facts.kind} ${bold(path)}`,
    lines: counts
      .filter(([count]) => count > 0)
      .map(([count, one, more]) => `${count} ${count === 1 ? one : more}`),
  };
}
