import { compareText, listOf } from '../../../vessel/words.js';
import { createUnionFind } from '../../../vessel/unionFind.js';
import type { Medium, Port } from '../../../vessel/model.js';
import { mediumText } from '../../../vessel/mediumText.js';
import type { Spot } from '../../finding.js';
import type { Context } from '../../context.js';
import { rule } from '../../rule.js';
import { consumerAt } from '../loads/consumers.js';

/** Media whose cables join the negatives of the two devices. Ethernet has a transformer at each end (IEEE 802.3). */
const JOINS: ReadonlySet<Medium> = new Set<Medium>([
  'nmea0183',
  'nmea2000',
  'video',
  'audio',
  'usb',
  'trigger',
  'own',
]);

/** `power/common-negative`: banks whose devices are joined by data cables, and not by a common negative. */
export const commonNegative = rule(
  {
    code: 'power/common-negative',
    severities: ['warning'],
    summary: 'Data cables join devices of banks that have no common negative.',
  },
  (context, report) => {
    const { vessel, lookup } = context;
    const sides = new Set(context.supply.systems.map((system) => system.id));
    if (sides.size < 2) return;
    const negatives = negativesOf(context);
    const told = new Set<string>();
    const check = (one: Supplied, other: Supplied, cable: string, at: Spot): void => {
      for (const a of one.sides) {
        for (const b of other.sides) {
          if (negatives.joined(a, b)) continue;
          const key = [a, b].sort(compareText).join('\n');
          if (told.has(key)) continue;
          told.add(key);
          const [first, second] = [nameOf(context, a), nameOf(context, b)].sort(compareText);
          if (!negatives.apart(a, b)) {
            report.unknown(
              at,
              `whether the negatives of ${first ?? ''} and ${second ?? ''} are joined is not said, and ${cable} joins ${one.device} and ${other.device}`,
            );
            continue;
          }
          report.find({
            message: `${cable} joins ${one.device} and ${other.device}, which are on ${nameOf(context, a)} and ${nameOf(context, b)}, whose negatives are apart: the return current looks for its way through the data cable and burns a port. Join the negatives ("negative ${first ?? ''}, ${second ?? ''} joined"), or put an isolator into the cable.`,
            at,
            related: vessel.negatives
              .filter((negative) => !negative.joined)
              .map((negative) => ({
                at: { origin: negative.origin },
                message: 'they are said to be apart here',
              })),
          });
        }
      }
    };
    const links = [...context.wiring.links].sort((x, y) => compareText(x.id, y.id));
    for (const { link, medium, a, b, state, id } of links) {
      if (
        state === 'refused' ||
        medium === undefined ||
        !JOINS.has(medium) ||
        a === undefined ||
        b === undefined
      )
        continue;
      if (isolated(a.port) || isolated(b.port)) continue;
      check(
        suppliedBy(context, a.device),
        suppliedBy(context, b.device),
        `the ${mediumText(medium)} cable ${id.replace('--', ' -- ')}`,
        {
          origin: link.origin,
        },
      );
    }
    const backbones = [...context.wiring.backbones].sort((x, y) =>
      compareText(x.backbone.name, y.backbone.name),
    );
    for (const { backbone, members } of backbones) {
      const on = members
        .filter(({ device }) => (lookup.modelOf(device)?.ports ?? []).some((port) => port.medium === 'dc'))
        .map(({ device }) => suppliedBy(context, device));
      const first = on.find((one) => one.sides.length > 0);
      for (const other of on)
        if (first !== undefined)
          check(first, other, `backbone ${backbone.name}`, { origin: backbone.origin });
    }
  },
);

interface Supplied {
  readonly device: string;
  /** Ids of the systems that its inputs are on. */
  readonly sides: readonly string[];
}

function suppliedBy({ supply, lookup }: Context, device: string): Supplied {
  const ports = lookup.modelOf(device)?.ports ?? [];
  const sides = ports.flatMap((port) => {
    const consumer = port.medium === 'dc' ? consumerAt(supply, `${device}.${port.name}`) : undefined;
    if (consumer === undefined || supply.edgesAt(consumer.id).length === 0) return [];
    const system = supply.systemOf(consumer.id);
    // Without a bank it floats: behind an isolated converter no current finds a way round.
    return system === undefined || system.banks.length === 0 ? [] : [system.id];
  });
  return { device, sides: [...new Set(sides)] };
}

const isolated = (port: Port): boolean => port.serial?.isolated === true;

interface Negatives {
  readonly joined: (a: string, b: string) => boolean;
  readonly apart: (a: string, b: string) => boolean;
}

/** Which systems have one negative: said to, one circuit through diodes, or through a converter that does not isolate. */
function negativesOf({ supply, vessel }: Context): Negatives {
  const sets = createUnionFind<string>();
  for (const system of supply.systems)
    for (const before of system.fedThroughDiodes) sets.join(before, system.id);
  for (const join of supply.joins) {
    if (join.kind !== 'converter' || join.isolated) continue;
    const a = supply.systemOf(join.a);
    const b = supply.systemOf(join.b);
    if (a !== undefined && b !== undefined) sets.join(a.id, b.id);
  }
  const systemsOf = (name: string): readonly string[] => [
    ...supply.systems
      .filter((system) => system.banks.some((bank) => bank.device === name))
      .map(({ id }) => id),
    ...supply.outputs
      .filter((output) => output.device === name)
      .flatMap((output) => supply.systemOf(output.terminal)?.id ?? []),
  ];
  for (const negative of vessel.negatives) {
    if (!negative.joined) continue;
    const ids = negative.banks.flatMap(systemsOf);
    for (const id of ids.slice(1)) sets.join(ids[0] ?? id, id);
  }
  const apart = vessel.negatives
    .filter((negative) => !negative.joined)
    .map((negative) => new Set(negative.banks.flatMap(systemsOf).map((id) => sets.find(id))));
  return {
    joined: (a, b) => sets.find(a) === sets.find(b),
    apart: (a, b) => apart.some((set) => set.has(sets.find(a)) && set.has(sets.find(b))),
  };
}

function nameOf({ supply }: Context, id: string): string {
  const system = supply.systems.find((one) => one.id === id);
  if (system === undefined) return id;
  if (system.banks.length > 0)
    return listOf(system.banks.map((bank) => bank.device).sort(compareText), 'and', 2);
  return system.outputs[0]?.device ?? id;
}
