/** What stands as revision on paper. */
import { commitOf, filesOfBoat } from '../language/project/commit.js';
import type { SharedServices } from '../language/module.js';
import type { VesselReport } from '../language/project/report.js';
import type { Invocation, Option } from './terminal/command.js';
import type { World } from './terminal/world.js';

export const REVISION_OPTION: Option = {
  name: 'revision',
  value: 'TEXT',
  text: "The revision. The default is the vessel's own, else the commit of her files, as 1a2b3c4, with + behind it if one of them says something else by now.",
};

/** Undefined where the vessel says it herself, or nobody does. */
export async function revisionOf(
  invocation: Invocation,
  { file, analysis }: VesselReport,
  shared: SharedServices,
  { environment }: World,
): Promise<string | undefined> {
  const given = invocation.value('revision');
  if (given !== undefined || analysis.vessel.revision !== undefined) return given;
  const closure = shared.naming.Closures.closureOf(file);
  const files = closure && filesOfBoat(closure);
  return files && commitOf(files, environment);
}
