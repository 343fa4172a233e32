/** Findings for scripts. The shape is described by docs/schemas/check.schema.json and changes only by additions. */
import type { Counts, Severity } from '../../checks/finding.js';
import type { Problem } from '../../language/project/report.js';
import type { Place, Range } from '../../vessel/origin.js';
import { displayPath } from '../terminal/paths.js';
import type { Checked } from './checked.js';

/** Version of every JSON object that the program prints. */
const JSON_FORMAT = '1.0';

interface JsonPlace {
  readonly file: string;
  /** Zero-based, as in the Language Server Protocol. */
  readonly range: Range;
}

export interface JsonFinding extends JsonPlace {
  readonly rule: string;
  readonly severity: Severity;
  readonly message: string;
  readonly related: readonly (JsonPlace & { readonly message: string })[];
  readonly waived: string | null;
}

export interface JsonReport {
  readonly format: string;
  readonly vessels: readonly {
    readonly name: string;
    readonly file: string;
    readonly option: string | null;
    readonly findings: readonly JsonFinding[];
    readonly counts: Counts;
  }[];
  readonly files: readonly { readonly file: string; readonly findings: readonly JsonFinding[] }[];
}

/** @param folder paths are given relative to it */
export function checkJson(report: Checked, folder: string): JsonReport {
  const place = ({ file, range }: Place): JsonPlace => ({
    file: displayPath(file, folder),
    range: { start: position(range.start), end: position(range.end) },
  });
  const finding = (problem: Problem): JsonFinding => ({
    rule: problem.rule,
    severity: problem.severity,
    message: problem.message,
    ...place(problem.place),
    related: problem.related.map((related) => ({ message: related.message, ...place(related.place) })),
    waived: problem.waived,
  });
  return {
    format: JSON_FORMAT,
    vessels: report.vessels.map((vessel) => ({
      name: vessel.name,
      file: displayPath(vessel.file, folder),
      option: vessel.option,
      findings: vessel.problems.map(finding),
      counts: {
        error: vessel.counts.error,
        warning: vessel.counts.warning,
        information: vessel.counts.information,
        waived: vessel.counts.waived,
        unknown: vessel.counts.unknown,
      },
    })),
    files: report.files.map((file) => ({
      file: displayPath(file.file, folder),
      findings: file.problems.map(finding),
    })),
  };
}

/** Only what the format has, whatever else the parser's own positions carry. */
function position({ line, character }: Range['start']): Range['start'] {
  return { line, character };
}
