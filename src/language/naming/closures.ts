/**
 * Closures: which files make up a vessel or stand behind a catalogue, and every name in them in one table.
 *
 * A vessel's closure is what its file uses, and what that uses, fragments `aboard` it included. A fragment has its vessel's
 * closure. A catalogue's is itself and what it uses; the bundled library is behind every one.
 */
import { AstUtils, URI, type AstNode, type LangiumDocument, type LangiumDocuments } from 'langium';
import type * as ast from '../generated/ast.js';
import { addName, emptyNames, factsOf, specOf, type FileFacts, type Namespace, type Names } from './facts.js';

export interface Closure {
  /** The file that declares the vessel, or the catalogue itself. */
  readonly root: string;
  readonly vessel: ast.VesselDecl | undefined;
  readonly documents: readonly LangiumDocument[];
  readonly facts: readonly FileFacts[];
  readonly names: Readonly<Record<Namespace, Names>>;
  /** Uses that lead nowhere, so that names may be missing. */
  readonly missing: readonly { readonly file: string; readonly node: ast.UseDecl }[];
  /** Names that a half-typed file declared when it last was whole: they are not reported as unknown. */
  readonly suspended: ReadonlySet<string>;
}

interface Cached {
  readonly epoch: number;
  readonly trees: readonly AstNode[];
  readonly closure: Closure;
}

/** What the file said when it last parsed without an error. */
interface LastGood {
  readonly uses: readonly string[];
  readonly names: ReadonlySet<string>;
}

export class Closures {
  private epoch = 0;
  private readonly cache = new Map<string, Cached>();
  private readonly lastGood = new Map<string, LastGood>();
  private readonly byTree = new WeakMap<AstNode, { epoch: number; closure: Closure | undefined }>();
  private owners: { epoch: number; of: Map<string, string> } | undefined;

  constructor(
    private readonly documents: () => LangiumDocuments,
    /** The folder that a file's uses must stay inside. */
    readonly root: (uri: URI) => URI,
  ) {}

  /** To be called when any file was parsed again, added or deleted. */
  changed(): void {
    this.epoch++;
  }

  facts(document: LangiumDocument): FileFacts {
    return factsOf(document, this.root);
  }

  document(uri: string): LangiumDocument | undefined {
    return this.documents().getDocument(URI.parse(uri));
  }

  /** Files that a file uses, with those that it used when it was last whole while it now is not. */
  usesOf(facts: FileFacts): string[] {
    const now = facts.uses.flatMap((use) => (use.target.uri ? [use.target.uri.toString()] : []));
    const found = now.filter((uri) => this.document(uri) !== undefined);
    const good = this.lastGood.get(facts.uri);
    if (facts.whole && found.length === facts.uses.length) {
      this.lastGood.set(facts.uri, { uses: now, names: namesIn(facts) });
      return found;
    }
    if (!good) return found;
    return [...new Set([...found, ...good.uses.filter((uri) => this.document(uri) !== undefined)])];
  }

  /** The file of the vessel that a file belongs to, or itself for a catalogue; undefined for a fragment that no vessel uses. */
  rootOf(uri: string): string | undefined {
    const document = this.document(uri);
    if (!document) return undefined;
    const facts = this.facts(document);
    if (facts.kind !== 'fragment') return uri;
    return this.ownersOfFragments().get(uri);
  }

  /** The closure a file's names resolve in. */
  closureOf(uri: string): Closure | undefined {
    const root = this.rootOf(uri);
    return root === undefined ? undefined : this.closureFrom(root);
  }

  /** The closure that the names in a tree resolve in. Linking asks this for every reference, so it is remembered for the tree. */
  closureAt(node: AstNode): Closure | undefined {
    const document = AstUtils.getDocument(node);
    const tree = document.parseResult.value;
    const known = this.byTree.get(tree);
    if (known?.epoch === this.epoch) return known.closure;
    const closure = this.closureOf(document.uri.toString());
    this.byTree.set(tree, { epoch: this.epoch, closure });
    return closure;
  }

  /** Every vessel there is, by the file that declares it. */
  vesselFiles(): string[] {
    return this.documents()
      .all.filter((document) => this.facts(document).kind === 'vessel')
      .map((document) => document.uri.toString())
      .toArray()
      .sort();
  }

