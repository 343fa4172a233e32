/** A vessel as it is with one option, or with several together. */
import type { BackboneItem, End, Link, Vessel } from '../model.js';
import { sameData } from '../same.js';
import { bowToStern } from '../zones.js';
import { clashes } from './clashes.js';
import type { AddedTee, Additions, OptionFault, VesselOption } from './model.js';
import { devicesOfItem, endText } from './names.js';
import { withoutDevices } from './without.js';

export interface Overlaid {
  readonly vessel: Vessel;
  readonly faults: readonly OptionFault[];
}

/**
 * Lay options over a vessel. They come in the order in which the spec declares them, so that it does not matter in which they were
 * chosen. First links are taken off, then everything is added, then models are changed, and last devices are taken out: so an option may
 * take a link off and lay another between the same ends, and what it removes leaves nothing behind.
 */
export function overlay(base: Vessel, options: readonly VesselOption[]): Overlaid {
  const faults: OptionFault[] = [...clashes(base, options)];
  const links = unlinked(base, options, faults);
  const added = addAll({ ...base, links }, options);
  const teed = addTees(added, options, faults);
  const changed = change(teed, base, options, faults);
  const gone = new Set(options.flatMap((option) => option.removedDevices.map(({ device }) => device)));
  const names = options.map((option) => option.name);
  return {
    vessel: {
      ...withoutDevices(changed, gone),
      waivers: [...base.waivers, ...options.flatMap((option) => option.waivers)],
      option: names.length === 0 ? base.option : names.join(', '),
    },
    faults,
  };
}

// ---------------------------------------------------------------- links taken off

function unlinked(base: Vessel, options: readonly VesselOption[], faults: OptionFault[]): readonly Link[] {
  const off = new Set<Link>();
  for (const option of options)
    for (const { origin, a, b } of option.removedLinks) {
      if (a.portUnresolved || b.portUnresolved || a.device === undefined || b.device === undefined) continue;
      const found = base.links.filter((link) => joins(link, a, b));
      const exact = found.filter((link) => sameEnds(link, a, b));
      const [first] = exact.length === 1 ? exact : found;
      const ends = `${endText(a)} -- ${endText(b)}`;
      if (first === undefined) {
        const onBus = base.backbones.find((bus) =>
          bus.items.some((item) => hangs(item, a) || hangs(item, b)),
        );
        const hint = onBus ? ` What hangs on ${onBus.name} leaves it with its device.` : '';
        faults.push({
          kind: 'no-effect',
          at: origin,
          message: `There is no link ${ends}, so there is none to remove.${hint} Name the ends of a link as it is written.`,
          related: [],
        });
      } else if (found.length > 1 && exact.length !== 1)
        faults.push({
          kind: 'no-effect',
          at: origin,
          message: `${found.length} links join ${ends}, and this may mean any of them. Write the ports of the one to remove.`,
          related: found.map((link) => ({ at: link.origin, message: 'one of them' })),
        });
      else off.add(first);
    }
  return base.links.filter((link) => !off.has(link));
}

const hangs = (item: BackboneItem, end: End): boolean =>
  end.device !== undefined && [...devicesOfItem(item)].includes(end.device);

/** Whether two ends can be the same: a port that only one of them names is left open. */
const meets = (x: End, y: End): boolean =>
  x.device === y.device && (x.port === undefined || y.port === undefined || x.port === y.port);
const isSame = (x: End, y: End): boolean => x.device === y.device && x.port === y.port;

const joins = (link: Link, a: End, b: End): boolean =>
  (meets(link.a, a) && meets(link.b, b)) || (meets(link.a, b) && meets(link.b, a));
const sameEnds = (link: Link, a: End, b: End): boolean =>
  (isSame(link.a, a) && isSame(link.b, b)) || (isSame(link.a, b) && isSame(link.b, a));

// ---------------------------------------------------------------- what is added

