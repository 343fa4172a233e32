import { describe, expect, it } from 'vitest';
import { checkedOf } from '../../src/cli/check/checked.js';
import { checkJson } from '../../src/cli/check/json.js';
import { checkSarif, type SarifOptions } from '../../src/cli/check/sarif.js';
import type { ProjectReport } from '../../src/language/project/report.js';
import type { Range } from '../../src/vessel/origin.js';
import { kittiwake } from './boats.js';
import { FOLDER } from './reports.js';
import { documented, faults, sarif } from './schemas.js';

/** What a program gets: through text, so that what JSON has no word for shows. */
const through = (value: unknown): unknown => JSON.parse(JSON.stringify(value));

describe('the JSON of a check', () => {
  const report = checkJson(checkedOf(kittiwake()), FOLDER);

  it('has the shape that its schema says', () => {
    expect(faults(documented('check.schema.json'), through(report))).toEqual([]);
  });

  it('is refused by its schema when it has another shape', () => {
    const validate = documented('check.schema.json');
    expect(faults(validate, { ...report, format: '2.0' })).not.toEqual([]);
    expect(faults(validate, { ...report, vessels: [{ ...report.vessels[0], counts: {} }] })).not.toEqual([]);
    expect(faults(validate, through({ ...report, files: undefined }))).not.toEqual([]);
  });

  it('has exactly the fields of the format', () => {
    const vessel = report.vessels[0];
    expect(Object.keys(report)).toEqual(['format', 'vessels', 'files']);
    expect(Object.keys(vessel ?? {})).toEqual(['name', 'file', 'option', 'findings', 'counts']);
    expect(vessel?.counts).toEqual({ error: 3, warning: 0, information: 0, waived: 1, unknown: 3 });
    expect(vessel?.findings[0]).toEqual({
      rule: 'sonar/host-grade',
      severity: 'error',
      message: 'bow cannot host keel: its port sonar accepts standard grade, keel is high-definition.',
      file: 'kittiwake.loft',
      range: { start: { line: 3, character: 13 }, end: { line: 3, character: 22 } },
      related: [
        {
          message: 'Tern8 is declared here.',
          file: 'tern models.loft',
          range: { start: { line: 1, character: 1 }, end: { line: 1, character: 12 } },
        },
      ],
      waived: null,
    });
    expect(vessel?.findings[2]?.waived).toBe('bench test');
    expect(report.files.map((file) => [file.file, file.findings.length])).toEqual([['tern models.loft', 2]]);
  });
});

