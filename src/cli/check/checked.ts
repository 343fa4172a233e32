/**
 * What a check found, as plain data that may cross from one thread to another: whatever is printed is made of this, whether one
 * thread found it or several.
 */
import type { Counts, Unknown } from '../../checks/finding.js';
import type {
  FileReport,
  Problem,
  ProjectReport,
  Unreadable,
  VesselReport,
} from '../../language/project/report.js';
import type { Place } from '../../vessel/origin.js';
import { hopsBehind } from './origins.js';

/** A step of the way from a source to a screen, at its place. */
export interface PlacedHop {
  readonly device: string;
  readonly port: string | undefined;
  readonly why: string;
  readonly place: Place | undefined;
}

export interface CheckedProblem extends Problem {
  /** The ways by which it was come to; none for most. */
  readonly ways: readonly (readonly PlacedHop[])[];
}

export interface CheckedUnknown extends Unknown {
  readonly place: Place | undefined;
}

export interface CheckedVessel extends Pick<
  VesselReport,
  'name' | 'file' | 'option' | 'counts' | 'rulesRun'
> {
  /** Names of all of its options. */
  readonly options: readonly { readonly name: string }[];
  readonly problems: readonly CheckedProblem[];
  readonly unknowns: readonly CheckedUnknown[];
}

export interface Checked {
  readonly vessels: readonly CheckedVessel[];
  readonly files: readonly { readonly file: string; readonly problems: readonly CheckedProblem[] }[];
  /** The texts of the files that problems stand in. */
  readonly texts: ReadonlyMap<string, string>;
}

/** What one thread found of the files that it was given. */
export interface CheckedShare extends Checked {
  readonly unreadable: readonly Unreadable[];
}

/** A report as plain data. */
export function checkedOf(report: ProjectReport): Checked {
  const vessels = report.vessels.map(vesselOf);
  const files = report.files.map(({ file, problems }: FileReport) => ({
    file,
    problems: problems.map((problem) => ({ ...problem, ways: [] })),
  }));
  const texts = new Map<string, string>();
  for (const problem of [...vessels, ...files].flatMap((part) => part.problems)) {
    for (const { file } of [problem.place, ...problem.related.map((related) => related.place)]) {
      if (texts.has(file)) continue;
      const text = report.text(file);
      if (text !== undefined) texts.set(file, text);
    }
  }
  return { vessels, files, texts };
}

function vesselOf(vessel: VesselReport): CheckedVessel {
  const { name, file, option, counts, rulesRun, analysis, places } = vessel;
  const { error, warning, information, waived, unknown } = counts;
  return {
    name,
    file,
    option,
    rulesRun,
    counts: { error, warning, information, waived, unknown } satisfies Counts,
    options: vessel.options.map((one) => ({ name: one.name })),
    problems: vessel.problems.map((problem) => ({
      ...problem,
      ways:
        problem.finding === undefined
          ? []
          : hopsBehind(problem.finding, analysis).map((hops) =>
              hops.map(({ device, port, why, spot }) => ({ device, port, why, place: places.find(spot) })),
            ),
    })),
    unknowns: analysis.unknowns.map((unknown) => ({ ...unknown, place: places.find(unknown.at) })),
  };
}

/**
 * What several threads found, as one of them would have found it: vessels and files by the names of their files, each once. `files` is
 * the order in which the files were asked for.
 */
export function together(shares: readonly CheckedShare[], files: readonly string[]): CheckedShare {
  const vessels = new Map<string, CheckedVessel>();
  const others = new Map<string, Checked['files'][number]>();
  const texts = new Map<string, string>();
  for (const share of shares) {
    for (const vessel of share.vessels) {
      const key = JSON.stringify([vessel.file, vessel.option]);
      if (!vessels.has(key)) vessels.set(key, vessel);
    }
    for (const file of share.files) if (!others.has(file.file)) others.set(file.file, file);
    for (const [file, text] of share.texts) texts.set(file, text);
  }
  const asked = new Map(files.map((file, index) => [file, index]));
  const rank = ({ path }: Unreadable): number => asked.get(path) ?? files.length;
  const byFile = <T extends { readonly file: string }>(x: T, y: T): number =>
    x.file < y.file ? -1 : x.file > y.file ? 1 : 0;
  return {
    vessels: [...vessels.values()].sort(byFile),
    files: [...others.values()].sort(byFile),
    texts,
    unreadable: shares.flatMap((share) => share.unreadable).sort((x, y) => rank(x) - rank(y)),
  };
}
