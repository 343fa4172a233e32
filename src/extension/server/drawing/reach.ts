/** What a source reaches: for whoever points at it in the drawing. */
import type { Analysis } from '../../../checks/analysis.js';
import { createLookup } from '../../../vessel/lookup.js';
import type { Origin } from '../../../vessel/origin.js';
import type { Reach } from './protocol.js';

/** The reach of one device that gives something to screens, black boxes included; undefined for any other. */
export function reachOf(analysis: Analysis, origin: Origin): Reach | undefined {
  const { screens, vessel } = analysis;
  const name = vessel.devices.find((device) => device.origin === origin)?.name;
  if (name === undefined) return undefined;
  const signals = analysis.standsFor(name);
  const asked = screens.filter((screen) => screen !== name);
  if (signals.length === 0 || asked.length === 0) return undefined;
  const lookup = createLookup(vessel);
  const between = joints(analysis);
  const lit = new Set<string>([origin]);
  const found: Record<'seen' | 'blind' | 'unknown', string[]> = { seen: [], blind: [], unknown: [] };
  for (const screen of asked) {
    const answers = signals.map(({ source, signal }) => analysis.answer(screen, source, signal));
    const seen = answers.filter(({ visible }) => visible === true);
    for (const { path } of seen)
      path.forEach((device, index) => {
        const at = lookup.device(device)?.origin;
        if (at !== undefined) lit.add(at);
        const next = path[index + 1];
        if (next !== undefined) for (const joint of between(device, next)) lit.add(joint);
      });
    if (seen.length > 0) found.seen.push(screen);
    else found[answers.some(({ visible }) => visible === null) ? 'unknown' : 'blind'].push(screen);
  }
  return { origin, name, lit: [...lit], ...found };
}

/** The cables and backbones by which two devices are joined directly. */
function joints({ links, backbones }: Analysis): (a: string, b: string) => readonly string[] {
  const found = new Map<string, string[]>();
  const key = (a: string, b: string): string => JSON.stringify([a, b].sort());
  for (const { link } of links) {
    if (link.a.device === undefined || link.b.device === undefined) continue;
    const at = key(link.a.device, link.b.device);
    found.set(at, [...(found.get(at) ?? []), link.origin]);
  }
  return (a, b) => [
    ...(found.get(key(a, b)) ?? []),
    ...backbones
      .filter(({ members }) => [a, b].every((name) => members.some(({ device }) => device === name)))
      .map(({ backbone }) => backbone.origin),
  ];
}
