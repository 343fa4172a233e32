/** Every repair is worth its name: applied, the text still parses; and if it is preferred, the finding is gone. */
import { readdirSync, readFileSync } from 'node:fs';
import { URI, type LangiumDocument } from 'langium';
import { describe, expect, it } from 'vitest';
import { TextDocument } from 'vscode-languageserver-textdocument';
import { loadLibrary } from '../../src/language/library/documents.js';
import { createCoreServices } from '../../src/language/module.js';
import { reportOn } from '../../src/language/project/build.js';
import type { Problem } from '../../src/language/project/report.js';
import { memoryFiles } from '../support/files.js';

const folder = new URL('../rules/', import.meta.url);
const paths = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter((path) => path.endsWith('.loft'))
  .sort();
const uriOf = (path: string): URI => URI.parse(`file:///rules/${path}`);

/** Of a kind with the problem: the same rule with the same words. */
const same = (a: Problem, b: Problem): boolean =>
  a.rule === b.rule && a.message === b.message && a.place.file === b.place.file;

describe('repairs', () => {
  it('mend what they are offered for, over all fixtures', async () => {
    const files = new Map(
      paths.map((path) => [uriOf(path).toString(), readFileSync(new URL(path, folder), 'utf8')]),
    );
    const { shared, Wireloft } = createCoreServices(
      { fileSystemProvider: () => memoryFiles(files) },
      {
        root: () => URI.parse('file:///rules'),
        today: () => '2026-11-25',
        surroundings: { refusal: () => undefined },
      },
    );
    const { LangiumDocuments: documents, DocumentBuilder: builder } = shared.workspace;
    const loaded = await Promise.all(paths.map((path) => documents.getOrCreateDocument(uriOf(path))));
    await builder.build([...loadLibrary(shared), ...loaded], { validation: false });
    const problemsOf = (document: LangiumDocument): Problem[] => {
      const report = reportOn([document], shared, Wireloft);
      return [...report.vessels.flatMap((v) => v.problems), ...report.files.flatMap((f) => f.problems)];
    };
    const write = async (uri: string, text: string): Promise<void> => {
      files.set(uri, text);
      await builder.update([URI.parse(uri)], []);
    };

    const byRule = new Map<string, number>();
    const failures: string[] = [];
    for (const document of loaded) {
      const uri = document.uri.toString();
      const before = files.get(uri) ?? '';
      const errors = document.parseResult.parserErrors.length;
      const repairs = problemsOf(document)
        .filter((problem) => problem.waived === null)
        .flatMap((problem) => problem.fixes.map((fix) => ({ problem, fix })));
      for (const { problem, fix } of repairs) {
        if (fix.edits.some((edit) => edit.place.file !== uri)) continue;
        const edits = fix.edits.map(({ place, text }) => ({ range: place.range, newText: text }));
        const after = TextDocument.applyEdits(TextDocument.create('', '', 0, before), edits);
        await write(uri, after);
        if (fix.preferred) byRule.set(problem.rule, (byRule.get(problem.rule) ?? 0) + 1);
        if (document.parseResult.parserErrors.length > errors)
          failures.push(`${uri}: "${fix.title}" breaks the text (${problem.rule})`);
        if (fix.preferred && problemsOf(document).some((p) => same(p, problem)))
          failures.push(`${uri}: "${fix.title}" leaves ${problem.rule}: ${problem.message}`);
        await write(uri, before);
      }
    }
    console.log('repairs tried:', JSON.stringify(Object.fromEntries([...byRule].sort())));
    expect(failures).toEqual([]);
    expect(byRule.size).toBeGreaterThanOrEqual(10);
  }, 120_000);
});
