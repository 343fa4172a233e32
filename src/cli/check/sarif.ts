/**
 * Findings in the Static Analysis Results Interchange Format, SARIF 2.1.0 (OASIS). Section numbers below are that standard's.
 *
 * The log has no time stamps and no absolute paths, so that the same spec gives the same bytes everywhere.
 */
import type {
  Fix as SarifFix,
  Location,
  Log,
  Notification,
  PhysicalLocation,
  Region,
  ReportingDescriptor,
  Result,
  ThreadFlowLocation,
} from 'sarif';
import type { Severity } from '../../checks/finding.js';
import type { RuleInfo } from '../../checks/rule.js';
import type { Fix, Problem, Unreadable } from '../../language/project/report.js';
import type { Place, Range } from '../../vessel/origin.js';
import { displayPath } from '../terminal/paths.js';
import type { Checked, PlacedHop } from './checked.js';
import { fingerprinter } from './origins.js';
import { allUnknowns, problemKey, withOption } from './totals.js';

export interface SarifOptions {
  /** Files below it are given relative to it: the root of the repository. */
  readonly root: string;
  readonly version: string;
  /** What is known of a rule; undefined for a code that is not in the registry. */
  readonly rule: (code: string) => RuleInfo | undefined;
  readonly rulePage: (code: string) => string;
  readonly exitCode: number;
  readonly unreadable: readonly Unreadable[];
}

const SCHEMA = 'https://docs.oasis-open.org/sarif/sarif/v2.1.0/os/schemas/sarif-schema-2.1.0.json';
const ROOT = 'ROOT';

const levels: Readonly<Record<Severity, 'error' | 'warning' | 'note'>> = {
  error: 'error',
  warning: 'warning',
  information: 'note',
};

export function checkSarif(report: Checked, options: SarifOptions): Log {
  const results = allResults(report, options);
  const codes = [
    ...new Set([
      ...results.map((result) => result.ruleId ?? ''),
      ...allUnknowns(report).map((it) => it.unknown.rule),
    ]),
  ];
  codes.sort();
  const index = new Map(codes.map((code, at) => [code, at]));
  return {
    $schema: SCHEMA,
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: {
            name: 'Wireloft',
            version: options.version,
            semanticVersion: options.version,
            rules: codes.map((code) => descriptor(code, options)),
          },
        },
        columnKind: 'utf16CodeUnits',
        // 3.14.14: without a URI, whoever reads the log knows where its root is.
        originalUriBaseIds: { [ROOT]: { description: { text: 'The root folder that was checked.' } } },
        invocations: [
          {
            executionSuccessful: options.unreadable.length === 0,
            exitCode: options.exitCode,
            toolExecutionNotifications: [
              ...options.unreadable.map((one): Notification => ({
                level: 'error',
                message: { text: `${one.path}: ${one.message}` },
              })),
              ...unknownNotifications(report, options),
            ],
          },
        ],
        results: results.map((result) => ({ ...result, ruleIndex: index.get(result.ruleId ?? '') ?? -1 })),
      },
    ],
  };
}

function descriptor(code: string, options: SarifOptions): ReportingDescriptor {
  const info = options.rule(code);
  return {
    id: code,
    helpUri: options.rulePage(code),
    ...(info && {
      shortDescription: { text: info.summary },
      defaultConfiguration: { level: levels[info.severities[0] ?? 'error'] },
    }),
  };
}

