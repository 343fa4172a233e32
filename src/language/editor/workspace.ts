/** Loads the bundled library with the workspace, and validates everything at the start. */
import {
  DefaultWorkspaceManager,
  URI,
  UriUtils,
  type LangiumDocument,
  type LangiumSharedCoreServices,
  type WorkspaceFolder,
} from 'langium';
import { loadLibrary } from '../library/documents.js';
import { isInside } from '../naming/paths.js';

export class WireloftWorkspaceManager extends DefaultWorkspaceManager {
  override initialBuildOptions = { validation: true };

  constructor(private readonly shared: LangiumSharedCoreServices) {
    super(shared);
  }

  protected override loadAdditionalDocuments(
    _folders: WorkspaceFolder[],
    collector: (document: LangiumDocument) => void,
  ): Promise<void> {
    for (const document of loadLibrary(this.shared)) collector(document);
    return Promise.resolve();
  }
}

/** The folder that bounds a file's uses: its workspace folder, or its own folder where it is in none. */
export function workspaceRoot(shared: LangiumSharedCoreServices, uri: URI): URI {
  const folders = shared.workspace.WorkspaceManager.workspaceFolders ?? [];
  const holding = folders.map((folder) => URI.parse(folder.uri)).filter((folder) => isInside(uri, folder));
  return holding.sort((a, b) => b.path.length - a.path.length)[0] ?? UriUtils.dirname(uri);
}
