/** Which declared devices and links the needs exercise. */
import type { Coverage } from '../analysis.js';
import type { Context } from '../context.js';

/** Work out what the needs of a vessel exercise: what lies on the path of an answer, and what a need names. */
export function computeCoverage(context: Context): Coverage {
  const { vessel, wiring } = context;
  const devices = new Map<string, Set<string>>();
  const links = new Map<string, Set<string>>();
  context.needs.forEach((result, index) => {
    const need = vessel.needs[index];
    for (const answer of result.answers) {
      for (const device of answer.path) note(devices, device, result.text);
      if (answer.visible === true) for (const hop of answer.hops) note(links, hop.spot.origin, result.text);
    }
    if (need?.kind === 'spare') for (const device of need.on) note(devices, device, result.text);
  });
  return {
    device: vessel.devices.map((device) =>
      entry(devices.get(device.name), device.origin, { name: device.name }),
    ),
    link: wiring.links.map((wired) =>
      entry(links.get(wired.link.origin), wired.link.origin, { id: wired.id }),
    ),
  };
}

function note(table: Map<string, Set<string>>, key: string, by: string): void {
  const set = table.get(key);
  if (set === undefined) table.set(key, new Set([by]));
  else set.add(by);
}

function entry<T extends object>(
  by: ReadonlySet<string> | undefined,
  origin: string,
  name: T,
): T & {
  readonly covered: boolean;
  readonly by: readonly string[];
  readonly spot: { readonly origin: string };
} {
  return { ...name, covered: by !== undefined, by: [...(by ?? [])].sort(), spot: { origin } };
}
