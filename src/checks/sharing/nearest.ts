/** What would make a refused answer right: the free port that would do. */
import type { Grade, Medium, Port, Vessel } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import { compareText } from '../../vessel/words.js';
import type { PortOfDevice } from '../analysis.js';
import type { Ethernet } from '../network/ethernet.js';
import type { Wiring } from '../wiring/wiring.js';

export interface Nearest {
  /** A free port that accepts a transducer of this grade, at the screen itself or on its segment before others. */
  readonly host: (grade: Grade | undefined, screen: string | undefined) => PortOfDevice | undefined;
  /** A free ethernet port that passes traffic on a device's segment. */
  readonly joint: (device: string) => PortOfDevice | undefined;
  /** Free ports of a medium, by device; at most `limit`. */
  readonly free: (medium: Medium, limit: number) => readonly PortOfDevice[];
}

/** Search at most this many candidates for a hint: a hint is worth no more. */
const LIMIT = 200;

/** Index the free ports of a vessel. */
export function createNearest(vessel: Vessel, lookup: Lookup, wiring: Wiring, ethernet: Ethernet): Nearest {
  const byMedium = new Map<Medium, readonly PortOfDevice[]>();
  const isFree = (at: PortOfDevice): boolean => wiring.useOf(at.device, at.port.name).length === 0;
  const portsOf = (medium: Medium): readonly PortOfDevice[] => {
    let list = byMedium.get(medium);
    if (list === undefined) {
      list = vessel.devices
        .filter((device) => !device.leaving)
        .flatMap((device) =>
          (lookup.modelOf(device.name)?.ports ?? []).map((port) => ({ device: device.name, port })),
        )
        .filter((at) => at.port.medium === medium && isFree(at))
        .sort((x, y) => compareText(x.device, y.device));
      byMedium.set(medium, list);
    }
    return list;
  };
  const accepting = new Map<string, readonly PortOfDevice[]>();
  const hosts = (grade: Grade | undefined): readonly PortOfDevice[] => {
    const key = grade ?? 'standard';
    let list = accepting.get(key);
    if (list === undefined) {
      list = portsOf('transducer').filter(
        (at) => lookup.modelOf(at.device)?.class !== 'transducer' && accepts(at.port, key),
      );
      accepting.set(key, list);
    }
    return list;
  };
  return {
    host: (grade, screen) => {
      const list = hosts(grade);
      if (screen === undefined) return list[0];
      const segments = ethernet.segmentsOf(screen);
      const candidates = list.slice(0, LIMIT);
      const onSegment = (at: PortOfDevice): boolean =>
        ethernet.segmentsOf(at.device).some((segment) => segments.includes(segment));
      return candidates.find((at) => at.device === screen) ?? candidates.find(onSegment) ?? list[0];
    },
    joint: (device) => {
      for (const segment of ethernet.segmentsOf(device)) {
        for (const name of segment.devices.slice(0, LIMIT)) {
          if (!ethernet.passes(name) && name !== device) continue;
          const port = lookup
            .modelOf(name)
            ?.ports.find((one) => one.medium === 'ethernet' && isFree({ device: name, port: one }));
          if (port !== undefined) return { device: name, port };
        }
      }
      if (ethernet.segmentsOf(device).length > 0) return undefined;
      const port = lookup
        .modelOf(device)
        ?.ports.find((one) => one.medium === 'ethernet' && isFree({ device, port: one }));
      return port === undefined ? undefined : { device, port };
    },
    free: (medium, limit) => portsOf(medium).slice(0, limit),
  };
}

/** Whether a port accepts a grade; one that does not state it is not offered. */
function accepts(port: Port, grade: Grade): boolean {
  return port.accepts !== undefined && (port.accepts === 'hd' || grade === 'standard');
}
