/** Opens vessels from the file system of Node.js: for the terminal and build scripts. */
import '../polyfill.js';
import { existsSync, lstatSync, readdirSync, readFileSync, realpathSync, statSync } from 'node:fs';
import { basename, dirname, join, resolve, sep } from 'node:path';
import { URI, type FileSystemNode, type FileSystemProvider, type LangiumDocument } from 'langium';
import { refusalOnDisk } from './links.js';
import { loadLibrary } from '../library/documents.js';
import { createCoreServices, type Services, type SharedServices } from '../module.js';
import { LARGEST_FILE } from '../parsing/limits.js';
import type { Solver } from '../../checks/design/solver.js';
import { reportOn, type Chosen } from './build.js';
import { withCheaper } from './cheaper.js';
import type { ProjectReport, Unreadable } from './report.js';

export interface OpenOptions {
  /** The folder that uses must stay inside; by default the git root, else the working folder, else the smallest with all of them. */
  readonly root?: string | undefined;
  /** ISO 8601 date by which waivers expire. */
  readonly today: string;
  /** With which options vessels are checked; by default as they are and with each by itself. */
  readonly chosen?: Chosen | undefined;
  /** Looks for cheaper designs as well. */
  readonly solver?: Solver | undefined;
  /** Is told how many vessels have been checked. */
  readonly checked?: ((vessels: number) => void) | undefined;
}

export interface OpenProject {
  readonly report: ProjectReport;
  readonly unreadable: readonly Unreadable[];
  readonly shared: SharedServices;
  readonly services: Services;
}

/** The files that paths stand for, and the folder that their uses must stay inside. */
export interface FoundSpecs {
  readonly files: readonly string[];
  readonly unreadable: readonly Unreadable[];
  readonly root: string;
}

/** Finds the specs at the given files and folders, and reads none of them. */
export function findSpecs(paths: readonly string[], root: string | undefined): FoundSpecs {
  const unreadable: Unreadable[] = [];
  const files = paths.flatMap((path) => specsAt(path, unreadable));
  return { files, unreadable, root: root === undefined ? rootOf(paths) : real(resolve(root)) };
}

/** Loads the specs at the given files and folders, with what they use, and checks them. */
export async function openProject(paths: readonly string[], options: OpenOptions): Promise<OpenProject> {
  const { files, unreadable: missing, root } = findSpecs(paths, options.root);
  const unreadable: Unreadable[] = [...missing];
  const fileSystem = new NodeFiles();
  const { shared, Wireloft } = createCoreServices(
    { fileSystemProvider: () => fileSystem },
    {
      root: () => URI.file(root),
      today: () => options.today,
      surroundings: { refusal: (uri) => refusalOnDisk(uri, URI.file(root)) },
    },
  );
  const documents = shared.workspace.LangiumDocuments;
  const library = loadLibrary(shared);
  const asked: LangiumDocument[] = [];
  for (const file of files) {
    try {
      asked.push(await documents.getOrCreateDocument(URI.file(file)));
    } catch (error) {
      unreadable.push({ path: file, message: reason(error) });
    }
  }
  const build = (more: LangiumDocument[]): Promise<void> =>
    shared.workspace.DocumentBuilder.build(more, { validation: false });
  await build([...library, ...asked]);
  if (asked.some((document) => shared.naming.Closures.rootOf(document.uri.toString()) === undefined)) {
    // A fragment finds its vessel under the root.
    const others = specsBelow(root).filter((file) => !documents.hasDocument(URI.file(file)));
    const loaded = await Promise.allSettled(
      others.map((file) => documents.getOrCreateDocument(URI.file(file))),
    );
    // One that can't be read is not what was asked for.
    await build(loaded.flatMap((result) => (result.status === 'fulfilled' ? [result.value] : [])));
  }
  const report = reportOn(asked, shared, Wireloft, options.chosen, options.checked);
  return {
    report: options.solver === undefined ? report : withCheaper(report, shared, options.solver),
    unreadable,
    shared,
    services: Wireloft,
  };
}

