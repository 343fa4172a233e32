/** The sheets of a set by their kinds, as a person chooses among them: pure, so that it can be tested without a page. */
import type { SheetName } from '../server/drawing/protocol.js';

export interface GroupedSheet {
  readonly id: string;
  /** As in its title block, by which references name it. */
  readonly number: number;
  /** Without what its kind says already. */
  readonly name: string;
}

export interface SheetGroup {
  /** What their ids begin with. */
  readonly kind: string;
  readonly name: string;
  readonly sheets: readonly GroupedSheet[];
}

export const kindOf = (id: string): string => id.replace(/-\d+$/, '');

/** Kinds in the order of the set, and under each its sheets. */
export function groupSheets(vessel: string, sheets: readonly SheetName[]): readonly SheetGroup[] {
  const groups = new Map<string, { readonly name: string; readonly sheets: GroupedSheet[] }>();
  for (const [index, { id, title }] of sheets.entries()) {
    const own = title.startsWith(`${vessel}: `) ? title.slice(vessel.length + 2) : title;
    // "Network 1 of 2: helm", "Power 1 of 2" and "Backbones: main" are sheets of several.
    const group = groups.get(kindOf(id)) ?? {
      name: own.replace(/(?: \d+ of \d+)?(?:: .*)?$/s, ''),
      sheets: [],
    };
    groups.set(kindOf(id), group);
    const name = own.startsWith(`${group.name}: `) ? own.slice(group.name.length + 2) : own;
    group.sheets.push({ id, number: index + 1, name });
  }
  return [...groups].map(([kind, group]) => ({ kind, ...group }));
}

/** "1", or "3-7". */
export function numbersOf({ sheets }: SheetGroup): string {
  const [first, last] = [sheets.at(0)?.number, sheets.at(-1)?.number];
  return first === last ? String(first ?? '') : `${String(first)}\u2013${String(last)}`;
}
