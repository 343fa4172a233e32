/** Load units of NMEA 2000 (IEC 61162-3). */
import type { Port } from '../../vessel/model.js';

/** Amperes of one load unit (LEN). */
export const LOAD_UNIT_AMPS = 0.05;

/** The least volts that a device on a backbone has to work with, at which a draw in watts is turned into load units. NMEA 2000, value from memory. */
export const BUS_LEAST_VOLTS = 9;

/** Load units as declared, else one for every 50 mA of what the port draws from the bus; undefined where neither is said. */
export function loadUnitsOf(port: Port | undefined): number | undefined {
  if (port?.len !== undefined) return port.len;
  const draw = port?.draws;
  if (draw === undefined) return undefined;
  const amps = draw.unit === 'A' ? draw.amount : draw.amount / BUS_LEAST_VOLTS;
  // A hair's breadth over a whole unit is rounding, not load.
  return Math.ceil(amps / LOAD_UNIT_AMPS - 1e-9);
}
