/** The drawing beside the text: how long it takes from an edit to its sheets, and how long whoever types meanwhile waits for an answer. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { HoverRequest } from 'vscode-languageserver/node';
import {
  drawingRequest,
  type Drawing,
  type DrawingAnswer,
} from '../../src/extension/server/drawing/protocol.js';
import { generateBoat } from '../boats/boat.js';
import { editsOf } from '../edits.js';
import { Editor } from '../measure/editor.js';
import { percentileOf, type Span } from '../measure/figures.js';

export interface PreviewRow {
  readonly devices: number;
  /** From the diagnostics of an edit to its sheet; the server waits first until nobody has typed for a while. */
  readonly update: Span;
  /** The longest that a hover asked meanwhile took: the median of the edits. */
  readonly held: Span;
  /** Of the answer with the sheet, as it goes to the editor. */
  readonly kilobytes: number;
}

const SIZES = [25, 100, 500];
const ROUNDS = 6;
const FIRST = 2;

export async function measurePreview(server: string): Promise<readonly PreviewRow[]> {
  const rows: PreviewRow[] = [];
  for (const devices of SIZES) rows.push(await measureSize(server, devices));
  return rows;
}

async function measureSize(server: string, devices: number): Promise<PreviewRow> {
  const boat = generateBoat(devices, 'one file');
  const folder = mkdtempSync(join(tmpdir(), 'wireloft-bench-'));
  try {
    for (const { path, text } of boat.files) writeFileSync(join(folder, path), text);
    const editor = await Editor.start(server, folder);
    const uri = await editor.open(join(folder, boat.main.path), boat.main.text);
    let last = await drawn(editor, uri, undefined);
    const [updates, helds]: [Span[], Span[]] = [[], []];
    for (let round = 0; round < FIRST + ROUNDS; round += 1) {
      const edit = editsOf(boat.main, round).find(({ kind }) => kind === 'value');
      if (edit === undefined) throw new Error('The boat has nothing to edit.');
      await editor.change(uri, edit, edit.before, edit.after);
      const state = { done: false };
      const update = editor.watch();
      const answer = drawn(editor, uri, last).finally(() => (state.done = true));
      const hovers: Span[] = [];
      while (!state.done) {
        const hover = editor.watch();
        await editor.request(HoverRequest.method, { textDocument: { uri }, position: edit });
        hovers.push(hover());
        await new Promise((resolve) => setTimeout(resolve, 5));
      }
      last = await answer;
      if (round >= FIRST) {
        updates.push(update());
        helds.push(percentileOf(hovers, 1));
      }
      await editor.change(uri, edit, edit.after, edit.before);
    }
    await editor.stop();
    const kilobytes = Math.round(JSON.stringify(last).length / 1000);
    return { devices, update: percentileOf(updates, 0.5), held: percentileOf(helds, 0.5), kilobytes };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The drawing with the sheet that is shown, which is another than the one before. */
async function drawn(editor: Editor, uri: string, last: Drawing | undefined): Promise<Drawing> {
  const { id: sheet, key: known } = last?.shown ?? {};
  const answer = await editor.request<DrawingAnswer>(drawingRequest, { uri, sheet, known });
  if (answer.kind === 'none') throw new Error(answer.reason);
  if (answer.shown?.picture === undefined) throw new Error('The edit changed nothing of what is drawn.');
  return answer;
}
