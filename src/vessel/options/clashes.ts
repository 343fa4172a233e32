/** Where edits of options contradict each other: within one option, or between options that are chosen together. */
import type { Vessel } from '../model.js';
import { sameData } from '../same.js';
import type { OptionFault, VesselOption } from './model.js';
import { devicesOfEnds, devicesOfItem, devicesOfNeed, devicesOfView } from './names.js';

export function clashes(base: Vessel, options: readonly VesselOption[]): readonly OptionFault[] {
  return [...changedTwice(options), ...namedTwice(options), ...usedAndRemoved(base, options)];
}

const clash = (at: string, message: string, related: OptionFault['related']): OptionFault => ({
  kind: 'clash',
  at,
  message,
  related,
});

/** "it" for the same option. */
const who = (option: VesselOption, asked: VesselOption): string =>
  option === asked ? 'the option itself' : `option ${option.name}`;

function* changedTwice(options: readonly VesselOption[]): Iterable<OptionFault> {
  const first = new Map<string, { option: VesselOption; model: string; origin: string }>();
  for (const option of options)
    for (const { device, model, origin } of option.changes) {
      const before = first.get(device);
      if (before === undefined) first.set(device, { option, model, origin });
      else if (before.model !== model)
        yield clash(
          origin,
          `${device} becomes a ${model} here and a ${before.model} by ${who(before.option, option)}, and it can be only one. Change it in one place, or do not choose both.`,
          [{ at: before.origin, message: `the other change of ${device}` }],
        );
    }
}

/** What two options bring under one name, and not alike. */
function* namedTwice(options: readonly VesselOption[]): Iterable<OptionFault> {
  const first = new Map<string, { option: VesselOption; item: { readonly origin: string } }>();
  for (const option of options) {
    const { zones, runs, devices, backbones, modes, days } = option.adds;
    for (const item of [...zones, ...runs, ...devices, ...backbones, ...modes, ...days]) {
      if (item.name === undefined) continue;
      const before = first.get(item.name);
      if (before === undefined) first.set(item.name, { option, item });
      else if (before.option !== option && !sameData(before.item, item))
        yield clash(
          item.origin,
          `Option ${before.option.name} adds another ${item.name}, so the two options cannot be chosen together. Give one of them another name.`,
          [{ at: before.item.origin, message: `the other ${item.name}` }],
        );
    }
  }
}

/** A device that one edit removes, and another changes or builds on. */
function* usedAndRemoved(base: Vessel, options: readonly VesselOption[]): Iterable<OptionFault> {
  const removed = new Map<string, { option: VesselOption; origin: string }>();
  for (const option of options)
    for (const { device, origin } of option.removedDevices)
      if (!removed.has(device)) removed.set(device, { option, origin });
  if (removed.size === 0) return;
  for (const option of options)
    for (const { at, devices, what } of uses(option)) {
      const name = devices.find((device) => removed.has(device));
      const by = name === undefined ? undefined : removed.get(name);
      if (name === undefined || by === undefined) continue;
      const where = base.devices.find((device) => device.name === name)?.origin;
      yield clash(
        at,
        `${what} ${name}, and ${who(by.option, option)} takes ${name} out. Leave ${name} aboard, or build on something else.`,
        [
          { at: by.origin, message: `${name} is taken out here` },
          ...(where === undefined ? [] : [{ at: where, message: `${name} is declared here` }]),
        ],
      );
    }
}

interface Use {
  readonly at: string;
  readonly devices: readonly string[];
  readonly what: string;
}

function* uses(option: VesselOption): Iterable<Use> {
  const { links, feeds, backbones, needs, views } = option.adds;
  for (const { origin, device } of option.changes)
    yield { at: origin, devices: [device], what: 'This changes' };
  for (const { origin, a, b } of links)
    yield { at: origin, devices: [...devicesOfEnds([a, b])], what: 'This link goes to' };
  for (const { origin, from, to, protections } of feeds)
    yield {
      at: origin,
      devices: [...devicesOfEnds([from, ...to]), ...protections.flatMap(({ at }) => at ?? [])],
      what: 'This feed names',
    };
  for (const { origin, items } of backbones)
    yield {
      at: origin,
      devices: items.flatMap((item) => [...devicesOfItem(item)]),
      what: 'This backbone has',
    };
  for (const { item } of option.tees)
    yield { at: item.origin, devices: [...devicesOfItem(item)], what: 'This tee is for' };
  for (const need of needs) yield { at: need.origin, devices: devicesOfNeed(need), what: 'This need names' };
  for (const view of views) yield { at: view.origin, devices: devicesOfView(view), what: 'This view shows' };
}
