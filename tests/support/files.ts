import { EmptyFileSystem, URI, type FileSystemNode, type FileSystemProvider } from 'langium';

/** A file system that holds its files in memory, by URI. */
export function memoryFiles(texts: ReadonlyMap<string, string>): FileSystemProvider {
  const read = (uri: URI): Promise<string> => {
    const text = texts.get(uri.toString());
    return text === undefined
      ? Promise.reject(new Error(`no file ${uri.toString()}`))
      : Promise.resolve(text);
  };
  const list = (uri: URI): Promise<FileSystemNode[]> => {
    const prefix = `${uri.toString().replace(/\/$/, '')}/`;
    const entries = new Map<string, boolean>();
    for (const file of texts.keys()) {
      if (!file.startsWith(prefix)) continue;
      const [name = '', ...rest] = file.slice(prefix.length).split('/');
      entries.set(name, rest.length > 0);
    }
    const node = ([name, folder]: [string, boolean]): FileSystemNode => ({
      isFile: !folder,
      isDirectory: folder,
      uri: URI.parse(prefix + name),
    });
    return Promise.resolve([...entries].map(node));
  };
  return Object.assign(EmptyFileSystem.fileSystemProvider(), {
    readFile: read,
    exists: (uri: URI) => Promise.resolve(texts.has(uri.toString())),
    readDirectory: list,
    stat: (uri: URI) => Promise.resolve({ isFile: texts.has(uri.toString()), isDirectory: false, uri }),
  });
}
