/** Hover on the small words that glue a statement together: each means what its place makes it mean. */
import type { AstNode } from 'langium';
import * as ast from '../../generated/ast.js';
import { code, type Card } from './card.js';

type Meaning = readonly [where: (node: AstNode) => boolean, doc: string];

const MEANINGS: Readonly<Record<string, readonly Meaning[]>> = {
  at: [
    [ast.isDeviceDecl, 'The zone it is in; of a flush-mounted one, the zone of its face.'],
    [ast.isJoinClause, 'The zone where the cable is joined.'],
    [ast.isTeeItem, 'The zone of the tee.'],
    [ast.isTapItem, 'The zone where the backbone is fed.'],
    [ast.isProtection, 'The device at whose end the fuse or breaker sits.'],
    [ast.isStockItem, 'The price of this length.'],
    [ast.isCapacityProperty, 'The time of discharge for which the capacity is stated.'],
    [ast.isLossProperty, 'The frequency for which the loss is stated.'],
    [ast.isInterruptItem, 'The voltage for which the current is stated.'],
    [ast.isSignalItem, 'How often it comes, or is wanted.'],
    [ast.isMessageItem, 'How often it is sent.'],
    [(node) => ast.isPgnProperty(node) || ast.isSentenceProperty(node), 'How often it is usually sent.'],
  ],
  on: [
    [ast.isSpareGoal, 'The devices on which so many ports must be free.'],
    [ast.isViewDecl, 'The screen.'],
  ],
  in: [
    [ast.isLastAbility, 'The mode in which the bank must last.'],
    [ast.isDayPart, 'A mode, and how long of the day it lasts.'],
    [ast.isTerminatorItem, 'The device that the terminator is built into.'],
  ],
  from: [
    [ast.isTapItem, 'What feeds the backbone.'],
    [ast.isPreferDecl, 'The source that is taken first; the others follow where it is silent.'],
  ],
  to: [
    [ast.isAddEdit, 'The backbone that the tee goes on.'],
    [ast.isSagsProperty, 'The lowest voltage while an engine is cranked.'],
  ],
  after: [[ast.isAddEdit, 'The device whose tee comes right before it on the backbone.']],
  before: [[ast.isAddEdit, 'The device whose tee comes right after it on the backbone.']],
  without: [
    [ast.isShowAbility, 'While these are off.'],
    [ast.isPassesProperty, 'All but these messages.'],
  ],
  with: [
    [ast.isPassesProperty, 'These messages alone.'],
    [ast.isSyncedProperty, 'The sounders that it takes turns with.'],
  ],
  under: [[ast.isCostGoal, 'What the whole must stay under.']],
  joined: [[ast.isNegativeDecl, 'The negatives of these banks are one.']],
  apart: [[ast.isNegativeDecl, 'The negatives of these banks are kept apart on purpose.']],
  or: [[ast.isDeviceDecl, 'An open choice: the first model is the base, the others are its alternatives.']],
  over: [[ast.isPane, 'What lies under it in the same pane.']],
  and: [[ast.isLastAbility, 'Then the bank must still start these engines.']],
  crank: [[ast.isLastAbility, 'Then the bank must still start these engines.']],
  joins: [[ast.isPositionDecl, 'The ports that are joined in this position.']],
};

/** The card of a word whose meaning its place decides. */
export function glueCard(word: string, node: AstNode): Card | undefined {
  const meanings = Object.hasOwn(MEANINGS, word) ? MEANINGS[word] : undefined;
  const doc = meanings?.find(([where]) => where(node))?.[1];
  return doc === undefined ? undefined : { heading: code(word), lines: [doc] };
}
