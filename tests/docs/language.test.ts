/** The page of the language shows every construct, and what it shows is right. */
import { readFileSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import { AstUtils, EmptyFileSystem, URI } from 'langium';
import { beforeAll, describe, expect, it } from 'vitest';
import { WireloftAstReflection } from '../../src/language/generated/ast.js';
import { createCoreServices } from '../../src/language/module.js';
import { keywordsOf } from '../../src/language/parsing/tokens.js';
import * as words from '../../src/language/typing/words.js';
import { CLASSES, MEDIA } from '../../src/vessel/model.js';
import { CURRENCIES, UNITS } from '../../src/vessel/units.js';
import { filesOf, readPage, snippetsOf, type Snippet } from './support/snippets.js';
import { createWorkspace, problemsOf, type Check } from './support/workspace.js';

const page = readPage('docs/language.md');
const snippets = snippetsOf(page);
/** A snippet with the files that follow it, which belong to it. */
const projects = snippets.reduce<Snippet[][]>((groups, snippet) => {
  if (snippet.named) groups.at(-1)?.push(snippet);
  else groups.push([snippet]);
  return groups;
}, []);
const { Wireloft } = createCoreServices(EmptyFileSystem);

/** What only the bundled library declares. */
const LIBRARY_ONLY: ReadonlySet<string> = new Set([
  'MediumDecl', 'ConnectsProperty', 'WordsProperty', 'ClassDecl', 'SymbolProperty', 'ExposureDecl', 'AsksProperty',
  'ExposureFlag', 'FuseTypeDecl', 'RatingsProperty', 'RatedProperty', 'InterruptsProperty', 'InterruptItem',
]); // prettier-ignore
/** Its words, which the page leaves to the library's own files. */
const LIBRARY_WORDS = new Set([
  'connects',
  'must',
  'may',
  'symbol',
  'asks',
  'wet',
  'hot',
  'ratings',
  'interrupts',
]);

describe('docs/language.md', () => {
  let check: Check;
  beforeAll(async () => {
    check = await createWorkspace();
  });

  it.each(projects.map((project) => [project[0]?.line ?? 0, project] as const))(
    'is right at line %i',
    async (_, project) => {
      const problems = problemsOf(await check(filesOf(project)));
      const wrong = problems.filter(
        (problem) => problem.severity !== 'information' && problem.waived === null,
      );
      expect(wrong.map((problem) => `${problem.rule}: ${problem.message}`)).toEqual([]);
    },
  );

  it('shows every construct', () => {
    const shown = new Set<string>();
    for (const { text } of snippets) {
      const document = Wireloft.shared.workspace.LangiumDocumentFactory.fromString(
        text,
        URI.parse('file:///page.loft'),
      );
      for (const node of AstUtils.streamAst(document.parseResult.value)) shown.add(node.$type);
    }
    const reflection = new WireloftAstReflection();
    const constructs = reflection
      .getAllTypes()
      .filter((type) => reflection.getAllSubTypes(type).filter((sub) => sub !== type).length === 0);
    const missing = constructs.filter((type) => !shown.has(type) && !LIBRARY_ONLY.has(type));
    expect(constructs.length).toBeGreaterThan(80);
    expect(missing).toEqual([]);
  });

  it('has every word of the language', () => {
    const code = new Set(
      [...page.matchAll(/`[^`]+`|^```[\s\S]*?^```/gm)].flatMap(
        (match) => match[0].match(/[\p{L}\p{N}_]+|%/gu) ?? [],
      ),
    );
    const lists = [
      words.PRACTICES,
      words.HULLS,
      words.STATUSES,
      words.SIDES,
      words.CHEMISTRIES,
      words.LOAD_KINDS,
      words.SERVICES,
    ];
    const library = readdirSync(join(import.meta.dirname, '..', '..', 'src', 'language', 'library'))
      .filter((name) => /^(?:exposures|fuses)\.loft$/.test(name))
      .flatMap((name) => [
        ...readFileSync(
          join(import.meta.dirname, '..', '..', 'src', 'language', 'library', name),
          'utf8',
        ).matchAll(/^(?:exposure|fusetype) (\w+)/gm),
      ])
      .map((match) => match[1] ?? '');
    const all = [
      ...keywordsOf(Wireloft.Grammar).filter((word) => /^[a-z]/.test(word) && !LIBRARY_WORDS.has(word)),
      ...CLASSES,
      ...MEDIA,
      ...UNITS.keys(),
      ...CURRENCIES,
      ...lists.flatMap((list) => Object.keys(list)),
      ...library,
    ];
    expect(library.length).toBeGreaterThan(5);
    expect(all.filter((word) => !code.has(word))).toEqual([]);
  });
});
