/** Faults of `use`, `aboard` and the shape of a closure. */
import type { LangiumDocument, URI } from 'langium';
import type { Closure, Closures } from '../naming/closures.js';
import type { FileFacts, UseFact } from '../naming/facts.js';
import { nearest } from '../naming/nearest.js';
import { relativePath } from '../naming/paths.js';
import type { Fix, Problem } from '../project/report.js';
import { addUse } from './addUse.js';
import { article, capital, placeOf, problem, replaceFix } from './problem.js';

/** What the file system knows beyond what was loaded. */
export interface Surroundings {
  /** Why a file that is there may not be used ("is a link that leads out of the root"), or undefined. */
  readonly refusal: (uri: URI) => string | undefined;
}

export function useProblems(
  document: LangiumDocument,
  closures: Closures,
  surroundings: Surroundings,
): Problem[] {
  const facts = closures.facts(document);
  const problems: Problem[] = [];
  const closure = closures.closureOf(facts.uri);
  for (const use of facts.uses) problems.push(...useProblem(use, document, closures, closure, surroundings));
  problems.push(...shapeProblems(facts, closures));
  return problems;
}

function useProblem(
  use: UseFact,
  document: LangiumDocument,
  closures: Closures,
  closure: Closure | undefined,
  surroundings: Surroundings,
): Problem[] {
  const place = placeOf(use.node, 'path');
  const path = use.node.path;
  const at = (rule: string, message: string, fixes: Fix[] = []): Problem[] => [
    problem(rule, message, place, { fixes }),
  ];
  switch (use.target.fault) {
    case 'empty':
      return at(
        'use/not-found',
        'The path is empty. Write the file to use, relative to this one, such as "catalogue/general.loft".',
      );
    case 'url':
      return at(
        'use/outside-root',
        `"${path}" is an address; only files in this folder tree can be used. Copy the file here and give its relative path.`,
      );
    case 'absolute':
      return at(
        'use/outside-root',
        `"${path}" is an absolute path. Paths are relative to this file, so that the boat can be moved with its folder.`,
      );
    case 'outside-root':
      return at(
        'use/outside-root',
        `"${path}" leads out of the root folder ${closures.root(document.uri).fsPath}. Move the file inside it, or give a wider --root.`,
      );
    case 'extension':
      return at('use/not-found', `"${path}" is no spec: a used file ends in ".loft".`, [
        replaceFix(`Use "${path}.loft"`, place, `"${path}.loft"`),
      ]);
    case undefined:
      break;
  }
  const { uri } = use.target;
  if (!uri) return [];
  const used = closures.document(uri.toString());
  if (!used) {
    const refusal = surroundings.refusal(uri);
    if (refusal)
      return at(refusal.includes('root') ? 'use/outside-root' : 'use/not-found', `"${path}" ${refusal}.`);
    const others = [...new Set(closures.loadedFiles().filter((other) => other !== document.uri.toString()))];
    const paths = others
      .map((other) => closures.document(other))
      .flatMap((other) => (other ? [relativePath(document.uri, other.uri)] : []));
    const stem = path.replace(/\.loft$/, '');
    const meant = nearest(path, paths) ?? paths.find((other) => stem.length > 2 && other.startsWith(stem));
    const missing =
      closure && closure.missing.length > 0
        ? ' Names that it may declare are not reported as unknown meanwhile.'
        : '';
    return at(
      'use/not-found',
      `There is no file "${path}" beside this one.${meant ? ` Did you mean "${meant}"?` : ''}${missing}`,
      meant ? [replaceFix(`Use "${meant}"`, place, `"${meant}"`)] : [],
    );
  }
  const other = closures.facts(used);
  // A file that uses itself is the shortest cycle, and cycles are harmless.
  if (other.uri === document.uri.toString()) return [];
  const vessel = closure?.vessel;
  if (other.kind === 'vessel' && other.uri !== closure?.root)
    return at(
      'use/no-vessel',
      `"${path}" declares the vessel ${other.vessels[0]?.name ?? ''} itself; a closure has one vessel. Use the catalogue or fragment that you need instead.`,
    );
  if (other.kind === 'fragment' && other.aboard?.vessel?.$refText !== vessel?.name)
    return at(
      'use/no-vessel',
      vessel
        ? `"${path}" is aboard ${other.aboard?.vessel?.$refText ?? 'another vessel'}, not ${vessel.name}, so nothing in it counts here. Use a catalogue, or change its "aboard".`
        : `"${path}" is a fragment aboard ${other.aboard?.vessel?.$refText ?? 'a vessel'}; a catalogue can only use catalogues.`,
    );
  return [];
}

