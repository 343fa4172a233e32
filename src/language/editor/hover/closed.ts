/** Hover on words out of closed lists: what the hull is of, a battery's chemistry, a grade of sonar. */
import type { AstNode } from 'langium';
import * as ast from '../../generated/ast.js';
import { GRADES } from '../../typing/library.js';
import {
  CHEMISTRIES,
  CONNECTIONS,
  HULLS,
  LOAD_KINDS,
  PRACTICES,
  SERVICES,
  SIDES,
  STATUSES,
  type WordList,
} from '../../typing/words.js';
import { code, escape, type Card } from './card.js';

/** The card of a word that its place takes from a closed list. */
export function closedWordCard(word: string, node: AstNode): Card | undefined {
  const list = listAt(node);
  const meaning = list && Object.hasOwn(list, word) ? list[word] : undefined;
  return meaning === undefined ? undefined : { heading: code(word), lines: [escape(meaning)] };
}

function listAt(node: AstNode): WordList | undefined {
  if (ast.isVesselWord(node))
    return node.key === 'practice'
      ? PRACTICES
      : node.key === 'hull'
        ? HULLS
        : node.key === 'status'
          ? STATUSES
          : undefined;
  if (ast.isWordProperty(node)) return node.key === 'kind' ? LOAD_KINDS : CHEMISTRIES;
  if (ast.isZoneWord(node)) return node.key === 'side' ? SIDES : undefined;
  if (ast.isServiceFeature(node)) return SERVICES;
  if (ast.isConnectsProperty(node)) return CONNECTIONS;
  return ast.isAcceptsFeature(node) || ast.isSignalItem(node) ? GRADES : undefined;
}
