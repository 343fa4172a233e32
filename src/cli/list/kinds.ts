/** Every list that there is, in the order of the help. */
import { BUSES } from './buses.js';
import { CABLES } from './cables.js';
import { COMMISSIONING, CONNECTORS, FAULTS, VAN } from './commissioning.js';
import { HEARD } from './heard.js';
import { COVERAGE } from './coverage.js';
import { ENERGY } from './energy.js';
import { FAILURE_VOLTAGES, FAILURES, FAILURES_BY_NEED } from './failures.js';
import { FEEDS } from './feeds.js';
import type { ListKind } from './listing.js';
import { LOADS } from './loads.js';
import { NEEDS } from './needs.js';
import { OPTIONS } from './options.js';
import { PARTS } from './parts.js';
import { PORTS } from './ports.js';
import { LABELS, PULLS, SCHEDULE, SCREENS } from './schedules.js';
import { SOURCES } from './sources.js';
import { VIEWS } from './views.js';
import { WIRES } from './wires.js';

export const LIST_KINDS: readonly ListKind[] = [
  VIEWS,
  SOURCES,
  PORTS,
  PARTS,
  CABLES,
  NEEDS,
  COVERAGE,
  WIRES,
  FEEDS,
  BUSES,
  HEARD,
  LOADS,
  ENERGY,
  FAILURES,
  FAILURES_BY_NEED,
  FAILURE_VOLTAGES,
  SCHEDULE,
  LABELS,
  PULLS,
  SCREENS,
  CONNECTORS,
  COMMISSIONING,
  FAULTS,
  VAN,
  OPTIONS,
];
