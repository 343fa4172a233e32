/** A text as the vessel that the language makes of it, for tests that are easier to read as a spec. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { VesselReport } from '../../src/language/project/report.js';
import { openProject } from '../../src/language/project/open.js';

/** The report of the only vessel of a text. */
export async function opened(text: string, today = '2026-01-01'): Promise<VesselReport> {
  const folder = mkdtempSync(join(tmpdir(), 'wireloft-'));
  try {
    const path = join(folder, 'boat.loft');
    writeFileSync(path, text);
    const { report, unreadable } = await openProject([path], { root: folder, today });
    const [vessel] = report.vessels;
    if (vessel === undefined || report.vessels.length > 1)
      throw new Error(`the text is not one vessel: ${JSON.stringify(unreadable)}`);
    return vessel;
  } finally {
    rmSync(folder, { recursive: true });
  }
}
