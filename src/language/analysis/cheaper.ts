/** A cheaper design as a problem of the vessel's text, with the repair that carries it out. */
import type { Analysis } from '../../checks/analysis.js';
import { cheaperFinding, savingText, type Cheaper } from '../../checks/design/cheaper.js';
import type { PlaceTable } from '../lowering/places.js';
import type { Problem } from '../project/report.js';
import { designEdits } from './designEdits.js';
import { problemOf } from './problems.js';

/** Undefined where the vessel's name has no place. `current` says that the design is of this very vessel, and may be written into it. */
export function cheaperProblem(
  { vessel }: Analysis,
  places: PlaceTable,
  cheaper: Cheaper,
  today: string,
  current = true,
): Problem | undefined {
  const place = places.find({ origin: vessel.origin });
  if (place === undefined) return undefined;
  const problem = problemOf(cheaperFinding(vessel, cheaper, today), place, places);
  if (!current) return problem;
  const title = `Write the cheaper design into the spec (saves ${savingText(vessel, cheaper)})`;
  // It is a choice: nothing is to make it for whoever repairs all there is.
  const fix = { title, preferred: false, edits: designEdits(cheaper.design, vessel, places) };
  return { ...problem, fixes: [fix] };
}
