/** Antenna cables: the way from each radio to each antenna, through splitters and joints, with what is lost on it. */
import type { Vessel } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import { CHANNEL_16_HERTZ, lossPerMetre } from '../../vessel/coax.js';
import type { PortOfDevice } from '../analysis.js';
import type { RoutedCable } from '../cables/cables.js';

/** Decibels of one plug. Small craft practice. */
export const PLUG_DECIBELS = 0.25;

/** A way from a radio's port to an antenna. */
export interface AntennaWay {
  readonly radio: PortOfDevice;
  readonly antenna: string;
  readonly cables: readonly RoutedCable[];
  readonly cableDecibels: number;
  readonly plugs: number;
  /** What splitters and joints say of themselves. */
  readonly betweenDecibels: number;
  /** The sum of what is known. */
  readonly decibels: number;
  readonly missing: readonly string[];
}

/** Ways that serve VHF or AIS. Splitters and joints are walked through; a receiver's own port ends a way. */
export function antennaWays(
  vessel: Vessel,
  lookup: Lookup,
  cables: readonly RoutedCable[],
): readonly AntennaWay[] {
  const made = cables.filter((run) => run.wired.medium === 'coax' && run.wired.state === 'made');
  const classOf = (device: string): string | undefined => lookup.modelOf(device)?.class;
  const isThrough = (device: string): boolean =>
    classOf(device) === 'antennasplitter' || classOf(device) === 'joint';
  const ways: AntennaWay[] = [];
  for (const { name, leaving } of vessel.devices) {
    const model = lookup.modelOf(name);
    if (leaving || model === undefined || model.class === 'antenna' || isThrough(name)) continue;
    for (const port of model.ports) {
      if (port.medium !== 'coax' || !serves(port.service)) continue;
      const seen = new Set<RoutedCable>();
      const stack: { readonly at: PortOfDevice; readonly run: readonly RoutedCable[] }[] = [
        { at: { device: name, port }, run: [] },
      ];
      for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
        for (const cable of made) {
          const { a, b } = cable.wired;
          if (a === undefined || b === undefined || seen.has(cable)) continue;
          const isHere = (end: PortOfDevice): boolean =>
            end.device === top.at.device && (top.run.length > 0 || end.port.name === port.name);
          const far = isHere(a) ? b : isHere(b) ? a : undefined;
          if (far === undefined || (lookup.device(far.device)?.leaving ?? true)) continue;
          seen.add(cable);
          const run = [...top.run, cable];
          if (classOf(far.device) === 'antenna')
            ways.push(measure(lookup, { device: name, port }, far.device, run));
          else if (isThrough(far.device)) stack.push({ at: far, run });
        }
      }
    }
  }
  return ways;
}

/** Two services that work in the maritime band; at the frequencies of satellites cables are no matter of this. */
function serves(service: string | undefined): boolean {
  return service === 'vhf' || service === 'ais';
}

function measure(
  lookup: Lookup,
  radio: PortOfDevice,
  antenna: string,
  cables: readonly RoutedCable[],
): AntennaWay {
  const missing: string[] = [];
  let cableDecibels = 0;
  let betweenDecibels = 0;
  let plugs = 0;
  const through = new Set<string>();
  for (const run of cables) {
    // A plug at each end and on both sides of every joint; a moulded tail has none where it leaves its device, and one to go on with.
    plugs += 2;
    const cable = lookup.cable(run.cable);
    const each = cable === undefined ? undefined : lossPerMetre(cable.loss, CHANNEL_16_HERTZ);
    if (run.cable === undefined) missing.push(`which cable ${run.id.replace('--', ' -- ')} is of`);
    else if (each === undefined) missing.push(`what ${run.cable} loses at 156.8 MHz`);
    if (run.neededMetres === undefined)
      missing.push(run.unknown ?? `how long ${run.id.replace('--', ' -- ')} is`);
    cableDecibels += (each ?? 0) * (run.neededMetres ?? 0);
    for (const joint of run.link.joins) {
      const loss = joint.model === undefined ? undefined : lookup.model(joint.model)?.lossDecibels;
      if (loss === undefined) plugs += 1;
      else betweenDecibels += loss;
    }
    for (const end of [run.wired.a, run.wired.b])
      if (end !== undefined && end.device !== radio.device && end.device !== antenna) through.add(end.device);
  }
  for (const device of through) {
    const model = lookup.modelOf(device);
    if (model?.lossDecibels === undefined) missing.push(`what ${model?.name ?? device} loses`);
    else betweenDecibels += model.lossDecibels;
  }
  const decibels = cableDecibels + betweenDecibels + plugs * PLUG_DECIBELS;
  return { radio, antenna, cables, cableDecibels, plugs, betweenDecibels, decibels, missing };
}
