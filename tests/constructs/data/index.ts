import type { Group } from '../construct.js';
import { backbones } from './backbones.js';
import { cables } from './cables.js';
import { devices } from './devices.js';
import { files } from './files.js';
import { declarations } from './library.js';
import { links } from './links.js';
import { models } from './models.js';
import { needs } from './needs.js';
import { options } from './options.js';
import { places } from './places.js';
import { ports } from './ports.js';
import { power } from './power.js';
import { quantities } from './quantities.js';

/** Every construct that is written, in the order of the page. */
export const GROUPS: readonly Group[] = [
  files,
  models,
  ports,
  cables,
  declarations,
  places,
  devices,
  links,
  power,
  backbones,
  needs,
  options,
  quantities,
];