describe('SARIF', () => {
  const options: SarifOptions = {
    root: FOLDER,
    version: '1.2.3',
    rule: (code) =>
      code === 'cable/fill'
        ? {
            code,
            group: 'cable',
            severities: ['information', 'warning'],
            summary: 'A conduit is too full.',
            waivable: true,
          }
        : undefined,
    rulePage: (code) => `https://pages.example/rules/${code}`,
    exitCode: 1,
    unreadable: [{ path: 'gone.loft', message: 'There is no such file.' }],
  };
  const run = (report: ProjectReport = kittiwake()) => {
    const [only] = checkSarif(checkedOf(report), options).runs;
    if (!only) throw new Error('There is no run.');
    return only;
  };
  const fingerprints = (report: ProjectReport): unknown[] =>
    (run(report).results ?? []).map((one) => one.partialFingerprints);

  it('fits the standard, and a broken log does not', () => {
    const validate = sarif();
    const log = through(checkSarif(checkedOf(kittiwake()), options)) as { runs: { results: object[] }[] };
    expect(faults(validate, log)).toEqual([]);
    expect(faults(validate, { ...log, version: '2.0.0' })).not.toEqual([]);
    log.runs[0]?.results.push({ message: { text: 'x' }, level: 'fatal' });
    expect(faults(validate, log)).not.toEqual([]);
  });

  it('has each rule with its page, and results that point at it', () => {
    const { tool, results } = run();
    const rules = tool.driver.rules ?? [];
    expect(rules.map((rule) => rule.id)).toEqual([
      'cable/fill',
      'cable/not-sealed',
      'need/not-met',
      'place/ingress',
      'sonar/host-grade',
      'syntax',
      'type/class-property',
      'unused/model',
    ]);
    expect(rules[0]).toEqual({
      id: 'cable/fill',
      helpUri: 'https://pages.example/rules/cable/fill',
      shortDescription: { text: 'A conduit is too full.' },
      defaultConfiguration: { level: 'note' },
    });
    expect(results?.map((one) => rules[one.ruleIndex ?? -1]?.id)).toEqual(results?.map((one) => one.ruleId));
  });

  it('has places relative to the root, counted from one', () => {
    const results = run().results ?? [];
    expect(results[0]?.locations?.[0]?.physicalLocation).toEqual({
      artifactLocation: { uri: 'kittiwake.loft', uriBaseId: 'ROOT' },
      region: { startLine: 4, startColumn: 14, endLine: 4, endColumn: 23 },
    });
    expect(results[0]?.relatedLocations?.[0]?.physicalLocation?.artifactLocation?.uri).toBe(
      'tern%20models.loft',
    );
    expect(JSON.stringify(run())).not.toContain(FOLDER);
  });

  it('keeps waived results, with the reason', () => {
    expect(run().results?.map((one) => one.suppressions)).toEqual([
      [],
      [],
      [{ kind: 'inSource', justification: 'bench test' }],
      [],
      [],
      [],
    ]);
  });

  it('has the hops of a need as a code flow that ends where it fails', () => {
    const flows = run().results?.map((one) =>
      one.codeFlows?.map((flow) =>
        flow.threadFlows[0]?.locations.map((it) => [it.location?.message?.text, it.importance]),
      ),
    );
    expect(flows).toEqual([
      undefined,
      [
        [
          ['keel.plug: linked to bow.sonar', 'important'],
          ['bow.sonar: accepts standard grade', 'essential'],
        ],
      ],
      undefined,
      undefined,
      undefined,
      undefined,
    ]);
  });

  it('has repairs as replacements', () => {
    expect(run().results?.[0]?.fixes).toEqual([
      {
        description: { text: 'Link it to plotter.sonar' },
        artifactChanges: [
          {
            artifactLocation: { uri: 'kittiwake.loft', uriBaseId: 'ROOT' },
            replacements: [
              {
                deletedRegion: { startLine: 4, startColumn: 14, endLine: 4, endColumn: 17 },
                insertedContent: { text: 'plotter' },
              },
            ],
          },
        ],
      },
    ]);
  });

  it('tells what could not be read or judged beside the results', () => {
    const [invocation] = run().invocations ?? [];
    expect(invocation?.executionSuccessful).toBe(false);
    expect(
      invocation?.toolExecutionNotifications?.map((one) => [
        one.level,
        one.associatedRule?.id,
        one.message.text,
      ]),
    ).toEqual([
      ['error', undefined, 'gone.loft: There is no such file.'],
      ['note', 'cable/fill', 'Not judged, because the spec does not say enough: Patch has no od'],
      ['note', 'cable/fill', 'Not judged, because the spec does not say enough: Ext has no od'],
      ['note', 'place/ingress', 'Not judged, because the spec does not say enough: Cam has no ingress'],
    ]);
  });

  it('tells results apart by rule and names, wherever they stand', () => {
    const before = kittiwake();
    const lower = (range: Range): Range => ({
      start: { ...range.start, line: range.start.line + 7 },
      end: { ...range.end, line: range.end.line + 7 },
    });
    const moved: ProjectReport = {
      ...before,
      vessels: before.vessels.map((vessel) => ({
        ...vessel,
        problems: vessel.problems.map((one) => ({
          ...one,
          place: { ...one.place, range: lower(one.place.range) },
        })),
        places: {
          find: (spot) => {
            const found = vessel.places.find(spot);
            return found && { ...found, range: lower(found.range) };
          },
        },
      })),
    };
    expect(fingerprints(moved)).toEqual(fingerprints(before));
    expect(new Set(fingerprints(before).map((one) => JSON.stringify(one))).size).toBe(6);

    const renamed: ProjectReport = {
      ...before,
      vessels: before.vessels.map((vessel) => ({ ...vessel, name: 'Tern' })),
    };
    const names = [fingerprints(before), fingerprints(renamed)];
    // The three that are about declared names change with the vessel's; a fault of the text does not.
    expect(names[0]?.map((one, index) => JSON.stringify(one) === JSON.stringify(names[1]?.[index]))).toEqual([
      false,
      false,
      false,
      true,
      true,
      true,
    ]);
  });
});
