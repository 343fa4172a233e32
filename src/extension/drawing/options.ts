/** Asks with which of its options a boat is drawn. */
import { window, type QuickPickItem } from 'vscode';
import type { DrawnOption } from '../server/drawing/protocol.js';

/** Names of the options, in the order of the text; undefined where somebody thinks better of it. */
export async function chooseOptions(options: readonly DrawnOption[]): Promise<readonly string[] | undefined> {
  if (options.length === 0) {
    void window.showInformationMessage('This boat has no options: there is nothing to choose.');
    return undefined;
  }
  const items = options.map(({ name, title, chosen }): QuickPickItem => ({
    label: name,
    description: title,
    picked: chosen,
  }));
  const picked = await window.showQuickPick(items, {
    canPickMany: true,
    title: 'Options that are drawn',
    placeHolder: 'None: the boat as she is',
  });
  if (picked === undefined) return undefined;
  const names = new Set(picked.map(({ label }) => label));
  return options.map(({ name }) => name).filter((name) => names.has(name));
}
