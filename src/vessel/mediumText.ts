/** Media as the trade writes them. */
import type { Medium } from './model.js';

const TEXT: Readonly<Partial<Record<Medium, string>>> = {
  nmea2000: 'NMEA 2000',
  nmea0183: 'NMEA 0183',
  dc: 'dc',
  own: "maker's own",
  usb: 'USB',
  ac: 'ac',
};

/** `NMEA 2000`, `ethernet`, ... */
export function mediumText(medium: Medium): string {
  return TEXT[medium] ?? medium;
}