function shapeProblems(facts: FileFacts, closures: Closures): Problem[] {
  const problems: Problem[] = [];
  for (const [index, vessel] of facts.vessels.entries())
    if (index > 0 && facts.vessels[0])
      problems.push(
        problem(
          'type/duplicate',
          `A file declares one vessel, and this one has ${facts.vessels[0].name} already. Give ${vessel.name} a file of its own.`,
          placeOf(vessel, 'name'),
          {
            related: [
              {
                place: placeOf(facts.vessels[0], 'name'),
                message: `${facts.vessels[0].name} is declared here`,
              },
            ],
          },
        ),
      );
  if (facts.kind === 'vessel' && facts.aboard)
    problems.push(
      problem(
        'use/no-vessel',
        'A file that declares a vessel is not aboard another. Remove this line.',
        placeOf(facts.aboard),
      ),
    );
  if (facts.kind === 'catalogue' && facts.aboardStatement) {
    problems.push(
      problem(
        'use/no-vessel',
        `${capital(article(keywordOf(facts.aboardStatement.$type)))} belongs to a vessel, and this file is a catalogue: it has neither "vessel" nor "aboard". Begin it with "aboard NAME" or "vessel NAME".`,
        placeOf(facts.aboardStatement),
      ),
    );
  }
  if (facts.kind === 'fragment' && facts.aboard && closures.rootOf(facts.uri) === undefined)
    problems.push(orphan(facts, closures));
  return problems;
}

const keywordOf = (type: string): string => type.replace(/Decl$/, '').toLowerCase();

/** A fragment that its vessel does not use. */
function orphan(facts: FileFacts, closures: Closures): Problem {
  const name = facts.aboard?.vessel?.$refText ?? '';
  const place = facts.aboard
    ? placeOf(facts.aboard, 'vessel')
    : { file: facts.uri, range: { start: { line: 0, character: 0 }, end: { line: 0, character: 0 } } };
  const vessels = closures.vesselFiles().flatMap((uri) => {
    const document = closures.document(uri);
    const vessel = document && closures.facts(document).vessels[0];
    return document && vessel ? [{ document, vessel }] : [];
  });
  const owner = vessels.find((v) => v.vessel.name === name);
  const own = closures.document(facts.uri);
  if (!owner || !own) {
    const meant = nearest(
      name,
      vessels.map((v) => v.vessel.name),
    );
    return problem(
      'use/no-vessel',
      `No vessel ${name} is declared under the root folder, so nothing in this file is checked.${meant ? ` Did you mean ${meant}?` : ` Declare it ("vessel ${name}") in a file that uses this one.`}`,
      place,
      { fixes: meant ? [replaceFix(`Change to ${meant}`, place, meant)] : [] },
    );
  }
  const path = relativePath(owner.document.uri, own.uri);
  const file = owner.document.uri.path.slice(owner.document.uri.path.lastIndexOf('/') + 1);
  return problem(
    'use/no-vessel',
    `${name} does not use this file, so nothing in it is checked. Add use "${path}" to ${file}.`,
    place,
    {
      related: [{ place: placeOf(owner.vessel, 'name'), message: `${name} is declared here` }],
      fixes: [
        {
          title: `Add use "${path}" to ${file}`,
          preferred: true,
          edits: [addUse(owner.document, path)],
        },
      ],
    },
  );
}
