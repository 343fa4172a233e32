/** The examples check with exactly the findings that they explain, and together they show every construct. */
import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath, pathToFileURL } from 'node:url';
import { AstUtils } from 'langium';
import { describe, expect, it } from 'vitest';
import { WireloftAstReflection, type WireloftAstType } from '../src/language/generated/ast.js';
import { openProject } from '../src/language/project/open.js';
import type { Problem, ProjectReport } from '../src/language/project/report.js';

const folder = fileURLToPath(new URL('../examples', import.meta.url));
const files = readdirSync(folder, { recursive: true, encoding: 'utf8' })
  .filter((name) => name.endsWith('.loft'))
  .sort();
const open = (paths: readonly string[]): ReturnType<typeof openProject> =>
  openProject(paths, { root: folder, today: '2026-11-25' });

/** The mistake in a backbone of the motor yacht that its comment explains. */
const EARTHED_AT_ENGINE = 'warning bus/ground buses.loft: ground';

/** What each vessel is found to have, in its file's words: the severity, the rule, and the line. */
const EXPECTED: Readonly<Record<string, readonly string[]>> = {
  Kittiwake: [],
  'Kittiwake with offshore': [],
  'Kittiwake with bigScreen': [],
  Dunlin: [],
  'Dunlin with noSwitch': [
    'information net/through-power dunlin.loft: option noSwitch "12-inch display at the helm, and no switch" {',
  ],
  Razorbill: [EARTHED_AT_ENGINE],
  'Razorbill with owner': [EARTHED_AT_ENGINE],
  'Razorbill with instrument': [EARTHED_AT_ENGINE],
  'Razorbill with light': [EARTHED_AT_ENGINE],
  'Razorbill with chain': [
    EARTHED_AT_ENGINE,
    'information net/through-power options.loft: option chain "Second cockpit screen behind the first" {',
  ],
  Whimbrel: [
    'waived warning cable/coax-loss whimbrel.loft: link vhf.antenna -- whip using Coax8X length 19 m existing label "VHF" allow cable/coax-loss because "in the mast since 1988, comes out with the mast"',
    'waived warning serial/signalling whimbrel.loft: link oldGnss.talk -- vhf.listen existing allow serial/signalling because "output on A, ground on B, and heard for years"  // the distress key needs a position',
    'waived warning cable/not-sealed whimbrel.loft: link loanScreen.net -- plotter.net2 using PatchCord allow cable/not-sealed because "on loan, comes off in the autumn" until 2030-10-31',
  ],
};

/** What only the bundled library declares. */
const LIBRARY_ONLY: ReadonlySet<string> = new Set([
  'SignalDecl', 'PgnProperty', 'SentenceProperty',
  'MediumDecl', 'ConnectsProperty', 'WordsProperty',
  'ClassDecl', 'SymbolProperty',
  'ExposureDecl', 'AsksProperty', 'ExposureFlag',
  'FuseTypeDecl', 'RatingsProperty', 'RatedProperty', 'InterruptsProperty', 'InterruptItem',
]); // prettier-ignore

function told(report: ProjectReport, problem: Problem): string {
  const line = report.text(problem.place.file)?.split('\n')[problem.place.range.start.line]?.trim() ?? '';
  return `${problem.waived === null ? '' : 'waived '}${problem.severity} ${problem.rule} ${basename(problem.place.file)}: ${line}`;
}

describe('the examples', () => {
  it('are found to have what they explain', async () => {
    const { report, unreadable } = await open([folder]);
    expect(unreadable).toEqual([]);
    const found = report.vessels.map(
      (vessel) =>
        [
          vessel.option === null ? vessel.name : `${vessel.name} with ${vessel.option}`,
          vessel.problems.map((problem) => told(report, problem)),
        ] as const,
    );
    expect(Object.fromEntries(found)).toEqual(EXPECTED);
  });

  it('use catalogues and fragments that are right by themselves', async () => {
    const { report } = await open([folder]);
    expect(report.files.flatMap((file) => file.problems.map((problem) => told(report, problem)))).toEqual([]);
  });

  it('show every construct', async () => {
    const { shared } = await open(files.map((name) => join(folder, name)));
    const shown = new Set<string>();
    for (const document of shared.workspace.LangiumDocuments.all) {
      if (!document.uri.toString().startsWith(pathToFileURL(folder).href)) continue;
      for (const node of AstUtils.streamAst(document.parseResult.value)) shown.add(node.$type);
    }
    const reflection = new WireloftAstReflection();
    const types = reflection.getAllTypes();
    const built = types.filter(
      (type) => !types.some((other) => other !== type && reflection.isSubtype(other, type)),
    );
    expect(built.filter((type) => !shown.has(type) && !LIBRARY_ONLY.has(type))).toEqual(
      [] satisfies (keyof WireloftAstType)[],
    );
  });

  it.each(files)('%s begins with a word of explanation', (name) => {
    expect(readFileSync(join(folder, name), 'utf8')).toMatch(/^\/\/ \S/);
  });
});
