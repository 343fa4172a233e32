/** How much voltage may be lost on the way to a device. */
import type { Model, Practice } from '../../../vessel/model.js';
import { ELECTRONICS } from '../loads/electronics.js';
import type { SupplyEdge, SupplyGraph } from '../supply/graph.js';

/** What must not suffer from a drop, and everything else: shares of the nominal voltage (ABYC E-11 11.14.2.6, ISO 13297). */
const CRITICAL = 0.03;
const OTHER = 0.1;

/** Kinds of load that each practice holds to 3 %; abyc holds electronics to it as well. Alarms are other safety gear of iso. */
const CRITICAL_KINDS: Readonly<Record<Practice, ReadonlySet<string>>> = {
  abyc: new Set(['navlight', 'blower']),
  iso: new Set(['navlight', 'blower', 'bilgepump', 'alarm']),
};

/** The share of the nominal voltage that may be lost on the way to a device, and who says so. */
export interface DropLimit {
  readonly share: number;
  readonly by: 'model' | 'practice';
}

export function dropLimitOf(model: Model, practice: Practice): DropLimit {
  if (model.maxDrop !== undefined) return { share: model.maxDrop, by: 'model' };
  const critical =
    (practice === 'abyc' && (ELECTRONICS.has(model.class) || model.class === 'pilot')) ||
    (model.kind !== undefined && CRITICAL_KINDS[practice].has(model.kind));
  return { share: critical ? CRITICAL : OTHER, by: 'practice' };
}

/** What has no limit of its own: it is on the way to something that has. */
const PASSED: ReadonlySet<string> = new Set([
  'battery',
  'busbar',
  'shunt',
  'joint',
  'batteryswitch',
  'combiner',
  'chargesplitter',
]);

/** The limit at the end of a leg: of the device, of a panel's main feeder, or of a backbone. Undefined for what has none of its own. */
export function legLimit(
  graph: SupplyGraph,
  edge: SupplyEdge,
  leg: number,
  practice: Practice,
): DropLimit | undefined {
  const to = edge.legs[leg]?.to;
  const terminal = to === undefined ? undefined : graph.terminals.get(to);
  if (terminal === undefined || (terminal.kind === 'port' && PASSED.has(terminal.model.class)))
    return undefined;
  if (terminal.kind === 'bus') return { share: practice === 'abyc' ? CRITICAL : OTHER, by: 'practice' };
  if (terminal.model.class === 'panel')
    return terminal.model.maxDrop === undefined
      ? { share: CRITICAL, by: 'practice' }
      : { share: terminal.model.maxDrop, by: 'model' };
  return dropLimitOf(terminal.model, practice);
}
