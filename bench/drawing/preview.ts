/** The drawing beside the text: how long it takes from an edit to its sheets, and how long whoever types meanwhile waits for an answer. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { HoverRequest } from 'vscode-languageserver/node';
import { drawingRequest, type DrawingAnswer } from '../../src/extension/server/drawing/protocol.js';
import { generateBoat } from '../boats/boat.js';
import { editsOf } from '../edits.js';
import { Editor } from '../measure/editor.js';
import { median } from '../measure/figures.js';

export interface PreviewRow {
  readonly devices: number;
  /** From the diagnostics of an edit to the sheets, in ms; the server waits first until nobody has typed for a while. */
  readonly update: number;
  /** The longest that a hover asked meanwhile took, in ms: the median of the edits. */
  readonly held: number;
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
    let known = await drawn(editor, uri, undefined);
    const [updates, helds]: [number[], number[]] = [[], []];
    for (let round = 0; round < FIRST + ROUNDS; round += 1) {
      const edit = editsOf(boat.main, round).find(({ kind }) => kind === 'value');
      if (edit === undefined) throw new Error('The boat has nothing to edit.');
      await editor.change(uri, edit, edit.before, edit.after);
      const start = performance.now();
      const state = { done: false };
      const answer = drawn(editor, uri, known).finally(() => (state.done = true));
      let held = 0;
      while (!state.done) {
        const asked = performance.now();
        await editor.request(HoverRequest.method, { textDocument: { uri }, position: edit });
        held = Math.max(held, performance.now() - asked);
        await new Promise((resolve) => setTimeout(resolve, 5));
      }
      known = await answer;
      if (round >= FIRST) {
        updates.push(performance.now() - start);
        helds.push(held);
      }
      await editor.change(uri, edit, edit.after, edit.before);
    }
    await editor.stop();
    return { devices, update: median(updates), held: median(helds) };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The key of the sheets, which are others than those before. */
async function drawn(editor: Editor, uri: string, known: string | undefined): Promise<string> {
  const answer = await editor.request<DrawingAnswer>(drawingRequest, { uri, known });
  if (answer.kind === 'none') throw new Error(answer.reason);
  if (answer.sheets === undefined) throw new Error('The edit changed nothing of what is drawn.');
  return answer.key;
}