  /** Vessel files and catalogues whose closure a file is part of. */
  rootsUsing(uri: string): string[] {
    const roots: string[] = [];
    for (const document of this.documents().all) {
      if (document.uri.scheme === 'builtin') continue;
      const root = document.uri.toString();
      if (this.facts(document).kind === 'fragment') continue;
      if (this.closureFrom(root)?.facts.some((facts) => facts.uri === uri)) roots.push(root);
    }
    return roots;
  }

  /** Every file there is but the bundled library. */
  loadedFiles(): string[] {
    return this.documents()
      .all.map((document) => document.uri.toString())
      .filter((uri) => !uri.startsWith('builtin:'))
      .toArray();
  }

  /** The files that a closure had when it was last asked for. */
  cachedMembers(root: string): string[] {
    return this.cache.get(root)?.closure.facts.map((facts) => facts.uri) ?? [];
  }

  private ownersOfFragments(): Map<string, string> {
    if (this.owners?.epoch === this.epoch) return this.owners.of;
    const of = new Map<string, string>();
    for (const root of this.vesselFiles())
      for (const facts of this.closureFrom(root)?.facts ?? [])
        if (facts.kind === 'fragment' && !of.has(facts.uri)) of.set(facts.uri, root);
    this.owners = { epoch: this.epoch, of };
    return of;
  }

  private closureFrom(root: string): Closure | undefined {
    const cached = this.cache.get(root);
    if (cached?.epoch === this.epoch) return cached.closure;
    const start = this.document(root);
    if (!start) return undefined;
    const vessel = this.facts(start).vessels[0];
    const documents = this.walk(start, vessel?.name);
    const trees = documents.map(specOf);
    if (cached && sameItems(trees, cached.trees)) {
      // Nothing in it was parsed again; but a use may have come to lead somewhere, or nowhere.
      if (cached.closure.missing.every((m) => !this.leads(m.node, m.file))) {
        this.cache.set(root, { ...cached, epoch: this.epoch });
        return cached.closure;
      }
    }
    const closure = this.build(root, vessel, documents);
    this.cache.set(root, { epoch: this.epoch, trees, closure });
    return closure;
  }

  private leads(node: ast.UseDecl, file: string): boolean {
    const document = this.document(file);
    const use = document && this.facts(document).uses.find((u) => u.node === node);
    return use?.target.uri !== undefined && this.document(use.target.uri.toString()) !== undefined;
  }

  /** Documents of a closure in the order in which they are used, each once. */
  private walk(start: LangiumDocument, vessel: string | undefined): LangiumDocument[] {
    const seen = new Set<string>([start.uri.toString()]);
    const found = [start];
    // Files found on the way are walked too.
    for (const document of found) {
      for (const uri of this.usesOf(this.facts(document))) {
        if (seen.has(uri)) continue;
        seen.add(uri);
        const used = this.document(uri);
        if (!used) continue;
        const facts = this.facts(used);
        // Another vessel's file or fragment is no part of this boat; the use of it is reported.
        if (
          facts.kind === 'vessel' ||
          (facts.kind === 'fragment' && facts.aboard?.vessel?.$refText !== vessel)
        )
          continue;
        found.push(used);
      }
    }
    return found;
  }

  private build(root: string, vessel: ast.VesselDecl | undefined, documents: LangiumDocument[]): Closure {
    const library = this.documents()
      .all.filter((document) => document.uri.scheme === 'builtin')
      .toArray();
    const all = [...documents, ...library];
    const facts = all.map((document) => this.facts(document));
    const names = emptyNames();
    const missing: { file: string; node: ast.UseDecl }[] = [];
    const suspended = new Set<string>();
    for (const file of facts) {
      const own = namesIn(file);
      if (!file.whole)
        for (const name of this.lastGood.get(file.uri)?.names ?? []) if (!own.has(name)) suspended.add(name);
      for (const use of file.uses)
        if (!use.target.uri || !this.document(use.target.uri.toString()))
          missing.push({ file: file.uri, node: use.node });
      for (const space of Object.keys(names) as Namespace[])
        for (const [name, nodes] of file.names[space])
          for (const node of nodes) addName(names[space], name, node);
    }
    return { root, vessel, documents: all, facts, names, missing, suspended };
  }
}

const sameItems = (a: readonly unknown[], b: readonly unknown[]): boolean =>
  a.length === b.length && a.every((item, i) => item === b[i]);

function namesIn(facts: FileFacts): Set<string> {
  const names = new Set<string>();
  for (const space of Object.keys(facts.names) as Namespace[])
    for (const name of facts.names[space].keys()) names.add(name);
  return names;
}
