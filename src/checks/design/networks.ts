/** Which devices belong on one ethernet network: those of a family, with the switches and cameras among them. */
import type { Context } from '../context.js';
import { hasEthernet } from '../network/ethernet.js';

export interface Networks {
  /** The number of a device's network; undefined for what has no place in one. */
  readonly of: (device: string) => number | undefined;
}

/**
 * Sort devices with ethernet into networks. A device without a family goes where its cable goes, else to the only network that there
 * is; where neither says, it is left out, and what is plugged into it stays.
 */
export function networksOf({ vessel, lookup, ethernet }: Context): Networks {
  const aboard = vessel.devices.filter(
    (device) =>
      !device.leaving && lookup.device(device.name) === device && hasEthernet(lookup.modelOf(device.name)),
  );
  const families = (name: string): readonly string[] => lookup.modelOf(name)?.families ?? [];
  const numbers = new Map<string, number>();
  const byFamily = new Map<string, number>();
  const numberOf = (family: string): number => {
    const known = byFamily.get(family) ?? byFamily.size;
    byFamily.set(family, known);
    return known;
  };
  for (const { name } of aboard) {
    const [first, ...more] = families(name);
    if (first !== undefined && more.length === 0) numbers.set(name, numberOf(first));
  }
  // Of several families: that of what it is plugged to, else one that is aboard.
  const beside = (name: string): number | undefined =>
    ethernet
      .segmentsOf(name)
      .flatMap((segment) => segment.devices.flatMap((other) => numbers.get(other) ?? []))[0];
  for (const { name } of aboard) {
    const own = families(name);
    if (own.length < 2) continue;
    const there = beside(name);
    const known = own.find(
      (family) => byFamily.has(family) && (there === undefined || byFamily.get(family) === there),
    );
    numbers.set(name, numberOf(known ?? own[0] ?? ''));
  }
  for (const { name } of aboard) {
    if (numbers.has(name) || families(name).length > 0) continue;
    const number = beside(name) ?? (byFamily.size === 1 ? 0 : undefined);
    if (number !== undefined) numbers.set(name, number);
  }
  return { of: (device) => numbers.get(device) };
}
