/** Writes a drawing where somebody wants it: a sheet or the set, as PDF, SVG or PNG. */
import { FileType, ProgressLocation, Uri, window, workspace, type QuickPickItem } from 'vscode';
import type { ExportAnswer, ExportedFile, ExportFormat } from '../server/drawing/protocol.js';

/** What is exported. */
export interface Choice {
  readonly format: ExportFormat;
  /** The only sheet that is wanted. */
  readonly sheet: string | undefined;
}

interface Shown {
  readonly id: string;
  readonly title: string;
}

const FORMATS: readonly (readonly [ExportFormat, whole: string, one: string])[] = [
  ['pdf', 'One file with bookmarks, its text searchable', 'One page'],
  ['svg', 'A file for each sheet', 'One file'],
  ['png', 'A picture of each sheet, 150 dots to the inch', 'A picture, 150 dots to the inch'],
];

const PLACES: QuickPickItem & Choice = {
  label: 'Places: where every box stands',
  detail:
    'One file. Beside the boat, the next drawing begins with it; "wireloft draw --places" draws the same',
  format: 'places',
  sheet: undefined,
};

/** Asks for format and extent; `sheet` is the one that is shown, where one is. */
async function chosen(sheet: Shown | undefined): Promise<Choice | undefined> {
  const item = (format: ExportFormat, of: Shown | undefined, detail: string): QuickPickItem & Choice => ({
    label: `${format.toUpperCase()}: ${of === undefined ? 'the whole set' : of.title}`,
    detail,
    format,
    sheet: of?.id,
  });
  const items = [
    ...FORMATS.map(([format, whole]) => item(format, undefined, whole)),
    ...(sheet === undefined ? [] : FORMATS.map(([format, , one]) => item(format, sheet, one))),
    PLACES,
  ];
  return window.showQuickPick(items, { title: 'Export the drawing', placeHolder: 'Format, and how much' });
}

/** Asks what to export and where to, and before it replaces anything. */
export async function exportDrawing(
  sheet: Shown | undefined,
  make: (choice: Choice) => Promise<ExportAnswer | undefined>,
): Promise<void> {
  const choice = await chosen(sheet);
  if (choice === undefined) return;
  const progress = { location: ProgressLocation.Notification, title: 'Drawing the sheets ...' };
  const answer = await window.withProgress(progress, () => make(choice));
  if (answer?.kind !== 'files') {
    void window.showWarningMessage(answer?.reason ?? 'The checks are not running, so nothing can be drawn.');
    return;
  }
  const beside = Uri.joinPath(Uri.parse(answer.root), '..');
  const [only, ...others] = answer.files;
  const places =
    only !== undefined && others.length === 0
      ? await saveOne(only, beside, choice)
      : await saveAll(answer.files, beside);
  if (places === undefined) return;
  try {
    for (const [uri, bytes] of places) await workspace.fs.writeFile(uri, bytes);
    void window.showInformationMessage(`Written: ${places.map(([uri]) => uri.path).join(', ')}`);
  } catch (error) {
    void window.showErrorMessage(`The drawing cannot be written: ${String(error)}`);
  }
}

type Placed = readonly (readonly [uri: Uri, bytes: Uint8Array])[];

const bytesOf = ({ bytes }: ExportedFile): Uint8Array =>
  Uint8Array.from(atob(bytes), (letter) => letter.charCodeAt(0));

/** The dialog asks by itself before it replaces a file. */
async function saveOne(file: ExportedFile, beside: Uri, { format }: Choice): Promise<Placed | undefined> {
  const uri = await window.showSaveDialog({
    defaultUri: Uri.joinPath(beside, file.name),
    filters: format === 'places' ? { JSON: ['json'] } : { [format.toUpperCase()]: [format] },
    saveLabel: 'Export',
    title: 'Export the drawing',
  });
  return uri && [[uri, bytesOf(file)]];
}

async function saveAll(files: readonly ExportedFile[], beside: Uri): Promise<Placed | undefined> {
  const [folder] =
    (await window.showOpenDialog({
      canSelectFiles: false,
      canSelectFolders: true,
      defaultUri: beside,
      openLabel: 'Export Here',
      title: 'A folder for the sheets',
    })) ?? [];
  if (folder === undefined) return undefined;
  const there = await namesIn(folder);
  const replaced = files.filter(({ name }) => there.has(name));
  if (replaced.length > 0) {
    const answer = await window.showWarningMessage(
      `${replaced.map(({ name }) => name).join(', ')}: there already. Replace?`,
      { modal: true },
      'Replace',
    );
    if (answer !== 'Replace') return undefined;
  }
  return files.map((file) => [Uri.joinPath(folder, file.name), bytesOf(file)]);
}

async function namesIn(folder: Uri): Promise<ReadonlySet<string>> {
  try {
    const entries = await workspace.fs.readDirectory(folder);
    return new Set(entries.filter(([, type]) => (type & FileType.Directory) === 0).map(([name]) => name));
  } catch {
    return new Set();
  }
}
