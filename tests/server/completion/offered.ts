/** Asks a server for completion in marked texts. A text goes behind the boat of boat.loft, or stands as a file by itself. */
import { readFileSync } from 'node:fs';
import {
  CompletionItemKind,
  type CompletionClientCapabilities,
  type CompletionItem,
  type CompletionList,
} from 'vscode-languageserver';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { cursorIn, FakeEditor } from '../../support/editor.js';

const read = (name: string): string => readFileSync(new URL(name, import.meta.url), 'utf8');

export const GEAR = read('gear.loft');
export const BOAT = read('boat.loft');

export interface Offered {
  readonly items: readonly CompletionItem[];
  readonly labels: readonly string[];
  readonly detail: (label: string) => string | undefined;
  /** The line of the cursor once an item has been taken. */
  readonly taken: (label: string) => string;
}

/** One server for many texts: each is typed over the one before it. */
export class Asking {
  private constructor(private readonly editor: FakeEditor) {}

  static async start(
    more: Readonly<Record<string, string>> = {},
    able?: CompletionClientCapabilities,
  ): Promise<Asking> {
    const editor = await FakeEditor.start({ 'boat.loft': BOAT, 'gear.loft': GEAR, ...more }, able);
    const asking = new Asking(editor);
    for (const path of ['boat.loft', ...Object.keys(more)]) await editor.open(path);
    return asking;
  }

  /** What is offered at `$0` of a text that goes behind the boat. */
  aboard(text: string, typed?: string): Promise<Offered> {
    return this.at('boat.loft', BOAT + text, typed);
  }

  /** What is offered at `$0` of a file. `typed` is the sign that brought it up, where it was not asked for. */
  async at(path: string, marked: string, typed?: string): Promise<Offered> {
    const { text, position } = cursorIn(marked);
    if (this.editor.text(path) !== text) await this.editor.change(path, text);
    const context = typed === undefined ? { triggerKind: 1 } : { triggerKind: 2, triggerCharacter: typed };
    const list = await this.editor.at<CompletionList>('textDocument/completion', path, position, { context });
    const items = [...list.items].sort((a, b) => ((a.sortText ?? '') < (b.sortText ?? '') ? -1 : 1));
    const find = (label: string): CompletionItem | undefined => items.find((item) => item.label === label);
    return {
      items,
      labels: items.map((item) => item.label),
      detail: (label) => find(label)?.detail,
      taken: (label) => {
        const edit = find(label)?.textEdit;
        if (!edit) throw new Error(`${label} is not offered.`);
        const range = 'range' in edit ? edit.range : edit.replace;
        const document = TextDocument.create('', '', 0, text);
        const after = TextDocument.applyEdits(document, [{ range, newText: edit.newText }]);
        return after.split('\n')[range.start.line] ?? '';
      },
    };
  }

  /** The errors on the line of the cursor once each value that is offered has been taken. */
  async errorsOfTaken(
    marked: string,
    ignoring: readonly string[],
  ): Promise<{ readonly taken: number; readonly errors: readonly string[] }> {
    const { text, position } = cursorIn(BOAT + marked);
    const { items, taken } = await this.aboard(marked);
    // A keyword asks for more behind it.
    const values = items.filter(
      ({ kind }) => kind !== CompletionItemKind.Keyword && kind !== CompletionItemKind.Property,
    );
    const errors: string[] = [];
    for (const { label } of values) {
      const lines = text.split('\n');
      lines[position.line] = taken(label);
      const found = await this.editor.change('boat.loft', lines.join('\n'));
      for (const { severity, range, message, code } of found)
        if (severity === 1 && range.start.line === position.line && !ignoring.includes(String(code)))
          errors.push(`${label}: ${String(code)} ${JSON.stringify(message)}`);
    }
    return { taken: values.length, errors };
  }

  stop(): void {
    this.editor.stop();
  }
}