const LISTS: readonly (keyof Additions)[] = [
  'zones',
  'runs',
  'devices',
  'links',
  'feeds',
  'backbones',
  'needs',
  'modes',
  'days',
  'views',
  'negatives',
  'preferences',
];

function addAll(vessel: Vessel, options: readonly VesselOption[]): Vessel {
  const lists: Record<string, readonly unknown[]> = {};
  for (const list of LISTS)
    lists[list] = extended(
      vessel[list],
      options.map((option) => option.adds[list]),
    );
  const whole: Vessel = { ...vessel, ...(lists as unknown as Additions) };
  return { ...whole, zones: bowToStern(whole.zones) };
}

interface Element {
  readonly origin: string;
  readonly name?: string | undefined;
}

/** What two options bring alike is there once; of two things with one name the first stands, as anywhere. */
function extended(base: readonly Element[], added: readonly (readonly Element[])[]): readonly Element[] {
  const all = [...base];
  const names = new Set(base.flatMap((item) => item.name ?? []));
  const before = new Map<string, Element>();
  for (const list of added) {
    for (const item of list) {
      const alike = before.get(item.origin);
      if (alike !== undefined && sameData(alike, item)) continue;
      if (item.name !== undefined && names.has(item.name)) continue;
      all.push(item);
    }
    for (const item of list) {
      if (item.name !== undefined) names.add(item.name);
      if (!before.has(item.origin)) before.set(item.origin, item);
    }
  }
  return all;
}

function addTees(vessel: Vessel, options: readonly VesselOption[], faults: OptionFault[]): Vessel {
  const items = new Map(vessel.backbones.map((backbone) => [backbone.name, [...backbone.items]]));
  const before = new Map<string, AddedTee>();
  for (const option of options)
    for (const tee of option.tees) {
      const list = items.get(tee.backbone);
      const alike = before.get(tee.item.origin);
      if (list === undefined || (alike !== undefined && sameData(alike, tee))) continue;
      before.set(tee.item.origin, tee);
      list.splice(placeOf(tee, list, faults), 0, tee.item);
    }
  return {
    ...vessel,
    backbones: vessel.backbones.map((backbone) => ({
      ...backbone,
      items: items.get(backbone.name) ?? backbone.items,
    })),
  };
}

/** Where a tee goes in: beside what it names, else at the end of the cable, inside its terminator. */
function placeOf(tee: AddedTee, items: readonly BackboneItem[], faults: OptionFault[]): number {
  const last = items.length - 1;
  const end = items[last]?.kind === 'terminator' ? last : items.length;
  if (tee.beside === undefined) return end;
  const { place, device } = tee.beside;
  const at = items.findIndex((item) => [...devicesOfItem(item)].includes(device));
  if (at >= 0) return place === 'after' ? at + 1 : at;
  faults.push({
    kind: 'no-effect',
    at: tee.item.origin,
    message: `${device} is not on ${tee.backbone}, so nothing can go in ${place} it. Name a device that has a tee there.`,
    related: [],
  });
  return end;
}

// ---------------------------------------------------------------- what is changed

function change(
  vessel: Vessel,
  base: Vessel,
  options: readonly VesselOption[],
  faults: OptionFault[],
): Vessel {
  const models = new Map<string, string>();
  for (const option of options)
    for (const { origin, device, model } of option.changes) {
      if (!models.has(device)) models.set(device, model);
      const before = base.devices.find((one) => one.name === device);
      if (before?.models.length === 1 && before.models[0] === model)
        faults.push({
          kind: 'no-effect',
          at: origin,
          message: `${device} is a ${model} already, so this changes nothing. Name another model, or remove the line.`,
          related: [{ at: before.origin, message: `${device} is declared here` }],
        });
    }
  return {
    ...vessel,
    devices: vessel.devices.map((device) => {
      const model = models.get(device.name);
      return model === undefined ? device : { ...device, models: [model] };
    }),
  };
}
