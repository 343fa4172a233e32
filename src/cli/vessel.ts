/** The one vessel that a command is about. */
import type { VesselReport } from '../language/project/report.js';
import { count } from '../vessel/words.js';
import { quoted } from './terminal/arguments.js';
import { displayPath } from './terminal/paths.js';
import { printable } from './terminal/printable.js';
import { UsageError, type World } from './terminal/world.js';

/**
 * The vessel that a file declares or is aboard of.
 * @throws UsageError where it has none or several
 */
export function onlyVessel(vessels: readonly VesselReport[], file: string, world: World): VesselReport {
  const [first, ...others] = vessels;
  if (!first)
    throw new UsageError(
      `${quoted(file)} has no vessel. Give the file that declares one, or a file that is aboard one.`,
    );
  if (others.length > 0) {
    const files = [first, ...others].map((vessel) => printable(displayPath(vessel.file, world.folder)));
    throw new UsageError(
      `${quoted(file)} has ${files.length} vessels: give one of ${files.slice(0, 8).join(', ')}.`,
    );
  }
  return first;
}

/** What is made of a spec with errors is true of what could be read, and no more; who reads it should know. */
export function warnOfErrors(vessel: VesselReport, file: string, world: World): void {
  const errors = vessel.problems.filter(
    (problem) => problem.severity === 'error' && problem.waived === null,
  ).length;
  if (errors > 0)
    world.error.write(
      `wireloft: the spec has ${count(errors, 'error')}; "wireloft check ${printable(file)}" shows them.\n`,
    );
}
