import { anyCovers } from '../../../vessel/signals.js';
import { listOf } from '../../../vessel/words.js';
import type { Context } from '../../context.js';
import { deviceSpot } from '../../sharing/conditions.js';
import { portText } from '../../wiring/wiring.js';
import { rule } from '../../rule.js';
import { hasEthernet } from '../ethernet.js';

/** How many members of a family are looked at for what a device lacks. */
const LOOKED_AT = 20;

/**
 * `net/isolated`: a device with an ethernet port has no path to its family, while others of it are aboard. A warning where
 * it then lacks something that it shows.
 */
export const isolated = rule(
  {
    code: 'net/isolated',
    severities: ['warning', 'information'],
    summary: 'A device with an ethernet port has no path to its family.',
  },
  (context, report) => {
    const { vessel, lookup, ethernet, sharing } = context;
    const members = new Map<string, string[]>();
    for (const device of vessel.devices) {
      const model = lookup.modelOf(device.name);
      if (model === undefined || device.leaving || !hasEthernet(model)) continue;
      for (const family of model.families) {
        const list = members.get(family);
        if (list === undefined) members.set(family, [device.name]);
        else list.push(device.name);
      }
    }
    for (const list of members.values()) list.sort();
    const companions = new Map<string, ReadonlyMap<string, number>>();
    for (const segment of ethernet.segments) {
      const counts = new Map<string, number>();
      for (const name of segment.devices) {
        for (const family of lookup.modelOf(name)?.families ?? [])
          counts.set(family, (counts.get(family) ?? 0) + 1);
      }
      companions.set(segment.id, counts);
    }
    for (const device of vessel.devices) {
      const model = lookup.modelOf(device.name);
      if (model === undefined || device.leaving || !hasEthernet(model)) continue;
      const family = model.families.find((name) => (members.get(name)?.length ?? 0) > 1);
      if (family === undefined) continue;
      const joined = ethernet
        .segmentsOf(device.name)
        .some((segment) => model.families.some((name) => (companions.get(segment.id)?.get(name) ?? 0) > 1));
      if (joined) continue;
      const at = { origin: device.origin };
      const maybe =
        ethernet.isOpen(device.name) ||
        sharing.hosting.mayBeLinked(device.name, (medium) => medium === 'ethernet');
      if (maybe) {
        report.unknown(at, `whether ${device.name} reaches its family: a link is not settled`);
        continue;
      }
      const kin = members.get(family) ?? [];
      const others = kin.slice(0, LOOKED_AT + 1).filter((name) => name !== device.name);
      const lacking = lacks(context, device.name, model.shows, others);
      const joint = firstOf(others, (name) => sharing.nearest.joint(name));
      const named = listOf(others.length > 3 ? [...others.slice(0, 3), `${kin.length - 4} more`] : others);
      const remedy =
        joint === undefined
          ? `Join it to ${listOf(others, 'or', 3)} with a switch.`
          : `Link it to ${portText(joint)}.`;
      const loss =
        lacking.length > 0
          ? `so it lacks ${listOf(lacking, 'and', 4)}, which its model could show`
          : 'so nothing is shared with it';
      report.find({
        severity: lacking.length > 0 ? 'warning' : 'information',
        message: `${device.name} has no ethernet path to its family ${family} (${named}), ${loss}. ${remedy}`,
        at,
        related: others.slice(0, 3).map((name) => ({
          at: deviceSpot(lookup.device(name), name),
          message: `${name} is of family ${family}`,
        })),
      });
    }
  },
);

/** The first result that there is. */
function firstOf<T, R>(items: readonly T[], work: (item: T) => R | undefined): R | undefined {
  for (const item of items) {
    const result = work(item);
    if (result !== undefined) return result;
  }
  return undefined;
}

/** What a device shows and does not get from others of its family, as "radar of dome". */
function lacks(
  { sharing }: Context,
  device: string,
  shows: readonly string[],
  others: readonly string[],
): readonly string[] {
  const lacking: string[] = [];
  for (const other of others) {
    const offered = [other, ...sharing.hosting.hostedBy(other)].flatMap((name) =>
      sharing.standsFor(name, undefined),
    );
    for (const { source, signal } of offered) {
      const text = `${signal} of ${source}`;
      if (lacking.includes(text) || !anyCovers(shows, signal)) continue;
      if (sharing.answer(device, source, signal).visible === false) lacking.push(text);
      if (lacking.length > 4) return lacking;
    }
  }
  return lacking;
}
