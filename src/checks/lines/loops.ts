/** Where what a gateway sends comes back to it: circles of lines, backbones and the gateways that join them. */
import type { Medium, Passing, Port, Vessel } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import { brings, passed } from '../../vessel/messages.js';
import { SENTENCES } from '../../vessel/sentences.js';
import { carriageOf } from '../../vessel/signals.js';
import { createUnionFind } from '../../vessel/unionFind.js';
import { compareText } from '../../vessel/words.js';
import type { Wiring } from '../wiring/wiring.js';
import type { Line } from './lines.js';

export interface MessageLoop {
  /** Gateways around, each once, from the smallest name on. */
  readonly gateways: readonly string[];
  /** The ports passed: `one.out`, `other.in`, ... */
  readonly ports: readonly string[];
  /** What goes round, as signals. */
  readonly signals: readonly string[];
}

/** A way through a gateway and on to the next one's ear. */
interface Step {
  readonly from: string;
  readonly device: string;
  readonly passing: Passing;
  readonly medium: Medium;
  readonly out: Port;
  readonly to: string;
}

/** One message at the ear of a gateway. */
interface Node {
  readonly ear: string;
  readonly message: string;
}

/** Every circle in which some message goes round, one for each set of gateways. */
export function findMessageLoops(
  vessel: Vessel,
  lookup: Lookup,
  wiring: Wiring,
  lines: readonly Line[],
): readonly MessageLoop[] {
  const steps = peeled(stepsOf(vessel, lookup, wiring, lines));
  if (steps.length === 0) return [];
  const found: MessageLoop[] = [];
  for (const signal of Object.keys(vessel.signals).sort(compareText)) {
    for (const loop of loopsOf(vessel, signal, steps)) {
      const at = found.findIndex((one) => one.gateways.join() === loop.gateways.join());
      const known = found[at];
      if (known === undefined) found.push(loop);
      else found[at] = { ...known, signals: [...known.signals, signal] };
    }
  }
  return found.sort((x, y) => compareText(x.gateways.join(), y.gateways.join()));
}

function stepsOf(vessel: Vessel, lookup: Lookup, wiring: Wiring, lines: readonly Line[]): readonly Step[] {
  const isGone = (device: string): boolean => lookup.device(device)?.leaving ?? true;
  const isGateway = (device: string): boolean => (lookup.modelOf(device)?.passes.length ?? 0) > 0;
  const ears = new Map<string, string[]>();
  for (const line of lines)
    ears.set(
      line.id,
      line.listeners.filter((one) => isGateway(one.device)).map((one) => `${one.device}.${one.port.name}`),
    );
  for (const { members } of wiring.backbones) {
    const present = members.filter((one) => !isGone(one.device) && isGateway(one.device));
    for (const from of present) {
      if (from.port === undefined) continue;
      const others = present.flatMap((one) =>
        one.device === from.device || one.port === undefined ? [] : [`${one.device}.${one.port.name}`],
      );
      const id = `${from.device}.${from.port.name}`;
      ears.set(id, [...(ears.get(id) ?? []), ...others]);
    }
  }
  return vessel.devices.flatMap(({ name, leaving }) =>
    (leaving ? [] : (lookup.modelOf(name)?.passes ?? [])).flatMap((passing) =>
      passing.from.flatMap((from): readonly Step[] => {
        const medium = lookup.portOf(name, from)?.medium;
        const out = lookup.portOf(name, passing.to);
        if (medium === undefined || out === undefined) return [];
        return (ears.get(`${name}.${out.name}`) ?? []).map((to) => ({
          from: `${name}.${from}`,
          device: name,
          passing,
          medium,
          out,
          to,
        }));
      }),
    ),
  );
}

/** What is left when all is taken away that nothing leads to, or that leads nowhere: steps of circles, and between them. */
function peeled<T extends { readonly from: string; readonly to: string }>(steps: readonly T[]): readonly T[] {
  let left = steps;
  for (;;) {
    const from = new Set(left.map((step) => step.from));
    const to = new Set(left.map((step) => step.to));
    const next = left.filter((step) => to.has(step.from) && from.has(step.to));
    if (next.length === left.length) return left;
    left = next;
  }
}

function loopsOf(vessel: Vessel, signal: string, steps: readonly Step[]): readonly MessageLoop[] {
  const messages = (medium: Medium): readonly string[] => {
    if (medium !== 'nmea0183') return (carriageOf(vessel, signal)?.pgns ?? []).map(String);
    const usual = carriageOf(vessel, signal)?.sentences ?? [];
    return [
      ...new Set([...usual, ...Object.keys(SENTENCES).filter((one) => brings(vessel, medium, one, signal))]),
    ];
  };
  const table = new Map<Medium, readonly string[]>();
  const known = (medium: Medium): readonly string[] => {
    const list = table.get(medium) ?? messages(medium);
    table.set(medium, list);
    return list;
  };
  const text = ({ ear, message }: Node): string => `${ear} ${message}`;
  const edges = peeled(
    steps.flatMap((step) =>
      known(step.medium).flatMap((message) =>
        passed(vessel, step.passing, step.medium, step.out, signal, [{ message, hertz: undefined }]).map(
          (out) => ({
            from: text({ ear: step.from, message }),
            to: text({ ear: step.to, message: out.message }),
            step,
          }),
        ),
      ),
    ),
  );
  const groups = createUnionFind<string>();
  const next = new Map<string, (typeof edges)[number]>();
  for (const edge of edges) {
    groups.join(edge.step.device, deviceOf(edge.step.to));
    if (!next.has(edge.from)) next.set(edge.from, edge);
  }
  const loops = new Map<string, MessageLoop>();
  for (const edge of [...edges].sort((x, y) => compareText(x.from, y.from))) {
    const group = groups.find(edge.step.device);
    if (loops.has(group)) continue;
    // Whoever always goes on has to come round: nothing that is left ends.
    const seen = new Map<string, number>();
    const way: (typeof edges)[number][] = [];
    let at: (typeof edges)[number] | undefined = edge;
    while (at !== undefined && !seen.has(at.from)) {
      seen.set(at.from, way.length);
      way.push(at);
      at = next.get(at.to);
    }
    if (at === undefined) continue;
    const round = way.slice(seen.get(at.from) ?? 0).map((one) => one.step);
    const first = Math.max(
      0,
      round.findIndex((one) => round.every((other) => compareText(one.device, other.device) <= 0)),
    );
    const turned = [...round.slice(first), ...round.slice(0, first)];
    loops.set(group, {
      gateways: [...new Set(turned.map((one) => one.device))],
      ports: turned.flatMap((one) => [`${one.device}.${one.out.name}`, one.to]),
      signals: [signal],
    });
  }
  return [...loops.values()];
}

function deviceOf(ear: string): string {
  return ear.slice(0, ear.indexOf('.'));
}
