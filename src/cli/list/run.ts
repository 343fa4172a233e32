import { open } from '../project.js';
import { onlyVessel, warnOfErrors } from '../vessel.js';
import { quoted } from '../terminal/arguments.js';
import { paintFor, type ColourChoice } from '../terminal/colours.js';
import type { Invocation } from '../terminal/command.js';
import { displayPath } from '../terminal/paths.js';
import { STATUS, UsageError, type Status, type World } from '../terminal/world.js';
import { csv, json } from './data.js';
import { LIST_KINDS } from './kinds.js';
import type { PlaceOf } from './listing.js';
import { markdown, table } from './table.js';

export async function runList(invocation: Invocation, world: World): Promise<Status> {
  const [what, file = ''] = invocation.arguments;
  const kind = LIST_KINDS.find((candidate) => candidate.what === what);
  if (!kind) throw new UsageError(`There is no list ${quoted(what ?? '')}.`);
  const { report, unreadable } = await open(
    [file],
    invocation,
    world,
    kind.variants === true ? 'each' : 'none',
  );
  if (unreadable.length > 0) return STATUS.usage;
  const bases = report.vessels.filter(({ option }) => option === null);
  // With options chosen, the vessel is asked for with them alone.
  const vessel = onlyVessel(bases.length > 0 ? bases : report.vessels, file, world);
  const placeOf: PlaceOf = (spot) => {
    const place = vessel.places.find(spot);
    return place && { file: displayPath(place.file, world.folder), range: place.range };
  };
  const listed = kind.list(vessel, placeOf, report.vessels);
  switch (invocation.value('format')) {
    case 'json':
      world.out.write(json(kind, listed));
      break;
    case 'csv':
      world.out.write(csv(kind, listed));
      break;
    case 'markdown':
      world.out.write(markdown(kind, listed));
      break;
    default: {
      const colour = (invocation.value('color') ?? 'auto') as ColourChoice;
      world.out.write(table(kind, listed, paintFor(colour, world.out, world.environment), world.out.columns));
    }
  }
  warnOfErrors(vessel, file, world);
  return STATUS.clean;
}
