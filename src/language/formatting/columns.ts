/**
 * Which parts of a statement or property stand in columns when several of a kind follow one another, and which are set apart by
 * two spaces. Everything else is separated by one space.
 */
import { GrammarUtils, type AstNode, type CstNode } from 'langium';

/** Where a column begins: at a keyword, at a feature's first value, or at the second word. */
type Place = { readonly keyword: string } | { readonly feature: string } | 'second';

interface Layout {
  /** Neighbours with the same run share their columns. */
  readonly run: string;
  readonly columns: readonly Place[];
  /** Features of which every value is set apart by two spaces. */
  readonly apart?: readonly string[];
  /** The same, but only where the column is shared. */
  readonly wide?: readonly string[];
  /** Keywords with no space before them. */
  readonly tight?: readonly string[];
  /** A node that has this feature has no columns: it would push those of its neighbours too far. */
  readonly unless?: string;
}

const title: Layout = { run: 'title', columns: [{ feature: 'title' }] };
const keyAndValue: Layout = { run: 'value', columns: ['second'] };
const signals: Layout = { run: 'signals', columns: ['second'] };

const layouts: Readonly<Record<string, Layout>> = {
  ZoneDecl: { run: 'zone', columns: [{ feature: 'exposure' }, { feature: 'clauses' }], wide: ['exposure'] },
  RunDecl: {
    run: 'run',
    columns: [{ keyword: '--' }, { feature: 'length' }, { feature: 'conduit' }, { feature: 'loom' }],
    apart: ['length', 'conduit', 'loom', 'allows'],
  },
  DeviceDecl: { run: 'device', columns: [{ keyword: ':' }, { keyword: 'at' }] },
  LinkDecl: { run: 'link', columns: [{ keyword: '--' }, { feature: 'clauses' }] },
  FeedDecl: {
    run: 'feed',
    columns: [{ keyword: '->' }, { feature: 'clauses' }],
    apart: ['clauses', 'allows'],
    unless: 'wayLabel',
  },
  TeeItem: { run: 'backbone', columns: [{ keyword: 'drop' }] },
  TapItem: { run: 'backbone', columns: [{ feature: 'clauses' }], unless: 'zone' },
  SpanItem: { run: 'backbone', columns: [] },
  TerminatorItem: { run: 'backbone', columns: [] },
  MarkItem: { run: 'backbone', columns: [] },
  PortDecl: { run: 'port', columns: [{ keyword: ':' }] },
  SignalsProperty: signals,
  RatesProperty: signals,
  FamilyDecl: { ...title, run: 'family' },
  SignalDecl: { ...title, run: 'signal' },
  VesselWord: keyAndValue,
  VesselText: keyAndValue,
  SlackProperty: keyAndValue,
  WiringProperty: keyAndValue,
  TargetsProperty: keyAndValue,
  LabourProperty: keyAndValue,
  ConnectsProperty: keyAndValue,
  WordsProperty: keyAndValue,
  SymbolProperty: keyAndValue,
  AsksProperty: keyAndValue,
  RatingsProperty: keyAndValue,
  RatedProperty: keyAndValue,
  InterruptsProperty: keyAndValue,
  ViewDecl: { run: 'view', columns: [{ keyword: 'on' }, { keyword: '{' }] },
  DayPart: { run: 'day', columns: [{ feature: 'time' }] },
  Pane: { run: 'pane', columns: [{ feature: 'layers' }], tight: [':'] },
};

/** Offset of a column's first character; undefined where a node lacks the column. */
type Stop = number | 'second' | undefined;

export interface Columns {
  /** Neighbours with the same run share their columns; undefined where a node has none. */
  readonly run: string | undefined;
  readonly stops: readonly Stop[];
  /** Offsets of what is set apart by two spaces. */
  readonly apart: readonly number[];
  /** Offsets of what is set apart in a column that is shared. */
  readonly wide: readonly number[];
  /** Offsets of what has no space before it. */
  readonly tight: readonly number[];
}

const none: Columns = { run: undefined, stops: [], apart: [], wide: [], tight: [] };

export function columnsOf(node: AstNode): Columns {
  const cst = node.$cstNode;
  const layout = layouts[node.$type];
  if (node.$type === 'AddEdit') {
    const declaration = (node as AstNode & { readonly declaration?: AstNode }).declaration;
    const inner = declaration ? columnsOf(declaration) : none;
    return inner.run === undefined ? inner : { ...inner, run: `add ${inner.run}` };
  }
  if (!cst || !layout) return none;
  const values = (names: readonly string[] = []): number[] =>
    names.flatMap((name) => GrammarUtils.findNodesForProperty(cst, name).map((found) => found.offset));
  const keywords = (words: readonly string[] = []): number[] =>
    words.flatMap((word) => GrammarUtils.findNodesForKeyword(cst, word).map((found) => found.offset));
  const alone =
    layout.unless !== undefined &&
    layout.unless in node &&
    node[layout.unless as keyof AstNode] !== undefined;
  return {
    run: layout.run,
    stops: alone ? [] : layout.columns.map((place) => offsetOf(place, cst)),
    apart: values(layout.apart),
    wide: values(layout.wide),
    tight: keywords(layout.tight),
  };
}

function offsetOf(place: Place, cst: CstNode): Stop {
  if (place === 'second') return place;
  if ('keyword' in place) return GrammarUtils.findNodeForKeyword(cst, place.keyword)?.offset;
  return GrammarUtils.findNodeForProperty(cst, place.feature)?.offset;
}
