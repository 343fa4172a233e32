/** What the server's processes add to the language: files by way of the editor, and the pages about the rules. */
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { EmptyFileSystemProvider, URI } from 'langium';
import { afterAll, describe, expect, it } from 'vitest';
import { DiskAndEditorFiles, EditorFiles, type Asker } from '../../src/extension/server/files.js';
import { rulePages } from '../../src/extension/server/pages.js';
import { listRequest, readRequest, statRequest } from '../../src/extension/server/protocol.js';

const boats = URI.parse('memory:/boats');
const file = URI.parse('memory:/boats/größe.loft');
const text = 'zone größe exposed // 舵\n';

/** An editor with one folder that holds one file. */
const editor: Asker = {
  sendRequest: <R>(method: string, { uri }: { readonly uri: string }): Promise<R> => {
    const answers: Readonly<Record<string, unknown>> = {
      [`${statRequest} ${boats.toString()}`]: 'folder',
      [`${statRequest} ${file.toString()}`]: 'file',
      [`${readRequest} ${file.toString()}`]: Buffer.from(text).toString('base64'),
      [`${listRequest} ${boats.toString()}`]: [{ name: 'größe.loft', kind: 'file' }],
    };
    return Promise.resolve((answers[`${method} ${uri}`] ?? (method === listRequest ? [] : null)) as R);
  },
};

describe('files by way of the editor', () => {
  const files = new EditorFiles(editor);
  const nothing = URI.parse('memory:/boats/none.loft');

  it('are read, listed and told apart', async () => {
    expect(await files.readFile(file)).toBe(text);
    expect(await files.stat(boats)).toMatchObject({ isFile: false, isDirectory: true });
    const [entry, ...others] = await files.readDirectory(boats);
    expect(others).toEqual([]);
    expect(entry?.isFile).toBe(true);
    expect(entry?.uri.toString()).toBe(file.toString());
  });

  it('are missed by name', async () => {
    expect(await files.exists(file)).toBe(true);
    expect(await files.exists(nothing)).toBe(false);
    expect(await files.readDirectory(nothing)).toEqual([]);
    await expect(files.readFile(nothing)).rejects.toThrow('memory:/boats/none.loft cannot be read');
    await expect(files.stat(nothing)).rejects.toThrow('memory:/boats/none.loft is not there');
  });

  it('are not to be had at once', () => {
    for (const ask of [
      'readFileSync',
      'readBinarySync',
      'readDirectorySync',
      'statSync',
      'existsSync',
    ] as const)
      expect(() => files[ask](file)).toThrow('cannot be waited for');
  });

  it('leave what is on the disk to the disk', async () => {
    const both = new DiskAndEditorFiles(new EmptyFileSystemProvider(), files);
    expect(await both.exists(file)).toBe(true);
    expect(await both.exists(URI.parse('file:///boats/größe.loft'))).toBe(false);
    expect(await both.readFile(file)).toBe(text);
    expect(both.existsSync(URI.parse('file:///boats/größe.loft'))).toBe(false);
  });
});

describe('the page of a rule', () => {
  const scratch = realpathSync(mkdtempSync(join(tmpdir(), 'wireloft-pages-')));
  afterAll(() => rmSync(scratch, { recursive: true }));
  const program = join(scratch, 'dist', 'extension', 'server.cjs');
  const page = join(scratch, 'docs', 'rules', 'net', 'loop.md');
  for (const path of [program, page]) {
    mkdirSync(join(path, '..'), { recursive: true });
    writeFileSync(path, '');
  }

  it('is found from the program', () => {
    const pages = rulePages(program);
    expect(fileURLToPath(pages('net/loop') ?? '')).toBe(page);
    expect(pages('net/none')).toBeUndefined();
  });
});
