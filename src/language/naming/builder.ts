/**
 * Builds documents closure by closure. After parsing, files that are used and not yet loaded are read; then exactly those
 * other files are linked again whose names may lead elsewhere now, and those checked again whose vessel changed.
 */
import {
  DefaultDocumentBuilder,
  DocumentState,
  URI,
  type BuildOptions,
  type Cancellation,
  type LangiumDocument,
  type LangiumSharedCoreServices,
} from 'langium';
import type { Closures } from './closures.js';
import type { FileFacts } from './facts.js';

export class WireloftDocumentBuilder extends DefaultDocumentBuilder {
  /** Facts that the other documents were linked against. */
  private readonly settled = new Map<string, FileFacts>();
  private readonly unreadable = new Set<string>();

  constructor(
    private readonly services: LangiumSharedCoreServices,
    private readonly closures: Closures,
    /** Whether a file that is there may not be used. */
    private readonly refused: (uri: URI) => boolean,
  ) {
    super(services);
  }

  /** Decided after parsing, when it is known what changed. */
  protected override shouldRelink(): boolean {
    return false;
  }

  protected override async buildDocuments(
    documents: LangiumDocument[],
    options: BuildOptions,
    cancelToken: Cancellation.CancellationToken,
  ): Promise<void> {
    this.unreadable.clear();
    await this.parse(documents, options, cancelToken);
    const all = [...documents, ...(await this.loadUsed(documents, options, cancelToken))];
    const building = new Set(all.map((document) => document.uri.toString()));
    for (const document of this.affected()) if (!building.has(document.uri.toString())) all.push(document);
    await super.buildDocuments(all, options, cancelToken);
  }

  private async parse(
    documents: LangiumDocument[],
    options: BuildOptions,
    cancelToken: Cancellation.CancellationToken,
  ): Promise<void> {
    this.prepareBuild(documents, options);
    await this.runCancelable(documents, DocumentState.Parsed, cancelToken, (document) =>
      this.langiumDocumentFactory.update(document, cancelToken),
    );
  }

  /** Reads what is used and not loaded, and what that uses. */
  private async loadUsed(
    documents: LangiumDocument[],
    options: BuildOptions,
    cancelToken: Cancellation.CancellationToken,
  ): Promise<LangiumDocument[]> {
    const loaded: LangiumDocument[] = [];
    let open = documents;
    while (open.length > 0) {
      const next: LangiumDocument[] = [];
      for (const document of open)
        for (const use of this.closures.facts(document).uses) {
          const uri = use.target.uri;
          if (!uri || this.services.workspace.LangiumDocuments.hasDocument(uri)) continue;
          const used = await this.read(uri);
          if (used) next.push(used);
        }
      await this.parse(next, options, cancelToken);
      loaded.push(...next);
      open = next;
    }
    return loaded;
  }

  private async read(uri: URI): Promise<LangiumDocument | undefined> {
    const key = uri.toString();
    if (this.unreadable.has(key) || this.refused(uri)) return undefined;
    try {
      return await this.services.workspace.LangiumDocuments.getOrCreateDocument(uri);
    } catch {
      this.unreadable.add(key);
      return undefined;
    }
  }

  /** Resets the documents that are touched by what changed since the last build, and returns them. */
  private affected(): LangiumDocument[] {
    const documents = this.services.workspace.LangiumDocuments;
    const changed = new Set<string>();
    const renamed = new Set<string>();
    const before = new Map(this.settled);
    for (const document of documents.all) {
      const uri = document.uri.toString();
      const facts = this.closures.facts(document);
      const old = this.settled.get(uri);
      if (old === facts) continue;
      changed.add(uri);
      if (old?.signature !== facts.signature) renamed.add(uri);
      this.settled.set(uri, facts);
    }
    for (const uri of before.keys())
      if (!documents.hasDocument(URI.parse(uri))) {
        changed.add(uri);
        renamed.add(uri);
        this.settled.delete(uri);
      }
    if (changed.size === 0) return [];

    const oldMembers = new Map(this.roots().map((root) => [root, this.closures.cachedMembers(root)]));
    this.closures.changed();
    const touched = new Set<string>();
    const relinked = new Set<string>();
    for (const root of this.roots()) {
      const before = oldMembers.get(root) ?? [];
      const now = this.closures.closureOf(root)?.facts.map((facts) => facts.uri) ?? [];
      const all = new Set([...now, ...before]);
      if (![...all].some((uri) => changed.has(uri))) continue;
      // While a file is half typed, what it used when it was whole may come and go without its names.
      const relink =
        now.length !== all.size || before.length !== all.size || [...all].some((uri) => renamed.has(uri));
      // A catalogue resolves in its own closure, and is one of the roots for its own sake.
      for (const uri of all)
        if (uri === root || this.settled.get(uri)?.kind === 'fragment')
          (relink ? relinked : touched).add(uri);
    }
    // A fragment that no vessel uses may be used now, or the other way round.
    if (renamed.size > 0)
      for (const document of documents.all)
        if (this.closures.facts(document).kind === 'fragment') relinked.add(document.uri.toString());

    const result: LangiumDocument[] = [];
    for (const document of documents.all) {
      const uri = document.uri.toString();
      if (changed.has(uri)) continue;
      if (relinked.has(uri) || (touched.has(uri) && refersInto(document, changed)))
        this.resetToState(document, DocumentState.ComputedScopes);
      else if (touched.has(uri)) this.resetToState(document, DocumentState.IndexedReferences);
      else continue;
      result.push(document);
    }
    return result;
  }

  private roots(): string[] {
    return this.services.workspace.LangiumDocuments.all
      .filter(
        (document) => document.uri.scheme !== 'builtin' && this.closures.facts(document).kind !== 'fragment',
      )
      .map((document) => document.uri.toString())
      .toArray();
  }
}

/** Whether a reference of the document leads into one of the files. */
function refersInto(document: LangiumDocument, files: ReadonlySet<string>): boolean {
  return document.references.some((reference) => {
    const target = '$nodeDescription' in reference ? reference.$nodeDescription : undefined;
    return target !== undefined && files.has(target.documentUri.toString());
  });
}
