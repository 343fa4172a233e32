/** After any run of edits, what the server says equals what it says of the same texts from scratch. */
import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { URI, type LangiumDocument } from 'langium';
import { loadLibrary } from '../../src/language/library/documents.js';
import { createCoreServices, type Services, type SharedServices } from '../../src/language/module.js';
import { reportOn } from '../../src/language/project/build.js';
import { memoryFiles } from '../support/files.js';
import type { Problem } from '../../src/language/project/report.js';

const FILES: Readonly<Record<string, string>> = {
  'gull.loft': `use "catalogue.loft"
use "fore.loft"
vessel Gull { slack 0.5 m }
zone helm sheltered
zone bow exposed
run helm -- bow 4 m
device main : Disp at helm
device hub : Hub at helm
device echo : Ducer at bow
link main -- hub.1
link echo -- main.sonar
need main show echo
view "Plan" on main { left: chart  right: echo }
`,
  'fore.loft': `aboard Gull
device fore : Disp at bow
link fore -- hub.2
need fore show main.chart
`,
  'catalogue.loft': `family Tern
model Disp : display { families Tern  port net : ethernet sealed  port sonar : transducer accepts hd  shows chart, sonar  shares chart, sonar }
model Hub : switch { port 1..3 : ethernet  bridges ethernet }
model Ducer : transducer { port plug : transducer captive 9 m  gives sonar.side hd }
`,
};

/** Edits that a person makes: cut a stretch, paste one from elsewhere, change a word, break a line. */
const INSERTS = [
  '\n',
  ' ',
  '{',
  '}',
  '"',
  '// ',
  'zone ',
  'device x : Disp at bow\n',
  'use "fore.loft"\n',
  'use "nope.loft"\n',
  'aboard Gull\n',
  'hd',
  '1',
  ' allow net/loop because "x"',
];
const WORDS: readonly (readonly [string, string])[] = [
  ['hub', 'hob'],
  ['Disp', 'Dips'],
  ['main', 'mine'],
  ['Gull', 'Tern'],
  ['hd', 'standard'],
  ['1..3', '1..2'],
  ['"catalogue', '"catalog'],
  ['"catalogue', '"catalog'],
  ['"catalogue', '"catalog'],
  ['"fore', '"for'],
  ['hub.2', 'hub.1'],
  ['main.sonar', 'main.net'],
  ['9 m', '2 m'],
  ['echo : Ducer', 'echo : Disp'],
  ['exposed', 'interior'],
  ['chart', 'sonar'],
];

interface Edit {
  readonly file: string;
  readonly kind: 'cut' | 'insert' | 'word' | 'restore' | 'space';
  readonly at: number;
  readonly length: number;
  readonly pick: number;
}

const editArbitrary: fc.Arbitrary<Edit> = fc.record({
  file: fc.constantFrom('gull.loft', ...Object.keys(FILES)),
  kind: fc.constantFrom('cut', 'insert', 'word', 'word', 'word', 'word', 'word', 'word', 'restore', 'space'),
  at: fc.nat(10_000),
  length: fc.integer({ min: 1, max: 30 }),
  pick: fc.nat(1000),
});

function edited(text: string, edit: Edit): string {
  const at = text.length === 0 ? 0 : edit.at % text.length;
  switch (edit.kind) {
    case 'cut':
      return text.slice(0, at) + text.slice(at + edit.length);
    case 'insert':
      return text.slice(0, at) + (INSERTS[edit.pick % INSERTS.length] ?? '') + text.slice(at);
    case 'word': {
      const [from, to] = WORDS[edit.pick % WORDS.length] ?? ['', ''];
      return edit.pick % 2 === 0 ? text.replace(from, to) : text.replace(to, from);
    }
    case 'restore':
      return FILES[edit.file] ?? text;
    case 'space':
      return text.replace(/\n/, '\n\n');
  }
}

class Workspace {
  readonly shared: SharedServices;
  readonly services: Services;

  private readonly files = new Map<string, string>();