/** The git root above all that is asked for, else the working folder if that holds it, else the smallest folder that does. */
function rootOf(paths: readonly string[]): string {
  const here = real(process.cwd());
  const folders = paths.map((path) => folderOf(real(resolve(path))));
  const [first] = folders;
  if (first === undefined) return here;
  let shared = first;
  while (shared !== dirname(shared) && !folders.every((folder) => isWithin(folder, shared)))
    shared = dirname(shared);
  for (let folder = shared; ; folder = dirname(folder)) {
    if (existsSync(join(folder, '.git'))) return folder;
    if (folder === dirname(folder)) break;
  }
  return isWithin(shared, here) ? here : shared;
}

const folderOf = (path: string): string =>
  existsSync(path) && statSync(path).isDirectory() ? path : dirname(path);

const isWithin = (path: string, folder: string): boolean =>
  path === folder || path.startsWith(folder.endsWith(sep) ? folder : folder + sep);

const real = (path: string): string => (existsSync(path) ? realpathSync(path) : path);

/** The specs a path stands for: the file itself, or every spec in the folder and below. */
function specsAt(path: string, unreadable: Unreadable[]): string[] {
  const fail = (message: string): string[] => {
    unreadable.push({ path, message });
    return [];
  };
  const absolute = resolve(path);
  if (!existsSync(absolute)) return fail('there is no such file or folder');
  const target = realpathSync(absolute);
  if (statSync(target).isDirectory()) {
    const found = specsBelow(target);
    return found.length > 0 ? found : fail('the folder holds no spec (a file that ends in .loft)');
  }
  if (!statSync(target).isFile()) return fail('this is neither a file nor a folder');
  return target.endsWith('.loft') ? [target] : fail('a spec is a file that ends in .loft');
}

/** Every spec in a folder and below; hidden folders and dependencies are passed over, links are not followed. */
function specsBelow(folder: string): string[] {
  const found: string[] = [];
  let entries;
  try {
    entries = readdirSync(folder, { withFileTypes: true });
  } catch {
    return found;
  }
  for (const entry of entries.sort((a, b) => (a.name < b.name ? -1 : 1))) {
    if (entry.name.startsWith('.') || entry.name === 'node_modules') continue;
    const path = join(folder, entry.name);
    if (entry.isDirectory()) found.push(...specsBelow(path));
    else if (entry.isFile() && entry.name.endsWith('.loft')) found.push(path);
  }
  return found;
}

function reason(error: unknown): string {
  const code = error instanceof Error && 'code' in error ? error.code : undefined;
  if (code === 'EACCES') return 'it may not be read (no permission)';
  if (code === 'ENOENT') return 'there is no such file';
  return error instanceof Error ? error.message : String(error);
}

/** Reads files from disk. What may be read is decided before, see links.ts. */
class NodeFiles implements FileSystemProvider {
  readFileSync(uri: URI): string {
    // A file over the limit is reported by its size; reading it whole would only cost memory.
    const bytes = readFileSync(uri.fsPath);
    return bytes.length > 4 * LARGEST_FILE
      ? ' '.repeat(LARGEST_FILE + 1)
      : bytes.toString('utf8').replace(/^\uFEFF/, '');
  }

  readBinarySync(uri: URI): Uint8Array {
    return readFileSync(uri.fsPath);
  }

  readFile(uri: URI): Promise<string> {
    return Promise.resolve().then(() => this.readFileSync(uri));
  }

  readBinary(uri: URI): Promise<Uint8Array> {
    return Promise.resolve().then(() => this.readBinarySync(uri));
  }

  statSync(uri: URI): FileSystemNode {
    const stat = lstatSync(uri.fsPath);
    return { isFile: stat.isFile(), isDirectory: stat.isDirectory(), uri };
  }

  stat(uri: URI): Promise<FileSystemNode> {
    return Promise.resolve().then(() => this.statSync(uri));
  }

  existsSync(uri: URI): boolean {
    return existsSync(uri.fsPath);
  }

  exists(uri: URI): Promise<boolean> {
    return Promise.resolve(this.existsSync(uri));
  }

  readDirectorySync(uri: URI): FileSystemNode[] {
    return readdirSync(uri.fsPath, { withFileTypes: true }).map((entry) => ({
      isFile: entry.isFile(),
      isDirectory: entry.isDirectory(),
      uri: URI.file(join(uri.fsPath, basename(entry.name))),
    }));
  }

  readDirectory(uri: URI): Promise<FileSystemNode[]> {
    return Promise.resolve().then(() => this.readDirectorySync(uri));
  }
}
