/** Which dimension a quantity must have at its place. */
import type { AstNode } from 'langium';
import type { Dimension } from '../../vessel/units.js';
import * as ast from '../generated/ast.js';
import { CABLE_PROPERTIES, MODEL_PROPERTIES, PORT_FEATURES, type Property } from './properties.js';

export interface Expectation {
  /** What the sentence begins with: "fuse", "a drop". */
  readonly what: string;
  readonly wants: readonly Dimension[];
}

const keyed = (table: Readonly<Record<string, Property>>, key: string): Expectation => ({
  what: key,
  wants: table[key]?.wants ?? [],
});
const one = (what: string, ...wants: Dimension[]): Expectation => ({ what, wants });

/** What is expected of a quantity or an interval; undefined where nothing is known. */
export function expectationOf(node: ast.Quantity | ast.Interval): Expectation | undefined {
  return expectedIn(node.$container, node.$containerProperty ?? '');
}

/** The same by container and property, for a quantity not yet written. */
export function expectedIn(container: AstNode, property: string): Expectation | undefined {
  switch (container.$type) {
    case 'QuantityProperty':
    case 'LengthProperty':
      return keyed(MODEL_PROPERTIES, (container as ast.QuantityProperty | ast.LengthProperty).key);
    case 'BandProperty':
      return one('band', 'frequency');
    case 'CapacityProperty':
      return property === 'hours' ? one('the discharge time', 'time') : one('capacity', 'charge');
    case 'SagsProperty':
      return one('sags to', 'voltage');
    case 'PoeTotalProperty':
      return one('poe total', 'power');
    case 'ResistanceProperty':
      return one('resistance', 'resistance');
    case 'LossProperty':
      return property === 'per'
        ? one('per', 'length')
        : property === 'frequency'
          ? one('at', 'frequency')
          : one('loss', 'loss');
    case 'SignalItem':
    case 'MessageItem':
    case 'PgnProperty':
    case 'SentenceProperty':
      return one('a rate', 'frequency');
    case 'PortQuantity':
      return keyed(PORT_FEATURES, (container as ast.PortQuantity).key);
    case 'InFeature':
      return one('in', 'voltage');
    case 'OutFeature':
      return one('out', 'voltage');
    case 'CranksFeature':
      return property === 'time' ? one('for', 'time') : one('cranks', 'current');
    case 'CaptiveFeature':
      return one(property === 'length' ? 'captive' : property, 'length');
    case 'PoeFeature':
      return property === 'watts' ? one('passive power', 'power') : one('passive power', 'voltage');
    case 'CableLength':
    case 'CableQuantity':
      return keyed(CABLE_PROPERTIES, (container as ast.CableLength | ast.CableQuantity).key);
    case 'StockItem':
      return property === 'price' ? one('a price', 'money') : one('stock', 'length');
    case 'BulkProperty':
      return one('bulk', 'money');
    case 'RatingsProperty':
      return one('ratings', 'current');
    case 'RatedProperty':
      return one('rated', 'voltage');
    case 'InterruptItem':
      return property === 'volts' ? one('at', 'voltage') : one('interrupts', 'current');
    case 'SlackProperty':
      return one('slack', 'length');
    case 'WiringProperty':
      return one('wiring', 'temperature');
    case 'LabourProperty':
      return property === 'rate' ? one('labour', 'money') : one(property, 'time');
    case 'ZoneLength':
      return one((container as ast.ZoneLength).key, 'length');
    case 'RunDecl':
      return one(property === 'bore' ? 'conduit' : 'run', 'length');
    case 'OffsetProperty':
      return one('offset', 'length');
    case 'LengthClause':
      return one('length', 'length');
    case 'Protection':
      if (property === 'rated') return one('rated', 'voltage');
      if (property === 'after') return one('after', 'length');
      if (property === 'interrupts') return one('interrupts', 'current');
      return one(
        ast.isProtectionClause(container.$container) ? container.$container.device : 'fuse',
        'current',
      );
    case 'WireClause':
      return one('rated', 'temperature');
    case 'TeeItem':
    case 'Branch':
      return one('drop', 'length');
    case 'SpanItem':
      return one('span', 'length');
    case 'CostGoal':
      return one('cost under', 'money');
    case 'LastAbility':
      return one('last', 'time');
    case 'OnItem':
    case 'ChargeItem':
      return one('a duty', 'ratio');
    case 'DayPart':
      return one('a part of the day', 'time');
    default:
      return undefined;
  }
}