  constructor() {
    ({ shared: this.shared, Wireloft: this.services } = createCoreServices(
      { fileSystemProvider: () => memoryFiles(this.files) },
      {
        root: () => URI.parse('file:///boats'),
        today: () => '2026-11-25',
        surroundings: { refusal: () => undefined },
      },
    ));
  }

  async build(texts: Readonly<Record<string, string>>): Promise<void> {
    const {
      LangiumDocumentFactory: factory,
      LangiumDocuments: documents,
      DocumentBuilder: builder,
    } = this.shared.workspace;
    const added = Object.entries(texts).map(([file, text]) => {
      this.files.set(uri(file).toString(), text);
      const document = factory.fromString(text, uri(file));
      documents.addDocument(document);
      return document;
    });
    await builder.build([...loadLibrary(this.shared), ...added], { validation: false });
  }

  async change(file: string, text: string): Promise<void> {
    this.files.set(uri(file).toString(), text);
    await this.shared.workspace.DocumentBuilder.update([uri(file)], []);
  }

  /** Every problem of every file, in plain text. */
  problems(): string[] {
    const documents = this.shared.workspace.LangiumDocuments.all
      .filter((d: LangiumDocument) => d.uri.scheme !== 'builtin')
      .toArray();
    const report = reportOn(documents, this.shared, this.services);
    const all = [...report.vessels.flatMap((v) => v.problems), ...report.files.flatMap((f) => f.problems)];
    return all.map(line).sort();
  }
}

const uri = (file: string): URI => URI.parse(`file:///boats/${file}`);

const line = ({ place, severity, rule, message, related }: Problem): string =>
  `${place.file}:${JSON.stringify(place.range)} ${severity} ${rule} ${message} ${JSON.stringify(related)}`;

describe('incremental checking', () => {
  it('equals checking from scratch after random edits', async () => {
    const seen = { runs: 0, edits: 0, clean: 0, syntax: 0, unknown: 0, missing: 0, findings: 0 };
    await fc.assert(
      fc.asyncProperty(fc.array(editArbitrary, { minLength: 1, maxLength: 8 }), async (edits) => {
        const living = new Workspace();
        let texts: Record<string, string> = { ...FILES };
        await living.build(texts);
        living.problems();
        for (const edit of edits) {
          texts = { ...texts, [edit.file]: edited(texts[edit.file] ?? '', edit) };
          await living.change(edit.file, texts[edit.file] ?? '');
          living.problems();
          seen.edits++;
        }
        // Only the present texts may matter in the end; while a file is broken, what it last said may serve meanwhile.
        const isBroken = (text: string): boolean =>
          living.services.parser.LangiumParser.parse(text).parserErrors.length > 0;
        for (const file of Object.keys(FILES)) {
          if (!isBroken(texts[file] ?? '')) continue;
          texts = { ...texts, [file]: FILES[file] ?? '' };
          await living.change(file, texts[file] ?? '');
          seen.syntax++;
        }
        const incremental = living.problems();
        const fresh = new Workspace();
        await fresh.build(texts);
        const scratch = fresh.problems();
        seen.runs++;
        if (scratch.length === 0) seen.clean++;
        if (scratch.some((p) => p.includes('type/unknown-name'))) seen.unknown++;
        if (scratch.some((p) => p.includes('use/not-found'))) seen.missing++;
        if (scratch.some((p) => /need\/|view\/|cable\/|sonar\//.test(p))) seen.findings++;
        const hasMissing = scratch.some((p) => p.includes('use/not-found'));
        // With a use that leads nowhere, the last good closure serves: then only what stands there now must be said.
        if (hasMissing)
          expect(incremental.filter((p) => p.includes('use/not-found'))).toEqual(
            scratch.filter((p) => p.includes('use/not-found')),
          );
        else expect(incremental).toEqual(scratch);
      }),
      { numRuns: Number(process.env['RUNS'] ?? 140), seed: Number(process.env['SEED'] ?? 20261125) },
    );
    console.log('incremental:', JSON.stringify(seen));
    for (const [what, count] of Object.entries(seen)) expect(count, what).toBeGreaterThanOrEqual(20);
  }, 240_000);
});
