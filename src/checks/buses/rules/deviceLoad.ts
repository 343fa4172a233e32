import { rule } from '../../rule.js';
import { busText } from './text.js';

/** One device may take so many load units, 1 A: NMEA 2000, IEC 61162-3. */
const MOST_UNITS = 20;

/** `bus/device-load`: one device takes more than 20 load units from the bus. */
export const deviceLoad = rule(
  { code: 'bus/device-load', severities: ['error'], summary: 'One device takes over 20 load units (1 A).' },
  ({ buses }, report) => {
    for (const { bus } of buses)
      for (const node of bus.nodes) {
        if (node.loadUnits === undefined) {
          if (node.loadMissing !== undefined) report.unknown(node.spot, node.loadMissing);
          continue;
        }
        if (node.loadUnits <= MOST_UNITS) continue;
        report.find({
          message: `${node.device} takes ${node.loadUnits} load units (${(node.loadUnits * 50) / 1000} A) from ${busText(bus)}, and one device may take 20 (1 A): the contacts of its drop are not made for more. Use a model with a supply of its own.`,
          at: node.spot,
        });
      }
  },
);
