/** The language server under Neovim, whose client is no relative of the workbench's. */
import assert from 'node:assert/strict';
import { spawnSync } from 'node:child_process';
import { cpSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { after, before, describe, it } from 'node:test';
import { here, project } from './paths.mjs';

describe('Neovim', () => {
  const scratch = mkdtempSync(join(tmpdir(), 'wireloft-neovim-'));
  /** @type {any} what neovim.lua writes */
  let result;

  before(() => {
    const folder = join(scratch, 'boats');
    const out = join(scratch, 'result.json');
    cpSync(join(project, 'examples'), folder, { recursive: true });
    const run = spawnSync(
      'nvim',
      ['--headless', '-u', 'NONE', '-i', 'NONE', '-n', '-c', `luafile ${join(here, 'neovim.lua')}`],
      {
        encoding: 'utf8',
        timeout: 120_000,
        env: {
          ...process.env,
          HOME: scratch,
          XDG_CACHE_HOME: scratch,
          NODE: process.execPath,
          PROGRAM: join(project, 'dist', 'cli', 'main.mjs'),
          FOLDER: folder,
          OUT: out,
        },
      },
    );
    assert.equal(run.error, undefined);
    result = JSON.parse(readFileSync(out, 'utf8'));
    assert.equal(result.fault, undefined);
  });

  after(() => rmSync(scratch, { recursive: true, force: true }));

  it('is told what the server can do', () => {
    for (const ability of ['hoverProvider', 'definitionProvider', 'completionProvider', 'renameProvider'])
      assert.ok(result.server[ability], ability);
  });

  it('hears what a screen shows', () => {
    const { contents } = result.hover;
    assert.match(typeof contents === 'string' ? contents : contents.value, /plotter[\s\S]*sternSonar/);
  });

  it('finds declarations in a catalogue and in the library', () => {
    const uriOf = (/** @type {any} */ answer) => [answer].flat()[0]?.uri ?? [answer].flat()[0]?.targetUri;
    assert.match(uriOf(result.definition), /catalogue\/tern\.loft$/);
    assert.match(uriOf(result.library), /^builtin:.*exposures\.loft$/);
  });

  it('has an outline', () => {
    assert.ok(result.symbols > 10);
  });

  it('is offered the free ports alone', () => {
    const items = Array.isArray(result.completion) ? result.completion : result.completion.items;
    const labels = items.map((/** @type {any} */ item) => item.label);
    assert.ok(labels.includes('4') && labels.includes('5'), labels.join(' '));
    assert.ok(!labels.includes('1') && !labels.includes('2') && !labels.includes('3'), labels.join(' '));
  });

  it('sees a fault where it stands, and sees it go', () => {
    assert.equal(result.finding.severity, 1);
    assert.equal(result.finding.code, 'type/unknown-name');
    assert.equal(result.finding.end_col - result.finding.col, 'nowhere'.length);
  });

  it('ends the server cleanly', () => {
    assert.deepEqual(result.exit, { code: 0, signal: 0 });
  });
});