function allResults(report: Checked, options: SarifOptions): Result[] {
  const fingerprint = fingerprinter();
  const seen = new Set<string>();
  const results: Result[] = [];
  const fresh = (problem: Problem): boolean => {
    const key = problemKey(problem);
    if (seen.has(key)) return false;
    seen.add(key);
    return true;
  };
  for (const vessel of report.vessels) {
    for (const problem of vessel.problems.filter(fresh)) {
      const { finding } = problem;
      const names = finding
        ? [vessel.name, problem.option ?? undefined, problem.rule, finding.at.origin, finding.at.part]
        : [problem.rule, displayPath(problem.place.file, options.root), problem.message];
      const flows = problem.ways;
      results.push({
        ...result(problem, options, fingerprint(names)),
        ...(flows.length > 0 && {
          codeFlows: flows.map((hops) => ({
            threadFlows: [{ locations: hops.map((hop, at) => step(hop, at === hops.length - 1, options)) }],
          })),
        }),
      });
    }
  }
  for (const file of report.files)
    for (const problem of file.problems.filter(fresh)) {
      const names = [problem.rule, displayPath(problem.place.file, options.root), problem.message];
      results.push(result(problem, options, fingerprint(names)));
    }
  return results;
}

function result(problem: Problem, options: SarifOptions, fingerprint: string): Result {
  const fixes = problem.fixes.filter((fix) => fix.edits.length > 0);
  return {
    ruleId: problem.rule,
    level: levels[problem.severity],
    message: { text: problem.message + withOption(problem.option) },
    locations: [location(problem.place, options)],
    partialFingerprints: { 'wireloft/names/v1': fingerprint },
    ...(problem.related.length > 0 && {
      relatedLocations: problem.related.map((related, id) => ({
        id,
        ...location(related.place, options),
        message: { text: related.message },
      })),
    }),
    // 3.27.23: a log in which some results are suppressed says of each whether it is.
    suppressions: problem.waived === null ? [] : [{ kind: 'inSource', justification: problem.waived }],
    ...(fixes.length > 0 && { fixes: fixes.map((fix) => sarifFix(fix, options)) }),
  };
}

/** 3.38: one step of the way from a source to a screen; the last one is where it fails. */
function step(hop: PlacedHop, last: boolean, options: SarifOptions): ThreadFlowLocation {
  const { place } = hop;
  const port = hop.port === undefined ? hop.device : `${hop.device}.${hop.port}`;
  return {
    location: { ...(place ? location(place, options) : {}), message: { text: `${port}: ${hop.why}` } },
    importance: last ? 'essential' : 'important',
  };
}

/** 3.58: what a rule could not judge is no result; it is told beside them. */
function unknownNotifications(report: Checked, options: SarifOptions): Notification[] {
  return allUnknowns(report).map(({ unknown }) => {
    const { place } = unknown;
    return {
      level: 'note',
      message: { text: `Not judged, because the spec does not say enough: ${unknown.missing}` },
      associatedRule: { id: unknown.rule },
      ...(place && { locations: [location(place, options)] }),
    };
  });
}

function sarifFix(fix: Fix, options: SarifOptions): SarifFix {
  const files = [...new Set(fix.edits.map((edit) => edit.place.file))];
  return {
    description: { text: fix.title },
    artifactChanges: files.map((file) => ({
      artifactLocation: artifact(file, options),
      replacements: fix.edits
        .filter((edit) => edit.place.file === file)
        .map((edit) => ({ deletedRegion: region(edit.place.range), insertedContent: { text: edit.text } })),
    })),
  };
}

function location(place: Place, options: SarifOptions): Location & { physicalLocation: PhysicalLocation } {
  return {
    physicalLocation: { artifactLocation: artifact(place.file, options), region: region(place.range) },
  };
}

function artifact(file: string, options: SarifOptions): { uri: string; uriBaseId?: string } {
  const path = displayPath(file, options.root);
  // What lies outside the root, and the bundled library, keep their own URI.
  if (path.startsWith('/') || /^[a-z][a-z0-9+.-]*:/i.test(path)) return { uri: file };
  return { uri: path.split('/').map(encodeURIComponent).join('/'), uriBaseId: ROOT };
}

/** 3.30: lines and columns count from one, and the end column is the one after the last. */
function region({ start, end }: Range): Region {
  return {
    startLine: start.line + 1,
    startColumn: start.character + 1,
    endLine: end.line + 1,
    endColumn: end.character + 1,
  };
}
