import { count, listOf } from '../../../vessel/words.js';
import type { Context } from '../../context.js';
import type { Repair } from '../../finding.js';
import { rule, type Report } from '../../rule.js';
import type { Bus, Tap, Terminator } from '../bus.js';
import { busText, metresText } from './text.js';

/** `bus/terminators`: a backbone has not exactly one terminator at each of its ends. */
export const terminators = rule(
  {
    code: 'bus/terminators',
    severities: ['error'],
    summary: 'A backbone has not exactly one terminator at each end.',
  },
  (context, report) => {
    for (const { bus } of context.buses) {
      if (bus.backbone.items.length === 0) {
        report.find({
          message: `${busText(bus)} is empty, and so has no terminator at either end. Write its items along the cable: a terminator, its tees and the spans between them, the tap that feeds it, and the other terminator.`,
          at: { origin: bus.backbone.origin },
        });
        continue;
      }
      for (const end of ['first', 'last'] as const) atEnd(bus, end, report);
      between(bus, report);
      builtIn(context, bus, report);
    }
  },
);

function atEnd(bus: Bus, end: Terminator['end'], report: Report): void {
  const here = bus.terminators.filter((one) => one.end === end);
  const [, second] = here;
  if (second !== undefined)
    report.find({
      message: `${count(here.length, 'terminator')} are at the ${end} end of ${busText(bus)}: each more loads the data wires, and messages are lost. Keep one there.`,
      at: { origin: second.origin },
      repairs: [
        {
          title: 'Remove this terminator',
          preferred: true,
          change: { kind: 'remove', at: { origin: second.origin } },
        },
      ],
    });
  if (here.length > 0 || bus.open) return;
  const far = bus.terminators.find((one) => one.end === undefined);
  report.find({
    message: `${busText(bus)} has no terminator at its ${end} end: what is sent comes back from the open end, and messages are lost, often only now and then. Put a terminator of 120 ohm there, or say in which device one is built in ("terminator in ...").${far === undefined ? '' : ' The one in its middle belongs there.'}`,
    at: { origin: bus.backbone.origin },
    repairs: missing(bus, end, far),
  });
}

/** The one in the middle is moved, since to add one would leave it there. A first item has none after which to move it. */
function missing(bus: Bus, end: Terminator['end'], far: Terminator | undefined): readonly Repair[] {
  const { items } = bus.backbone;
  const item = end === 'first' ? items[0] : items.at(-1);
  if (item === undefined) return [];
  const spot = { origin: item.origin };
  if (far !== undefined && end === 'last')
    return [
      {
        title: 'Move the terminator to the last end',
        preferred: true,
        change: { kind: 'move', at: { origin: far.origin }, after: spot },
      },
    ];
  return [
    {
      title: `Add the terminator at the ${end ?? 'open'} end`,
      preferred: true,
      change:
        end === 'first'
          ? { kind: 'precede', before: spot, text: 'terminator' }
          : { kind: 'declare', after: spot, text: 'terminator' },
    },
  ];
}

/** Terminators that stand in the middle, and what lies outside the ends. */
function between(bus: Bus, report: Report): void {
  for (const one of bus.terminators) {
    if (one.end !== undefined) continue;
    const total = bus.backboneMetres;
    const where =
      one.atMetres === undefined || total === undefined
        ? 'between its ends'
        : `${metresText(one.atMetres)} from its first end and ${metresText(total - one.atMetres)} from its last`;
    const beyond = outside(bus, one).map((tap) => `the tap from ${tap.fromText}`);
    const lie = beyond.length === 1 ? 'lies' : 'lie';
    report.find({
      message: `A terminator of ${busText(bus)} is in the middle of it, ${where}: terminators belong at the two ends${beyond.length > 0 ? `, and ${listOf(beyond)} ${lie} outside of it` : ''}. Move it to the end, or end the backbone there.`,
      at: { origin: one.origin },
      repairs: [
        {
          title: 'Remove this terminator',
          preferred: false,
          change: { kind: 'remove', at: { origin: one.origin } },
        },
      ],
    });
  }
}

/** Taps past a terminator in the middle, on the side whose end has none; where both ends have one, or neither, none is outside. */
function outside(bus: Bus, { point }: Terminator): readonly Tap[] {
  const [first, last] = (['first', 'last'] as const).map((end) =>
    bus.terminators.some((one) => one.end === end),
  );
  if (first === last) return [];
  return bus.taps.filter((tap) => (last ? tap.point < point : tap.point > point));
}

/** Devices with a terminator built in that sit on a drop, and devices that are said to have one and may not. */
function builtIn({ lookup }: Context, bus: Bus, report: Report): void {
  const named = new Set(bus.terminators.flatMap((one) => one.in ?? []));
  for (const node of bus.nodes) {
    if (node.port?.terminates !== true || named.has(node.device)) continue;
    report.find({
      message: `${node.device} has a terminator built in and hangs on a drop of ${busText(bus)}: with those at the ends it is one too many. Put it at an end ("terminator in ${node.device}"), or use a model without one.`,
      at: node.spot,
    });
  }
  for (const one of bus.terminators) {
    if (one.in === undefined) continue;
    const model = lookup.modelOf(one.in);
    const ports = model?.ports.filter((port) => port.medium === 'nmea2000') ?? [];
    if (model !== undefined && !ports.some((port) => port.terminates))
      report.unknown(
        { origin: one.origin, part: 'device' },
        `${model.name} does not say that it has a terminator built in ("terminates")`,
      );
  }
}
