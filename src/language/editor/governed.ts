/** What decided the size of a wire that was worked out, in words. */
import type { Governing } from '../../checks/power/sizing/wire.js';

export const GOVERNED: Readonly<Record<Governing, string>> = {
  ampacity: 'its current',
  drop: 'the voltage lost on the way',
  fuse: 'its fuse',
  minimum: 'the least that the standard allows',
};
