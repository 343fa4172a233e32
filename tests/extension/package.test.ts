/** What is in the package that users install, and what is not. */
import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import { builtinModules } from 'node:module';
import { join } from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import { zipNames } from '../../scripts/lib/zip.mjs';

const root = join(import.meta.dirname, '..', '..');

interface Manifest {
  readonly version: string;
  readonly main: string;
  readonly browser: string;
  readonly contributes: { readonly commands: readonly { readonly command: string }[] };
}

const manifest = JSON.parse(readFileSync(join(root, 'package.json'), 'utf8')) as Manifest;
const bundles = [
  'main.cjs',
  'server.cjs',
  'thinker.cjs',
  'artist.cjs',
  'web.cjs',
  'worker.js',
  'artist.js',
  'preview.js',
];
const bundle = (name: string): string => readFileSync(join(root, 'dist', 'extension', name), 'utf8');

describe('the package', () => {
  let bytes: Buffer;
  let names: readonly string[];

  beforeAll(() => {
    const result = spawnSync(process.execPath, [join(root, 'scripts', 'package.mjs')], { encoding: 'utf8' });
    if (result.status !== 0) throw new Error(`It could not be made:\n${result.stdout}${result.stderr}`);
    bytes = readFileSync(join(root, 'out', `wireloft-${manifest.version}.vsix`));
    names = zipNames(bytes).map((name) => name.toLowerCase());
  }, 120_000);

  it('is small', () => {
    expect(bytes.length).toBeLessThan(4_500_000);
  });

  it('has what a user looks for', () => {
    for (const name of ['package.json', 'readme.md', 'changelog.md', 'license.txt'])
      expect(names).toContain(`extension/${name}`);
    for (const name of ['icons/wireloft.png', 'icons/file-light.svg', 'icons/file-dark.svg'])
      expect(names).toContain(`extension/${name}`);
  });

  it('has what an editor loads', () => {
    for (const name of [
      'language-configuration.json',
      'snippets/wireloft.json',
      'syntaxes/wireloft.tmLanguage.json',
      'dist/THIRD-PARTY-NOTICES.txt',
      'docs/rules/type/unknown-name.md',
      ...bundles.map((it) => `dist/extension/${it}`),
      manifest.main.replace('./', ''),
      manifest.browser.replace('./', ''),
    ])
      expect(names).toContain(`extension/${name.toLowerCase()}`);
  });

  it('has nothing else', () => {
    const known =
      /^(?:\[content_types\]\.xml|extension\.vsixmanifest|extension\/(?:[a-z-]+\.(?:json|md|txt)|(?:icons|snippets|syntaxes)\/[a-z.-]+|dist\/(?:third-party-notices\.txt|extension\/(?:[a-z]+\.c?js|highs\.wasm|fonts\/[a-z-]+\.ttf))|docs\/(?:(?:language|report|rules\/.+)\.md|images\/[a-z]+\.png)))$/;
    expect(names.filter((name) => !known.test(name))).toEqual([]);
    expect(names.filter((name) => /node_modules|\.map$|\.ts$|\.vsix$/.test(name))).toEqual([]);
  });
});

describe('a bundle', () => {
  /** The modules that a bundle asks its host for. */
  const asked = (name: string): readonly string[] => [
    ...new Set([...bundle(name).matchAll(/(?<!\.)\brequire\("([^"]+)"\)/g)].map(([, module = '']) => module)),
  ];

  it.each(bundles)('%s has no source map', (name) => {
    expect(bundle(name)).not.toContain('sourceMappingURL');
  });

  it.each(['main.cjs', 'server.cjs', 'thinker.cjs', 'artist.cjs'])(
    '%s has all it needs within but Node.js and the editor',
    (name) => {
      const own = (module: string): boolean =>
        module.startsWith('node:') ||
        builtinModules.includes(module) ||
        (module === 'vscode' && name === 'main.cjs');
      expect(asked(name).length).toBeGreaterThan(0);
      expect(asked(name).filter((module) => !own(module))).toEqual([]);
    },
  );

  it.each([
    ['web.cjs', ['vscode']],
    ['worker.js', []],
    ['artist.js', []],
    ['preview.js', []],
  ])('%s runs without Node.js', (name, modules) => {
    expect(asked(name)).toEqual(modules);
    expect(bundle(name)).not.toMatch(/from"node:|import\("node:/);
  });
});

describe('the manifest', () => {
  it('offers the commands that the client has, and no other', () => {
    const client = readFileSync(join(root, 'src', 'extension', 'client.ts'), 'utf8');
    const registered = [...client.matchAll(/registerCommand\('([^']+)'/g)].map(([, command]) => command);
    expect(manifest.contributes.commands.map(({ command }) => command).sort()).toEqual(registered.sort());
  });

  it('names files that are there', () => {
    const paths = [...JSON.stringify(manifest.contributes).matchAll(/"(\.\/[^"]+)"/g)].map(
      ([, path = '']) => path,
    );
    expect(paths.length).toBeGreaterThan(4);
    expect(paths.filter((path) => !existsSync(join(root, path)))).toEqual([]);
  });
});
