import type { Context } from '../../context.js';
import { covers } from '../../../vessel/signals.js';
import { compareText } from '../../../vessel/words.js';
import { rule } from '../../rule.js';
import type { BusNode } from '../bus.js';

/** What is told apart by its instance alone, by the signal that covers it. */
const KINDS = ['engine', 'battery', 'tank'] as const;
type Kind = (typeof KINDS)[number];

/** `bus/instance`: two devices that hear or can be heard together give the same engine, battery or tank instance. */
export const instance = rule(
  {
    code: 'bus/instance',
    severities: ['warning'],
    summary: 'Two devices give the same engine, battery or tank instance.',
  },
  (context, report) => {
    const { lookup } = context;
    const told = new Set<string>();
    for (const nodes of heardTogether(context))
      for (const kind of KINDS) {
        const givers = giversOf(nodes, kind);
        const silent =
          givers.length > 1
            ? givers.filter((node) => lookup.device(node.device)?.instance === undefined)
            : [];
        for (const node of silent) {
          if (told.has(`${kind} ${node.device}`)) continue;
          told.add(`${kind} ${node.device}`);
          report.unknown(
            { origin: lookup.device(node.device)?.origin ?? node.device },
            `${node.device} does not say which ${kind} it is ("instance")`,
          );
        }
        const first = new Map<number, BusNode>();
        for (const node of givers) {
          const device = lookup.device(node.device);
          const number = device?.instance;
          if (device === undefined || number === undefined) continue;
          const other = first.get(number);
          if (other === undefined) {
            first.set(number, node);
            continue;
          }
          const key = `${kind} ${other.device} ${node.device}`;
          if (told.has(key)) continue;
          told.add(key);
          const free = freeInstance(givers.flatMap((one) => lookup.device(one.device)?.instance ?? []));
          report.find({
            message: `${other.device} and ${node.device} both give ${kind} ${number}: displays take them for one, and show now the one and now the other. Give one of them another instance, such as ${free}, here and in the device itself.`,
            at: { origin: device.origin },
            related: [
              {
                at: { origin: lookup.device(other.device)?.origin ?? other.device },
                message: `${other.device} has instance ${number} too`,
              },
            ],
          });
        }
      }
  },
);

/** Devices that give something of a kind, each once. */
function giversOf(nodes: readonly BusNode[], kind: Kind): readonly BusNode[] {
  const seen = new Set<string>();
  return nodes.filter((node) => {
    if (seen.has(node.device) || node.model?.gives.some(({ signal }) => covers(kind, signal)) !== true)
      return false;
    seen.add(node.device);
    return true;
  });
}

/** For each backbone its devices, and those of backbones from which a gateway lets something through to it. */
function heardTogether({ buses }: Context): readonly (readonly BusNode[])[] {
  const from = new Map<string, Set<string>>(buses.map(({ bus }) => [bus.name, new Set([bus.name])]));
  const ports = new Map(
    buses.flatMap(({ bus }) =>
      bus.nodes.map((node) => [`${node.device}.${node.port?.name ?? ''}`, bus.name] as const),
    ),
  );
  const ways = buses.flatMap(({ bus }) =>
    bus.nodes.flatMap((node) =>
      (node.model?.passes ?? []).flatMap((passing) => {
        const to = ports.get(`${node.device}.${passing.to}`);
        return to !== undefined && passing.from.includes(node.port?.name ?? '')
          ? [[bus.name, to] as const]
          : [];
      }),
    ),
  );
  for (let again = true; again;) {
    again = false;
    for (const [source, target] of ways)
      for (const name of from.get(source) ?? []) {
        const set = from.get(target);
        if (set === undefined || set.has(name)) continue;
        set.add(name);
        again = true;
      }
  }
  return buses.map(({ bus }) =>
    buses
      .filter((other) => from.get(bus.name)?.has(other.bus.name))
      .flatMap((other) => other.bus.nodes)
      .sort((a, b) => compareText(a.device, b.device)),
  );
}

/** The least number that is not taken. */
function freeInstance(taken: readonly number[]): number {
  const used = new Set(taken);
  let free = 0;
  while (used.has(free)) free += 1;
  return free;
}
