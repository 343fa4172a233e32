/**
 * Loads the program with the code that the engine compiled of it when it was built (scripts/lib/compiled.mjs). Compiling is a sixth of
 * the time that a check of a small boat takes.
 */
import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { fileURLToPath } from 'node:url';
import { Script } from 'node:vm';
import type * as program from './program.js';

type Program = typeof program;

/** The bundle's own text begins and ends as a function of `require` that gives what program.ts exports. */
type Start = (require: NodeJS.Require) => Program;

export function loadProgram(bundle: URL, compiled: URL): Program {
  const source = readFileSync(bundle);
  const cachedData = compiledOf(source, compiled);
  // The engine refuses code of another version of itself, and compiles the source instead.
  const script = new Script(source.toString('utf8'), {
    filename: fileURLToPath(bundle),
    ...(cachedData && { cachedData }),
  });
  const start = script.runInThisContext() as Start;
  return start(createRequire(bundle));
}

/** The compiled code, if it is there and was compiled of this very source: the engine itself compares lengths only. */
function compiledOf(source: Buffer, compiled: URL): Buffer | undefined {
  let file;
  try {
    file = readFileSync(compiled);
  } catch {
    return undefined;
  }
  const digest = createHash('sha256').update(source).digest();
  return file.subarray(0, digest.length).equals(digest) ? file.subarray(digest.length) : undefined;
}
