/** Tries the cells of a construct: one file is put together, read, and asked. */
import { EmptyFileSystem, URI, type LangiumDocument } from 'langium';
import type { CompletionItem, Hover, LocationLink, Position } from 'vscode-languageserver';
import { documentProblems } from '../../src/language/diagnosis/document.js';
import { createEditorServices } from '../../src/language/editor/module.js';
import { WireloftValidator } from '../../src/language/editor/validator.js';
import { format } from '../../src/language/formatting/format.js';
import { loadLibrary } from '../../src/language/library/documents.js';
import type { Problem } from '../../src/language/project/report.js';
import { BOAT, FLEET, VESSEL } from './world.js';

const FOLDER = 'file:///boats/';

/** A file with a construct in it. */
export interface Bench {
  readonly document: LangiumDocument;
  /** Where the construct begins and ends. */
  readonly start: number;
  readonly end: number;
  readonly cursor: Position | undefined;
}

export class Workbench {
  readonly services = createEditorServices(EmptyFileSystem, {
    today: () => '2026-01-01',
    rulePage: () => undefined,
  });
  private readonly documents = this.services.shared.workspace.LangiumDocuments;

  /** Loads the library, the catalogue and the boat that has a fragment. */
  async prepare(): Promise<void> {
    const { shared } = this.services;
    loadLibrary(shared);
    for (const [name, text] of Object.entries(FLEET)) this.add(URI.parse(FOLDER + name), text);
    await this.build(this.documents.all.toArray());
  }

  /** Puts a construct where its frame says; `$0` in either is the cursor. */
  async put(frame: string, text: string): Promise<Bench> {
    const { name, content } = surround(frame, text);
    const at = content.indexOf('HERE');
    const whole = at < 0 ? content : content.slice(0, at) + text + content.slice(at + 'HERE'.length);
    const offset = whole.indexOf('$0');
    const clean = whole.replace('$0', '');
    const uri = URI.parse(name);
    if (this.documents.hasDocument(uri))
      await this.services.shared.workspace.DocumentBuilder.update([], [uri]);
    const document = this.add(uri, clean);
    await this.build([document]);
    const start = Math.max(at, 0);
    return {
      document,
      start,
      end: at < 0 ? clean.length : start + text.replace('$0', '').length,
      cursor: offset < 0 ? undefined : document.textDocument.positionAt(offset),
    };
  }

  private add(uri: URI, text: string): LangiumDocument {
    const document = this.services.shared.workspace.LangiumDocumentFactory.fromString(text, uri);
    this.documents.addDocument(document);
    return document;
  }

  private build(documents: LangiumDocument[]): Promise<void> {
    return this.services.shared.workspace.DocumentBuilder.build(documents, { validation: false });
  }

  /** What is wrong with the file by itself: its words, names and types. */
  faults({ document }: Bench): Problem[] {
    return documentProblems(document, this.services.Wireloft.diagnosis.Diagnosing);
  }

  /** Everything that is found in the file, by the checks of the vessel too. */
  problems(bench: Bench): Problem[] {
    const { DocumentValidator: validator } = this.services.Wireloft.validation;
    return validator instanceof WireloftValidator ? validator.problems(bench.document) : [];
  }

  format(frame: string, text: string): string {
    return format(surround(frame, text).content.replace('HERE', text), this.services.Wireloft);
  }

  /** The line of each declaration that the name at an offset leads to, and the name's place in it. */
  async targets({ document }: Bench, offset: number): Promise<{ line: string; from: number; to: number }[]> {
    const provider = this.services.Wireloft.lsp.DefinitionProvider;
    const position = document.textDocument.positionAt(offset);
    const links: LocationLink[] =
      (await provider?.getDefinition(document, { textDocument: document.textDocument, position })) ?? [];
    return links.map(({ targetUri, targetSelectionRange: { start, end } }) => {
      const text = this.documents.getDocument(URI.parse(targetUri))?.textDocument.getText() ?? '';
      const line = text.split(/\r?\n/)[start.line] ?? '';
      return { line, from: start.character, to: start.line === end.line ? end.character : line.length };
    });
  }

  async completions({ document, cursor }: Bench): Promise<readonly CompletionItem[]> {
    if (!cursor) throw new Error('The text has no cursor $0.');
    const provider = this.services.Wireloft.lsp.CompletionProvider;
    const list = await provider?.getCompletion(document, {
      textDocument: document.textDocument,
      position: cursor,
    });
    return list?.items ?? [];
  }

  async hover({ document, cursor }: Bench): Promise<string> {
    if (!cursor) throw new Error('The text has no pointer $0.');
    const provider = this.services.Wireloft.lsp.HoverProvider;
    return textOf(
      await provider?.getHoverContent(document, { textDocument: document.textDocument, position: cursor }),
    );
  }
}

/** What a hover says; the marks that it escapes, since they would be mark-up, are taken as they are. */
function textOf(hover: Hover | undefined): string {
  const contents = hover?.contents ?? '';
  const parts = Array.isArray(contents) ? contents : [contents];
  return parts
    .map((part) => (typeof part === 'string' ? part : part.value))
    .join('\n')
    .replaceAll(/\\(?=\W)/g, '');
}

/** The file that a construct stands in: the library's, a fragment, or the boat's. */
function surround(frame: string, text: string): { name: string; content: string } {
  const head = frame.replace('HERE', text);
  if (frame.startsWith('library\n'))
    return { name: 'builtin:/probe.loft', content: frame.slice('library\n'.length).trimStart() };
  if (head.startsWith('aboard ')) return { name: `${FOLDER}fragment.loft`, content: `${frame}\n` };
  const vessel = head.startsWith('vess');
  return {
    name: `${FOLDER}probe.loft`,
    content: `use "gear.loft"\n\n${vessel ? frame : VESSEL}\n${BOAT}\n${vessel ? '' : frame}\n`,
  };
}
