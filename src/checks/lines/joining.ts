/** How the wires of two ends of an NMEA 0183 line go together. Common practice after IEC 61162-1 and RS-422. */
import type { Port } from '../../vessel/model.js';

export type Signalling =
  'alike' | 'single-to-differential' | 'differential-to-single' | 'floating' | 'unknown';

/**
 * How two ends stand to each other. An opto-isolated listener floats: it takes a single-ended talker as well as a differential
 * one.
 */
export function signallingOf(talker: Port, listener: Port): Signalling {
  const from = talker.serial?.signalling;
  const to = listener.serial?.signalling;
  if (listener.serial?.isolated === true && (to === undefined || from !== undefined)) return 'floating';
  if (from === undefined || to === undefined) return 'unknown';
  if (from === to) return 'alike';
  return from === 'single' ? 'single-to-differential' : 'differential-to-single';
}

/** Which wire goes where, as a sentence; undefined where it is not known. */
export function wiresText(
  talker: string,
  listener: string,
  kind: Signalling,
  single: boolean,
): string | undefined {
  switch (kind) {
    case 'alike':
      return single
        ? `Join the output of ${talker} to the input of ${listener}, and the grounds of the two.`
        : `Join A to A and B to B of ${talker} and ${listener}.`;
    case 'floating':
    case 'single-to-differential':
      return single
        ? `Join the output of ${talker} to A of ${listener}, and B of ${listener} to the signal ground of ${talker}.`
        : `Join A to A and B to B of ${talker} and ${listener}.`;
    case 'differential-to-single':
      return `Join A of ${talker} to the input of ${listener}, and the grounds of the two; leave B of ${talker} open and never ground it, which would short its driver.`;
    case 'unknown':
      return undefined;
  }
}
