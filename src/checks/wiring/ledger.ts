/** Which ports have been given away, and to what. */
import type { Port } from '../../vessel/model.js';
import type { Spot } from '../../vessel/origin.js';
import { takesMany } from './fit.js';

export interface Holder {
  /** The other end, as written. */
  readonly by: string;
  readonly spot: Spot;
}

export interface Ledger {
  /**
   * What keeps a port from taking one more connection. An NMEA 0183 port hears one talker and may talk to several, so there
   * only a connection in which it listens counts.
   */
  readonly blocker: (device: string, port: Port, listening: boolean) => Holder | undefined;
  readonly hold: (device: string, port: Port, listening: boolean, holder: Holder) => void;
}

/** An empty ledger. */
export function createLedger(): Ledger {
  const held = new Map<string, Holder>();
  const counts = (port: Port, listening: boolean): boolean =>
    !takesMany(port) && (port.medium !== 'nmea0183' || listening);
  return {
    blocker: (device, port, listening) =>
      counts(port, listening) ? held.get(`${device}.${port.name}`) : undefined,
    hold: (device, port, listening, holder) => {
      const key = `${device}.${port.name}`;
      if (counts(port, listening) && !held.has(key)) held.set(key, holder);
    },
  };
}
