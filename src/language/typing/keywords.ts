import type { AstNode } from 'langium';
import * as ast from '../generated/ast.js';

/** The keyword a property begins with, as class and medium declarations name it. */
export function propertyKeyword(node: AstNode): string {
  if (ast.isPortDecl(node)) return 'port';
  if (ast.isServiceFeature(node)) return 'service';
  if ('key' in node && typeof node.key === 'string') return node.key;
  return /^\s*([a-z]+)/.exec(node.$cstNode?.text ?? '')?.[1] ?? '';
}

/** Properties that any class may have. */
export const ALWAYS: readonly string[] = ['title', 'part', 'price', 'note', 'port'];

export interface PropertyRules {
  readonly must: readonly string[];
  readonly may: readonly string[];
}

/** What a class or medium declaration says its models or ports must and may have. */
export function rulesOf(declaration: ast.ClassDecl | ast.MediumDecl): PropertyRules {
  const words = (key: 'must' | 'may'): string[] =>
    declaration.properties.flatMap((property) =>
      ast.isWordsProperty(property) && property.key === key ? property.words : [],
    );
  return { must: words('must'), may: words('may') };
}
