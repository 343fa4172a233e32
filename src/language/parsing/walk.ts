/**
 * Walks over syntax trees. Langium's streams do the same with an iterator for every node, which in a large boat takes longer than
 * what is done at the nodes.
 */
import { isAstNode, isReference, type AstNode, type GenericAstNode, type ReferenceInfo } from 'langium';

/** Calls `visit` with a node and everything below it: a node before its children, children in the order of their properties. */
export function walk(node: AstNode, visit: (node: AstNode) => void): void {
  visit(node);
  walkBelow(node as GenericAstNode, visit);
}

function walkBelow(node: GenericAstNode, visit: (node: AstNode) => void): void {
  // Not Object.entries: its arrays cost more than the walk.
  for (const key in node) {
    const value = node[key];
    // What begins with "$" is the tree's own: container, document, text.
    if (typeof value !== 'object' || value === null || key.startsWith('$')) continue;
    if (Array.isArray(value)) {
      for (const item of value) if (isAstNode(item)) walk(item, visit);
    } else if (isAstNode(value)) walk(value, visit);
  }
}

/** Calls `visit` with every cross-reference of a node, those of its children not included. */
export function eachReference(node: GenericAstNode, visit: (info: ReferenceInfo) => void): void {
  for (const property in node) {
    const value = node[property];
    if (typeof value !== 'object' || value === null || property.startsWith('$')) continue;
    if (Array.isArray(value)) {
      for (let index = 0; index < value.length; index++) {
        const reference: unknown = value[index];
        if (isReference(reference)) visit({ reference, container: node, property, index });
      }
    } else if (isReference(value)) visit({ reference: value, container: node, property });
  }
}
