/** Every text in the language that the project keeps. */
import { readdirSync, readFileSync } from 'node:fs';
import { join, relative } from 'node:path';
import { fileURLToPath } from 'node:url';

export interface CorpusFile {
  /** Path from the project's root, with forward slashes. */
  readonly path: string;
  readonly text: string;
}

const root = fileURLToPath(new URL('../../../', import.meta.url));

/** The .loft files below folders of the project. */
export function corpus(...folders: readonly string[]): CorpusFile[] {
  return folders.flatMap((folder) =>
    readdirSync(join(root, folder), { recursive: true, encoding: 'utf8' })
      .filter((name) => name.endsWith('.loft'))
      .sort()
      .map((name) => {
        const file = join(root, folder, name);
        return { path: relative(root, file).replaceAll('\\', '/'), text: readFileSync(file, 'utf8') };
      }),
  );
}
