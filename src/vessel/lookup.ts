/** Finding elements of a vessel by name. Built once for each vessel; every search is one step. */
import type { Backbone, Cable, Device, Model, Port, Signal, Vessel, Zone } from './model.js';

export interface Lookup {
  readonly device: (name: string) => Device | undefined;
  /** The model that a device has in the base: the first of its alternatives. Undefined where it does not resolve. */
  readonly modelOf: (device: string) => Model | undefined;
  /** Every alternative of a device that resolves, the base first. */
  readonly alternativesOf: (device: string) => readonly Model[];
  readonly portOf: (device: string, port: string) => Port | undefined;
  readonly model: (name: string) => Model | undefined;
  readonly cable: (name: string | undefined) => Cable | undefined;
  readonly zone: (name: string | undefined) => Zone | undefined;
  readonly signal: (name: string) => Signal | undefined;
  readonly backbone: (name: string) => Backbone | undefined;
  /** Where a device's plugs are: behind it when it is flush mounted, else where it is. */
  readonly plugZone: (device: string) => string | undefined;
}

/** A property of a record by a name that the spec chose: `constructor` is a name like any other. */
export function own<T>(record: Readonly<Record<string, T>>, name: string): T | undefined {
  return Object.hasOwn(record, name) ? record[name] : undefined;
}

/** Index a vessel. Where a name is declared twice the first stands; the duplicate is reported elsewhere. */
export function createLookup(vessel: Vessel): Lookup {
  const devices = byName(vessel.devices);
  const zones = byName(vessel.zones);
  const backbones = byName(vessel.backbones);
  const ports = new Map<Model, ReadonlyMap<string, Port>>();
  const bases = new Map<string, Model>();
  for (const device of devices.values()) {
    const [first] = device.models;
    const model = first === undefined ? undefined : own(vessel.models, first);
    if (model !== undefined) bases.set(device.name, model);
  }
  const modelOf = (name: string): Model | undefined => bases.get(name);
  return {
    device: (name) => devices.get(name),
    modelOf,
    alternativesOf: (name) =>
      (devices.get(name)?.models ?? []).flatMap((model) => own(vessel.models, model) ?? []),
    portOf: (device, port) => {
      const model = modelOf(device);
      if (model === undefined) return undefined;
      let table = ports.get(model);
      if (table === undefined) {
        table = byName(model.ports);
        ports.set(model, table);
      }
      return table.get(port);
    },
    model: (name) => own(vessel.models, name),
    cable: (name) => (name === undefined ? undefined : own(vessel.cables, name)),
    zone: (name) => (name === undefined ? undefined : zones.get(name)),
    signal: (name) => own(vessel.signals, name),
    backbone: (name) => backbones.get(name),
    plugZone: (name) => {
      const device = devices.get(name);
      return device?.back ?? device?.zone;
    },
  };
}

function byName<T extends { readonly name: string }>(items: readonly T[]): Map<string, T> {
  const table = new Map<string, T>();
  for (const item of items) if (!table.has(item.name)) table.set(item.name, item);
  return table;
}
