/** Writes the sheets of a drawing, a file each. */
import { FileType, Uri, window, workspace } from 'vscode';
import type { Drawing } from '../server/drawing/protocol.js';

/** Asks for a folder, and before it replaces anything. */
export async function exportSheets({ root, sheets, old }: Drawing): Promise<void> {
  if (sheets === undefined || sheets.length === 0) {
    void window.showInformationMessage(
      'There is nothing to export: no sheet of this boat has anything on it.',
    );
    return;
  }
  if (old !== undefined) {
    void window.showWarningMessage(
      `Nothing was exported. ${old} Mend it first, so that the files show what is written.`,
    );
    return;
  }
  const [folder] =
    (await window.showOpenDialog({
      canSelectFiles: false,
      canSelectFolders: true,
      defaultUri: Uri.joinPath(Uri.parse(root), '..'),
      openLabel: 'Export Here',
      title: 'A folder for the sheets, as SVG',
    })) ?? [];
  if (folder === undefined) return;
  const files = sheets.map(({ id, svg }) => ({
    uri: Uri.joinPath(folder, `${id}.svg`),
    name: `${id}.svg`,
    svg,
  }));
  const there = await namesIn(folder);
  const replaced = files.filter(({ name }) => there.has(name));
  if (replaced.length > 0) {
    const answer = await window.showWarningMessage(
      `${replaced.map(({ name }) => name).join(', ')}: there already. Replace?`,
      { modal: true },
      'Replace',
    );
    if (answer !== 'Replace') return;
  }
  try {
    for (const { uri, svg } of files) await workspace.fs.writeFile(uri, new TextEncoder().encode(svg));
    void window.showInformationMessage(
      `${files.length} ${files.length === 1 ? 'sheet' : 'sheets'} written to ${folder.path}.`,
    );
  } catch (error) {
    void window.showErrorMessage(`The sheets cannot be written to ${folder.path}: ${String(error)}`);
  }
}

async function namesIn(folder: Uri): Promise<ReadonlySet<string>> {
  try {
    const entries = await workspace.fs.readDirectory(folder);
    return new Set(entries.filter(([, type]) => (type & FileType.Directory) === 0).map(([name]) => name));
  } catch {
    return new Set();
  }
}
