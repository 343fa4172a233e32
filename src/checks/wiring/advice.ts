/** What to say where a port is missing: which are free elsewhere, and what would add one. */
import type { Medium, Port } from '../../vessel/model.js';
import type { Spot } from '../../vessel/origin.js';
import { mediumText } from '../../vessel/mediumText.js';
import { listOf } from '../../vessel/words.js';
import type { Context } from '../context.js';
import type { Repair } from '../finding.js';
import { portText } from './wiring.js';

const SHOWN = 4;

/** Free ports of a medium on other devices, as a sentence; empty where there is none. */
export function freeElsewhere({ sharing }: Context, device: string, medium: Medium): string {
  const free = sharing.nearest.free(medium, 20).filter((at) => at.device !== device);
  if (free.length === 0) return `No ${mediumText(medium)} port is free elsewhere.`;
  return `Free ${mediumText(medium)} ports elsewhere: ${listOf(free.slice(0, SHOWN).map(portText))}.`;
}

/** Other ports of a device that a taken one could be left for. */
export function freeBeside({ lookup, wiring }: Context, device: string, port: Port): readonly string[] {
  return (lookup.modelOf(device)?.ports ?? [])
    .filter(
      (one) =>
        one.medium === port.medium &&
        one.name !== port.name &&
        (port.serial?.listensBaud === undefined || one.serial?.listensBaud !== undefined) &&
        wiring.useOf(device, one.name).length === 0,
    )
    .map((one) => `${device}.${one.name}`);
}

/** Repairs that name another port at an end. */
export function useInstead(free: readonly string[], at: Spot): readonly Repair[] {
  return free.slice(0, 3).map((text, index) => ({
    title: `Use ${text}`,
    preferred: index === 0,
    change: { kind: 'replace', at, text },
  }));
}

/** What would add a port of a medium to a device, with models that are in scope. */
export function whatWouldAdd({ vessel, lookup }: Context, device: string, medium: Medium): string {
  const model = lookup.modelOf(device);
  const others = Object.values(vessel.models)
    .filter((one) => one.name !== model?.name)
    .sort((x, y) => (x.name < y.name ? -1 : 1));
  const ports = (name: string): number =>
    (lookup.model(name)?.ports ?? []).filter((port) => port.medium === medium).length;
  const has = ports(model?.name ?? '');
  const bigger = others.filter(
    (one) =>
      one.class === model?.class &&
      ports(one.name) > has &&
      (model.families.length === 0 || one.families.some((family) => model.families.includes(family))),
  );
  const named = (names: readonly string[]): string =>
    names.length > 0 ? ` (${listOf(names.slice(0, 2), 'or')})` : '';
  const more = `a ${model?.class ?? 'device'} with ${has === 1 ? 'two' : 'more'} ${mediumText(medium)} ports${named(bigger.map((one) => one.name))} in place of ${device}`;
  if (medium === 'ethernet') {
    const switches = others.filter((one) => one.class === 'switch').map((one) => one.name);
    return `A switch${named(switches)}, or ${more}, would add one.`;
  }
  if (medium === 'dc') return `A panel or busbar with more ways, or one way for several loads, would do.`;
  if (medium === 'nmea2000') return `Each device takes one tee; remove one of the two.`;
  return `${more.charAt(0).toUpperCase()}${more.slice(1)} would add one.`;
}
