/** Which devices count as electronics. */
import type { DeviceClass } from '../../../vessel/model.js';

/** Communication systems and electronic navigation equipment (33 CFR 183.425 (g)). */
export const ELECTRONICS: ReadonlySet<DeviceClass> = new Set<DeviceClass>([
  'display',
  'sonar',
  'radar',
  'camera',
  'gnss',
  'heading',
  'instrument',
  'radio',
  'transponder',
  'gateway',
  'switch',
]);
