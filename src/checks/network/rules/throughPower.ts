import { listOf } from '../../../vessel/words.js';
import type { Context } from '../../context.js';
import { deviceSpot } from '../../sharing/conditions.js';
import { rule } from '../../rule.js';

/** How far from a screen its dependants are looked for. */
const NEARBY = 16;
/** How many dependants on one side are named. */
const NAMED = 2;

/**
 * `net/through-power`: what a screen shows comes through another screen, and is lost when that one is off. The screen that
 * a transducer is plugged into does not count: that it must be on is plain to see.
 */
export const throughPower = rule(
  {
    code: 'net/through-power',
    severities: ['information'],
    summary: 'What a screen shows depends on another screen being on.',
  },
  (context, report) => {
    const { vessel, lookup, ethernet } = context;
    for (const device of vessel.devices) {
      if (lookup.modelOf(device.name)?.class !== 'display' || !ethernet.passes(device.name)) continue;
      const victims = victimsOf(context, device.name);
      if (victims.length === 0) continue;
      const texts = victims.map((victim) => `${victim.screen} loses ${victim.signal} of ${victim.source}`);
      report.find({
        message: `the network goes through ${device.name}: with it off, ${listOf(texts, 'and', 4)}. Join them by a switch if they should do without it.`,
        at: { origin: device.origin },
        related: victims.slice(0, 4).map((victim) => ({
          at: deviceSpot(lookup.device(victim.screen), victim.screen),
          message: `${victim.screen} depends on ${device.name}`,
        })),
      });
    }
  },
);

interface Victim {
  readonly screen: string;
  readonly source: string;
  readonly signal: string;
}

/** One thing that each nearby screen loses with a device off. */
function victimsOf(context: Context, device: string): readonly Victim[] {
  const { lookup, sharing } = context;
  const sides = sidesOf(context, device);
  if (sides.length < 2) return [];
  const off = new Set([device]);
  const victims: Victim[] = [];
  const offered = sides.map((side) =>
    side
      .flatMap((name) => [name, ...sharing.hosting.hostedBy(name)])
      .flatMap((name) => sharing.standsFor(name, undefined)),
  );
  sides.forEach((side, index) => {
    const enough = victims.length + NAMED;
    for (const screen of side) {
      if (victims.length >= enough) break;
      if ((lookup.modelOf(screen)?.shows.length ?? 0) === 0) continue;
      const lost = offered
        .flatMap((list, other) => (other === index ? [] : list.slice(0, NEARBY)))
        .find(
          ({ source, signal }) =>
            sharing.answer(screen, source, signal).path.slice(1, -1).includes(device) &&
            sharing.answer(screen, source, signal, off).visible !== true,
        );
      if (lost !== undefined) victims.push({ screen, source: lost.source, signal: lost.signal });
    }
  });
  return victims.sort((x, y) => (x.screen < y.screen ? -1 : 1));
}

/** The devices on each side of one, near it, sorted by name. */
function sidesOf({ ethernet }: Context, device: string): readonly (readonly string[])[] {
  const seen = new Set([device]);
  const sides: (readonly string[])[] = [];
  for (const first of ethernet.stepsFrom(device)) {
    if (seen.has(first.to)) continue;
    seen.add(first.to);
    const side = [first.to];
    for (const name of side) {
      if (side.length >= NEARBY) break;
      if (!ethernet.passes(name)) continue;
      for (const step of ethernet.stepsFrom(name)) {
        if (seen.has(step.to)) continue;
        seen.add(step.to);
        side.push(step.to);
      }
    }
    sides.push(side.sort());
  }
  return sides;
}
