/** Answers the server's requests for files that are not on its own disk. */
import { FileType, Uri, workspace } from 'vscode';
import type { BaseLanguageClient } from 'vscode-languageclient';
import {
  listRequest,
  readRequest,
  statRequest,
  type FileEntry,
  type FileKind,
  type FileParams,
} from './server/protocol.js';

/** Registers the answers; they go with the client. */
export function serveFiles(client: BaseLanguageClient): void {
  client.onRequest(statRequest, ({ uri }: FileParams) => stat(Uri.parse(uri, true)));
  client.onRequest(readRequest, ({ uri }: FileParams) => read(Uri.parse(uri, true)));
  client.onRequest(listRequest, ({ uri }: FileParams) => list(Uri.parse(uri, true)));
}

async function stat(uri: Uri): Promise<FileKind | null> {
  try {
    return kindOf((await workspace.fs.stat(uri)).type);
  } catch {
    return null;
  }
}

async function read(uri: Uri): Promise<string | null> {
  try {
    const bytes = await workspace.fs.readFile(uri);
    let text = '';
    for (const byte of bytes) text += String.fromCharCode(byte);
    return btoa(text);
  } catch {
    return null;
  }
}

async function list(uri: Uri): Promise<readonly FileEntry[]> {
  try {
    return (await workspace.fs.readDirectory(uri)).flatMap(([name, type]) => {
      const kind = kindOf(type);
      return kind === null ? [] : [{ name, kind }];
    });
  } catch {
    return [];
  }
}

/** A symbolic link counts as what it leads to. */
function kindOf(type: FileType): FileKind | null {
  if ((type & FileType.File) !== 0) return 'file';
  return (type & FileType.Directory) !== 0 ? 'folder' : null;
}
