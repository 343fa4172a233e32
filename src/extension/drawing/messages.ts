/**
 * What passes between the extension and the page that shows the drawing. What comes from the other side is read, not trusted:
 * whatever is not exactly a message is dropped.
 */
import type { DrawnPort, DrawnSheet, Reach } from '../server/drawing/protocol.js';

/** From the page. */
export type FromPage =
  | { readonly type: 'ready' }
  | { readonly type: 'select'; readonly origin: string; readonly end: 'a' | 'b' | null }
  /** `sheet`: the one that is shown. */
  | { readonly type: 'export'; readonly sheet: string | null }
  | { readonly type: 'options' }
  | { readonly type: 'reach'; readonly origin: string };

/** To the page. */
export type ToPage =
  | {
      readonly type: 'drawing';
      readonly vessel: string;
      /** Null where the page has them already. */
      readonly sheets: readonly DrawnSheet[] | null;
      /** Elements that have a line in the text. */
      readonly origins: readonly string[];
      /** Whether she has options, and the names of those that she is drawn with. */
      readonly optional: boolean;
      readonly chosen: readonly string[];
      /** Said above the sheet; empty for nothing. */
      readonly note: string;
    }
  | { readonly type: 'none'; readonly reason: string }
  | { readonly type: 'cursor'; readonly origin: string | null }
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
    case 'ready':
    case 'options':
      return { type: value['type'] };
    case 'export': {
      const { sheet } = value;
      return sheet === null || isText(sheet) ? { type: 'export', sheet } : undefined;
    }
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
    case 'none':
      return isText(value['reason']) ? { type: 'none', reason: value['reason'] } : undefined;
    case 'cursor': {
      const { origin } = value;
      return origin === null || isText(origin) ? { type: 'cursor', origin } : undefined;
    }
    case 'reach': {
      const { origin, reach } = value;
      if (!isText(origin) || (reach !== null && !isReach(reach))) return undefined;
      return { type: 'reach', origin, reach };
    }
    case 'drawing': {
      const { vessel, sheets, origins, optional, chosen, note } = value;
      if (!isText(vessel) || !isText(note) || !isList(origins, isName)) return undefined;
      if (typeof optional !== 'boolean' || !isList(chosen, isName)) return undefined;
      if (sheets !== null && !isList(sheets, isSheet)) return undefined;
      return { type: 'drawing', vessel, sheets, origins, optional, chosen, note };
    }
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

function isSheet(value: unknown): value is DrawnSheet {
  if (!isFields(value)) return false;
  const { id, title, width, height, svg, ports } = value;
  const sized = isNumber(width) && isNumber(height) && width > 0 && height > 0;
  return isText(id) && isText(title) && sized && isText(svg, 50_000_000) && isList(ports, isPort);
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
