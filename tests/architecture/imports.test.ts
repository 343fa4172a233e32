import { readFileSync, readdirSync } from 'node:fs';
import { join, relative, sep } from 'node:path';
import { describe, expect, it } from 'vitest';
import { importProblems, importsOf, lengthProblem, type SourceFile } from './imports.js';

const root = join(import.meta.dirname, '..', '..');

function filesOf(folder: string): readonly SourceFile[] {
  return readdirSync(join(root, folder), { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile() && /\.(?:ts|mts|cts|mjs|js)$/.test(entry.name))
    .filter((entry) => !entry.parentPath.includes('node_modules'))
    .map((entry) => {
      const path = join(entry.parentPath, entry.name);
      return { path: relative(root, path).split(sep).join('/'), text: readFileSync(path, 'utf8') };
    });
}

const source = filesOf('src');
const everything = [...source, ...filesOf('tests'), ...filesOf('scripts')];

describe('the architecture', () => {
  it('has imports that go down only', () => {
    expect(source.length).toBeGreaterThan(0);
    expect(source.flatMap(importProblems)).toEqual([]);
  });

  it('has no file over 500 lines', () => {
    expect(everything.map(lengthProblem).filter((problem) => problem !== undefined)).toEqual([]);
  });
});

describe('the check of imports', () => {
  const problems = (path: string, text: string): readonly string[] => importProblems({ path, text });

  it('sees every way to import', () => {
    const text = [
      "import { a } from './a.js';",
      "import type { B } from './b.js';",
      "import './c.js';",
      "export * from './d.js';",
      "export type { E } from './e.js';",
      "const f = await import('./f.js');",
      "type G = import('./g.js').G;",
      "// import './comment.js';",
      'const text = "import \'./string.js\'";',
    ].join('\n');
    expect([...importsOf(text)].sort()).toEqual(
      ['a', 'b', 'c', 'd', 'e', 'f', 'g'].map((name) => `./${name}.js`),
    );
  });

  it.each([
    ['src/vessel/model.ts', '../checks/finding.js'],
    ['src/vessel/model.ts', '../language/polyfill.js'],
    ['src/checks/network/reach.ts', '../../language/module.js'],
    ['src/checks/network/reach.ts', '../../documents/scene.js'],
    ['src/language/module.ts', '../documents/scene.js'],
    ['src/language/module.ts', '../cli/main.js'],
    ['src/language/module.ts', '../extension/server/main.js'],
    ['src/documents/scene.ts', '../language/module.js'],
    ['src/cli/main.ts', '../extension/main.js'],
    ['src/extension/main.ts', '../cli/main.js'],
    ['src/vessel/model.ts', '../../tests/setup.js'],
    ['src/vessel/model.ts', 'langium'],
    ['src/vessel/model.ts', 'langium/node'],
    ['src/checks/finding.ts', 'vscode-languageserver-types'],
    ['src/checks/finding.ts', 'vscode-uri'],
    ['src/checks/finding.ts', 'node:fs'],
    ['src/checks/finding.ts', 'fs/promises'],
    ['src/documents/scene.ts', 'langium'],
    ['src/language/module.ts', 'vscode'],
    ['src/cli/main.ts', 'vscode'],
    ['src/extension/server/main.ts', 'vscode'],
    ['src/extension/server/main.ts', 'vscode-languageclient/node'],
    ['src/attic/thing.ts', '../vessel/model.js'],
  ])('refuses %s that imports %s', (path, name) => {
    expect(problems(path, `import type { Thing } from '${name}';`)).toHaveLength(1);
  });

  it.each([
    ['src/vessel/model.ts', './origin.js'],
    ['src/checks/network/reach.ts', '../finding.js'],
    ['src/checks/network/reach.ts', '../../vessel/model.js'],
    ['src/language/module.ts', '../checks/finding.js'],
    ['src/language/module.ts', 'langium/lsp'],
    ['src/language/module.ts', 'node:path'],
    ['src/cli/main.ts', '../language/module.js'],
    ['src/cli/lsp.ts', '../extension/server/main.js'],
    ['src/extension/main.ts', 'vscode'],
    ['src/extension/server/main.ts', '../../documents/scene.js'],
    ['src/extension/server/main.ts', 'vscode-languageserver/node'],
  ])('lets %s import %s', (path, name) => {
    expect(problems(path, `import type { Thing } from '${name}';`)).toEqual([]);
  });

  it('counts lines, and does not count generated files', () => {
    const lines = (count: number): string => 'x\n'.repeat(count);
    expect(lengthProblem({ path: 'src/vessel/a.ts', text: lines(500) })).toBeUndefined();
    expect(lengthProblem({ path: 'src/vessel/a.ts', text: lines(501) })).toContain('501 lines');
    expect(lengthProblem({ path: 'src/language/generated/ast.ts', text: lines(501) })).toBeUndefined();
  });
});
