import type { DeviceClass } from '../../../vessel/model.js';
import { count } from '../../../vessel/words.js';
import { dcDirection } from '../../wiring/fit.js';
import { rule } from '../../rule.js';

/** ABYC E-11. */
const MOST_ON_A_STUD = 4;
/** What has one stud a post where it says nothing else. */
const ONE_STUD: ReadonlySet<DeviceClass> = new Set<DeviceClass>([
  'battery',
  'batteryswitch',
  'shunt',
  'combiner',
  'joint',
  'engine',
]);

/** `power/stud`: over four conductors on a stud (ABYC E-11). */
export const stud = rule(
  { code: 'power/stud', severities: ['warning'], summary: 'More than four conductors are on one stud.' },
  ({ supply, lookup }, report) => {
    for (const terminal of supply.terminals.values()) {
      if (terminal.kind !== 'port' || dcDirection(terminal.port) !== undefined) continue;
      const edges = supply.edgesAt(terminal.id);
      if (edges.length <= MOST_ON_A_STUD) continue;
      const at = { origin: lookup.device(terminal.device)?.origin ?? terminal.device };
      const bank = supply.bankAt(terminal.id);
      const stated = terminal.port.dc?.studs ?? (ONE_STUD.has(terminal.model.class) ? 1 : undefined);
      if (stated === undefined) {
        report.unknown(
          at,
          `${terminal.model.name} does not say how many studs port ${terminal.port.name} has`,
        );
        continue;
      }
      // Each battery of a parallel bank has its own post.
      const studs = stated * (bank?.parallel ?? 1);
      if (edges.length <= MOST_ON_A_STUD * studs) continue;
      report.find({
        message: `${count(edges.length, 'conductor')} are on ${terminal.id}, which has ${count(studs, 'stud')}: over ${MOST_ON_A_STUD} on a stud the upper ones work loose (ABYC E-11). Put a busbar between, or use one with more studs.`,
        at,
        related: edges.slice(0, 8).map((edge) => ({ at: { origin: edge.origin }, message: edge.text })),
      });
    }
  },
);
