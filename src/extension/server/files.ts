/** File systems for the server: the disk where there is one, and the editor's own for every other place. */
import { UriUtils, type FileSystemNode, type FileSystemProvider, type URI } from 'langium';
import {
  listRequest,
  readRequest,
  statRequest,
  type FileEntry,
  type FileKind,
  type FileParams,
} from './protocol.js';

/** As much of a connection as is needed to ask the editor. */
export interface Asker {
  sendRequest<R>(method: string, params: FileParams): Promise<R>;
}

/**
 * Reads files through the editor, so that a virtual workspace and a browser have them too. It cannot wait for an answer, so
 * whatever asks at once is refused.
 */
export class EditorFiles implements FileSystemProvider {
  constructor(private readonly asker: Asker) {}

  async stat(uri: URI): Promise<FileSystemNode> {
    const kind = await this.kind(uri);
    if (kind === undefined) throw new Error(`${uri.toString()} is not there.`);
    return node(uri, kind);
  }

  async exists(uri: URI): Promise<boolean> {
    return (await this.kind(uri)) !== undefined;
  }

  async readBinary(uri: URI): Promise<Uint8Array> {
    const text = await this.asker.sendRequest<string | null>(readRequest, { uri: uri.toString() });
    if (text === null) throw new Error(`${uri.toString()} cannot be read.`);
    return Uint8Array.from(atob(text), (letter) => letter.charCodeAt(0));
  }

  async readFile(uri: URI): Promise<string> {
    return new TextDecoder().decode(await this.readBinary(uri));
  }

  async readDirectory(uri: URI): Promise<FileSystemNode[]> {
    const entries = await this.asker.sendRequest<readonly FileEntry[]>(listRequest, { uri: uri.toString() });
    return entries.map((entry) => node(UriUtils.joinPath(uri, entry.name), entry.kind));
  }

  statSync(uri: URI): never {
    return refuse(uri);
  }

  existsSync(uri: URI): never {
    return refuse(uri);
  }

  readBinarySync(uri: URI): never {
    return refuse(uri);
  }

  readFileSync(uri: URI): never {
    return refuse(uri);
  }

  readDirectorySync(uri: URI): never {
    return refuse(uri);
  }

  private async kind(uri: URI): Promise<FileKind | undefined> {
    return (await this.asker.sendRequest<FileKind | null>(statRequest, { uri: uri.toString() })) ?? undefined;
  }
}

/** The disk for `file:`, the editor for every other scheme. */
export class DiskAndEditorFiles implements FileSystemProvider {
  constructor(
    private readonly disk: FileSystemProvider,
    private readonly editor: FileSystemProvider,
  ) {}

  stat(uri: URI): Promise<FileSystemNode> {
    return this.of(uri).stat(uri);
  }

  statSync(uri: URI): FileSystemNode {
    return this.of(uri).statSync(uri);
  }

  exists(uri: URI): Promise<boolean> {
    return this.of(uri).exists(uri);
  }

  existsSync(uri: URI): boolean {
    return this.of(uri).existsSync(uri);
  }

  readBinary(uri: URI): Promise<Uint8Array> {
    return this.of(uri).readBinary(uri);
  }

  readBinarySync(uri: URI): Uint8Array {
    return this.of(uri).readBinarySync(uri);
  }

  readFile(uri: URI): Promise<string> {
    return this.of(uri).readFile(uri);
  }

  readFileSync(uri: URI): string {
    return this.of(uri).readFileSync(uri);
  }

  readDirectory(uri: URI): Promise<FileSystemNode[]> {
    return this.of(uri).readDirectory(uri);
  }

  readDirectorySync(uri: URI): FileSystemNode[] {
    return this.of(uri).readDirectorySync(uri);
  }

  private of(uri: URI): FileSystemProvider {
    return uri.scheme === 'file' ? this.disk : this.editor;
  }
}

function node(uri: URI, kind: FileKind): FileSystemNode {
  return { uri, isFile: kind === 'file', isDirectory: kind === 'folder' };
}

function refuse(uri: URI): never {
  throw new Error(`${uri.toString()} is read through the editor, which cannot be waited for here.`);
}
