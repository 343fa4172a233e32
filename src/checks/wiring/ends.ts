/** What an end may be: the ports that a device offers there, and whether one of them is settled. */
import type { End, Model, Port } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import { groupOf } from './fit.js';

/** The ports an end may use. Undefined where something does not resolve. */
export interface Offer {
  readonly device: string;
  readonly model: Model;
  readonly ports: readonly Port[];
  /** A port is named. */
  readonly named: boolean;
}

/** What an end offers: the port it names, else every port of the device that passes the filter. */
export function offerOf(lookup: Lookup, end: End, filter: (port: Port) => boolean): Offer | undefined {
  if (end.device === undefined || end.portUnresolved) return undefined;
  const model = lookup.modelOf(end.device);
  if (model === undefined) return undefined;
  if (end.port === undefined)
    return { device: end.device, model, ports: model.ports.filter(filter), named: false };
  const port = lookup.portOf(end.device, end.port);
  return port === undefined ? undefined : { device: end.device, model, ports: [port], named: true };
}

/** Ports by the group in which they stand for each other, in the model's order. */
export function grouped(model: Model, ports: readonly Port[]): readonly (readonly Port[])[] {
  const groups = new Map<string, Port[]>();
  for (const port of ports) {
    const key = groupOf(model, port);
    const group = groups.get(key);
    if (group === undefined) groups.set(key, [port]);
    else group.push(port);
  }
  return [...groups.values()];
}
