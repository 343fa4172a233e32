/**
 * What passes between the extension and the page that shows the drawing. What comes from the other side is read, not trusted:
 * whatever is not exactly a message is dropped.
 */
import type {
  DrawnDrift,
  DrawnPort,
  DrawnReference,
  End,
  Reach,
  SheetName,
  SheetPicture,
  ShownSheet,
} from '../server/drawing/protocol.js';

/** From the page. */
export type FromPage =
  /** `sheet`: the one that is wanted, where one is. */
  | { readonly type: 'ready'; readonly sheet: string | null }
  | { readonly type: 'sheet'; readonly sheet: string }
  | { readonly type: 'select'; readonly origin: string; readonly end: End | null }
  /** `sheet`: the one that is shown. */
  | { readonly type: 'export'; readonly sheet: string | null }
  | { readonly type: 'options' }
  /** Boxes are to be laid out from nothing. */
  | { readonly type: 'anew' }
  | { readonly type: 'reach'; readonly origin: string };

/** To the page. */
export type ToPage =
  /** Whether a drawing is being made. */
  | { readonly type: 'busy'; readonly busy: boolean }
  | {
      readonly type: 'drawing';
      readonly vessel: string;
      readonly sheets: readonly SheetName[];
      /** Null where there is no sheet. */
      readonly shown: ShownSheet | null;
      /** Whether she has options, and the names of those that she is drawn with. */
      readonly optional: boolean;
      readonly chosen: readonly string[];
      /** Said above the sheet; empty for nothing. */
      readonly note: string;
    }
  /** Another sheet of the same drawing. */
  | { readonly type: 'sheet'; readonly shown: ShownSheet }
  | { readonly type: 'none'; readonly reason: string }
  /** What laying out anew would save; none for nothing. */
  | { readonly type: 'drift'; readonly drifts: readonly DrawnDrift[] }
  /** What the cursor is in, and the sheets that show it. */
  | { readonly type: 'cursor'; readonly origin: string | null; readonly sheets: readonly string[] }
  /** Null for what gives nothing to screens. */
  | { readonly type: 'reach'; readonly origin: string; readonly reach: Reach | null };

/** What the page keeps over a reload of the window. */
export interface PageState {
  readonly uri: string;
  /** Names of the options that she is drawn with. */
  readonly options: readonly string[];
}

/** Longest name of an element that is believed. */
const LONGEST = 10_000;
const MOST = 20_000;

type Fields = Readonly<Record<string, unknown>>;
const isFields = (value: unknown): value is Fields =>
  typeof value === 'object' && value !== null && !Array.isArray(value);
const isText = (value: unknown, longest = LONGEST): value is string =>
  typeof value === 'string' && value.length <= longest;
const isNumber = (value: unknown): value is number => typeof value === 'number' && Number.isFinite(value);
function isList<T>(value: unknown, is: (one: unknown) => one is T): value is readonly T[] {
  return Array.isArray(value) && value.length <= MOST && value.every(is);
}
const isName = (value: unknown): value is string => isText(value);

/** A message from the page, or undefined. */
export function readFromPage(value: unknown): FromPage | undefined {
  if (!isFields(value)) return undefined;
  switch (value['type']) {
    case 'options':
    case 'anew':
      return { type: value['type'] };
    case 'ready':
    case 'export': {
      const { type, sheet } = value;
      return sheet === null || isText(sheet) ? { type, sheet } : undefined;
    }
    case 'sheet':
      return isText(value['sheet']) ? { type: 'sheet', sheet: value['sheet'] } : undefined;
    case 'reach':
      return isText(value['origin']) ? { type: 'reach', origin: value['origin'] } : undefined;
    case 'select': {
      const { origin, end } = value;
      if (!isText(origin) || (end !== 'a' && end !== 'b' && end !== null)) return undefined;
      return { type: 'select', origin, end };
    }
    default:
      return undefined;
  }
}

/** A message to the page, or undefined. */
export function readToPage(value: unknown): ToPage | undefined {
  if (!isFields(value)) return undefined;
  switch (value['type']) {
    case 'busy':
      return typeof value['busy'] === 'boolean' ? { type: 'busy', busy: value['busy'] } : undefined;
    case 'none':
      return isText(value['reason']) ? { type: 'none', reason: value['reason'] } : undefined;
    case 'drift':
      return isList(value['drifts'], isDrift) ? { type: 'drift', drifts: value['drifts'] } : undefined;
    case 'cursor': {
      const { origin, sheets } = value;
      if ((origin !== null && !isText(origin)) || !isList(sheets, isName)) return undefined;
      return { type: 'cursor', origin, sheets };
    }
    case 'reach': {
      const { origin, reach } = value;
      if (!isText(origin) || (reach !== null && !isReach(reach))) return undefined;
      return { type: 'reach', origin, reach };
    }
    case 'drawing': {
      const { vessel, sheets, shown, optional, chosen, note } = value;
      if (!isText(vessel) || !isText(note) || !isList(sheets, isSheetName)) return undefined;
      if (typeof optional !== 'boolean' || !isList(chosen, isName)) return undefined;
      if (shown !== null && !isShown(shown)) return undefined;
      return { type: 'drawing', vessel, sheets, shown, optional, chosen, note };
    }
    case 'sheet':
      return isShown(value['shown']) ? { type: 'sheet', shown: value['shown'] } : undefined;
    default:
      return undefined;
  }
}

/** The state of a page, as the editor kept it; it may be of another version. */
export function readPageState(value: unknown): PageState | undefined {
  if (!isFields(value) || !isText(value['uri'])) return undefined;
  const { uri, options } = value;
  return { uri, options: isList(options, isName) ? options : [] };
}

function isSheetName(value: unknown): value is SheetName {
  return isFields(value) && isText(value['id']) && isText(value['title']);
}

function isDrift(value: unknown): value is DrawnDrift {
  return isFields(value) && isText(value['diagram']) && isNumber(value['sheets']) && isNumber(value['anew']);
}

function isShown(value: unknown): value is ShownSheet {
  if (!isFields(value)) return false;
  const { id, key, origins, picture } = value;
  return (
    isText(id) && isText(key) && isList(origins, isName) && (picture === undefined || isPicture(picture))
  );
}

function isPicture(value: unknown): value is SheetPicture {
  if (!isFields(value)) return false;
  const { width, height, svg, ports, references } = value;
  const sized = isNumber(width) && isNumber(height) && width > 0 && height > 0;
  return sized && isText(svg, 50_000_000) && isList(ports, isPort) && isList(references, isReference);
}

function isReference(value: unknown): value is DrawnReference {
  return isFields(value) && isText(value['id']) && isText(value['to']);
}

function isPort(value: unknown): value is DrawnPort {
  if (!isFields(value)) return false;
  const { x, y, origin, end } = value;
  return isNumber(x) && isNumber(y) && isText(origin) && (end === 'a' || end === 'b');
}

function isReach(value: unknown): value is Reach {
  if (!isFields(value)) return false;
  const { origin, name, lit, seen, blind, unknown } = value;
  return isText(origin) && isText(name) && [lit, seen, blind, unknown].every((list) => isList(list, isName));
}
