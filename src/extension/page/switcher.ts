/** Chooses among the sheets: a tab for each kind, and a list where a kind has several. */
import { groupSheets, kindOf, numbersOf, type SheetGroup } from '../drawing/groups.js';
import type { SheetName } from '../server/drawing/protocol.js';

/** The page's parts that do it. */
interface SwitcherParts {
  readonly tabs: HTMLElement;
  readonly pages: HTMLElement;
  readonly list: HTMLSelectElement;
  readonly before: HTMLButtonElement;
  readonly after: HTMLButtonElement;
}

export class Switcher {
  private sheets: readonly SheetName[] = [];
  private groups: readonly SheetGroup[] = [];
  private shown: string | undefined;
  /** The sheet that was last chosen of each kind. */
  private readonly last = new Map<string, string>();

  /** @param turn - Is told the id of the sheet that somebody wants. */
  constructor(
    private readonly parts: SwitcherParts,
    private readonly turn: (id: string) => void,
  ) {
    const { tabs, list, before, after } = parts;
    list.addEventListener('change', () => turn(list.value));
    before.addEventListener('click', () => this.step(-1));
    after.addEventListener('click', () => this.step(1));
    tabs.addEventListener('keydown', (event) => this.key(event));
  }

  /** @param shown - The id of the sheet that is shown; undefined where there is none. */
  show(vessel: string, sheets: readonly SheetName[], shown: string | undefined): void {
    if (sheets !== this.sheets) {
      this.sheets = sheets;
      this.groups = groupSheets(vessel, sheets);
      this.parts.tabs.replaceChildren(...this.groups.map((group) => this.tabOf(group)));
    }
    this.select(shown);
  }

  /** Turns to the next sheet of the set, or the one before; at an end it stays. */
  step(by: 1 | -1): void {
    const index = this.sheets.findIndex(({ id }) => id === this.shown);
    const next = index < 0 ? undefined : this.sheets[index + by];
    if (next !== undefined) this.turn(next.id);
  }

  /** "Sheet 3 of 9"; empty where there is none. */
  get told(): string {
    const number = this.shown === undefined ? 0 : this.numberOf(this.shown);
    return number === 0 ? '' : `Sheet ${number} of ${this.sheets.length}`;
  }

  /** What a sheet is called, without the vessel. */
  titleOf(id: string): string {
    const group = this.groups.find(({ sheets }) => sheets.some((sheet) => sheet.id === id));
    const name = group?.sheets.find((sheet) => sheet.id === id)?.name ?? '';
    return group === undefined || name.startsWith(group.name) ? name : `${group.name}: ${name}`;
  }

  numberOf(id: string): number {
    return this.sheets.findIndex((sheet) => sheet.id === id) + 1;
  }

  private select(shown: string | undefined): void {
    const { tabs, pages, list, before, after } = this.parts;
    this.shown = shown;
    const kind = shown === undefined ? undefined : kindOf(shown);
    if (shown !== undefined) this.last.set(kindOf(shown), shown);
    for (const tab of tabs.children) {
      const selected = tab instanceof HTMLElement && tab.dataset['kind'] === kind;
      tab.setAttribute('aria-selected', String(selected));
      tab.setAttribute('tabindex', selected ? '0' : '-1');
    }
    const own = this.groups.find((group) => group.kind === kind)?.sheets ?? [];
    pages.hidden = own.length < 2;
    list.replaceChildren(
      ...own.map(({ id, number, name }) => new Option(`${number}  ${name}`, id, false, id === shown)),
    );
    const index = this.sheets.findIndex(({ id }) => id === shown);
    before.disabled = index <= 0;
    after.disabled = index < 0 || index === this.sheets.length - 1;
  }

  private tabOf(group: SheetGroup): HTMLElement {
    const tab = document.createElement('button');
    const { kind, name, sheets } = group;
    tab.type = 'button';
    tab.id = `tab-${kind}`;
    tab.dataset['kind'] = kind;
    tab.setAttribute('role', 'tab');
    tab.setAttribute('aria-controls', 'stage');
    tab.textContent = name;
    tab.title = `${sheets.length === 1 ? 'Sheet' : 'Sheets'} ${numbersOf(group)}`;
    tab.addEventListener('click', () => this.choose(group));
    return tab;
  }

  /** The sheet of a kind that was shown last, or its first. */
  private choose({ kind, sheets }: SheetGroup): void {
    const before = this.last.get(kind);
    const wanted = sheets.find(({ id }) => id === before) ?? sheets[0];
    if (wanted !== undefined) this.turn(wanted.id);
  }

  private key(event: KeyboardEvent): void {
    const step = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0;
    const index = this.groups.findIndex(({ sheets }) => sheets.some(({ id }) => id === this.shown));
    const next = step === 0 ? undefined : this.groups.at((index + step) % this.groups.length);
    if (next === undefined) return;
    event.preventDefault();
    this.choose(next);
    document.getElementById(`tab-${next.kind}`)?.focus();
  }
}
