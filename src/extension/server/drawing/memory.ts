/** The last drawing of each vessel with some of her options: what is asked about it, and where boxes stand in the next one. */
import type { Drawn, Standing, Title } from './artist/artist.js';
import type { DrawnOption } from './protocol.js';
import type { Made } from './subject.js';

export interface Kept extends Made {
  readonly vessel: string;
  /** The file that declares the vessel, and every file whose text is drawn. */
  readonly root: string;
  readonly files: readonly string[];
  readonly options: readonly DrawnOption[];
  /** Names of the options that are chosen, in the order of the text. */
  readonly names: readonly string[];
  readonly title: Title;
  readonly drawn: Drawn;
  /** The file with a syntax error that it was drawn with, since there was nothing better. */
  readonly broken: string | undefined;
}

export class Memory {
  private readonly slots = new Map<string, Kept>();
  private readonly anew = new Set<string>();

  of(root: string, names: readonly string[]): Kept | undefined {
    return this.slots.get(slotOf(root, names));
  }

  /** The drawing that an editor speaks of. */
  byKey(root: string, key: string): Kept | undefined {
    return [...this.slots.values()].find((one) => one.root === root && one.drawn.key === key);
  }

  keep(one: Kept): void {
    this.slots.set(slotOf(one.root, one.names), one);
    this.anew.delete(slotOf(one.root, one.names));
  }

  /** Where boxes stand in the next drawing: with an option chosen, where they stand without it. */
  standing(root: string, names: readonly string[]): Standing {
    if (this.isAnew(root, names)) return undefined;
    return (this.of(root, names) ?? this.of(root, []))?.drawn.places;
  }

  /** Lets boxes find places of their own in the next drawing. */
  layAnew(root: string, names: readonly string[]): void {
    this.anew.add(slotOf(root, names));
  }

  isAnew(root: string, names: readonly string[]): boolean {
    return this.anew.has(slotOf(root, names));
  }

  /** Forgets a file that is gone. */
  forget(root: string): void {
    for (const [slot, one] of this.slots) if (one.root === root) this.slots.delete(slot);
    for (const slot of this.anew) if (slot.split('\n')[0] === root) this.anew.delete(slot);
  }
}

/** The boat as she is has the slot of her file. */
const slotOf = (root: string, names: readonly string[]): string => [root, ...names].join('\n');
