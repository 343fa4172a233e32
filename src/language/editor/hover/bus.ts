/** Hover on a backbone, on a tee of it, and on an NMEA 2000 message by its number. */
import type { Analysis } from '../../../checks/analysis.js';
import type { BusAnalysis, FedStretch } from '../../../checks/buses/buses.js';
import type { BusNode, Tee } from '../../../checks/buses/bus.js';
import { LOAD_UNIT_AMPS } from '../../../checks/buses/units.js';
import { BUS_BITS_PER_SECOND } from '../../../vessel/can.js';
import { isProprietary, messageBits, pgnOf } from '../../../vessel/pgns/pgns.js';
import { inUnit } from '../../../vessel/units.js';
import { count, number } from '../../../vessel/words.js';
import { bold, escape, metres, rows, type Card } from './card.js';

const volts = (value: number): string => `${number(value, 2)} V`;
const percent = (share: number): string => `${number(share * 100, 1)} %`;
const units = (value: number): string => `${value} LEN (${inUnit(value * LOAD_UNIT_AMPS, 'A')})`;

/** A backbone: what is on it, what that loads it with, what feeds it, what arrives, and how full it is. */
export function backboneCard(name: string, analysis: Analysis, doc: string | undefined): Card | undefined {
  const found = analysis.buses.find((one) => one.bus.name === name);
  if (!found) return undefined;
  const { bus } = found;
  const lines = [
    [
      bus.backbone.cable === undefined ? 'cable not said' : escape(bus.backbone.cable),
      ...(bus.backboneMetres === undefined ? [] : [metres(bus.backboneMetres)]),
      count(bus.nodes.length, 'device'),
      ...(bus.loadUnits > 0 ? [units(bus.loadUnits)] : []),
    ].join(' · '),
  ];
  const feeders = bus.taps.map((tap) => tap.edge?.from ?? tap.fromText);
  if (feeders.length > 0) lines.push(`Fed from ${escape(feeders.join(', '))}.`);
  lines.push(...found.fed().map((fed) => lossText(found, fed)), ...trafficLines(found));
  if (bus.nodes.length > 0)
    lines.push('**On it**', ...rows(bus.nodes.map((node) => escape(nodeText(node, voltsAt(found, node))))));
  if (bus.missing.length > 0)
    lines.push('**Not known**', ...rows([...new Set(bus.missing.map(({ text }) => escape(text)))], 4));
  return { heading: `backbone ${bold(name)}`, lines, doc };
}

/** What is lost, with the rule of thumb beside it. */
function lossText({ bus }: BusAnalysis, fed: FedStretch): string {
  const { stretch, drops, feeding } = fed;
  const { worst } = drops;
  if (worst === undefined) return '';
  const part = bus.stretches.length > 1 ? `Stretch ${stretch.number + 1}: ` : '';
  if (drops.missing !== undefined) return `${part}Voltages not known: ${escape(drops.missing)}.`;
  const least = fed.lowestAt(worst.node);
  const arrives =
    least === undefined
      ? ''
      : `, and ${volts(least)} arrive there when ${escape(feeding.source)} is down to ${volts(feeding.lowestVolts ?? 0)}`;
  return `${part}${volts(drops.nodes.get(worst.node) ?? 0)} lost on it up to ${escape(worst.node.device)}${arrives}. The rule of thumb says ${volts(drops.thumbVolts)}.`;
}

function trafficLines({ traffic }: BusAnalysis): string[] {
  const { worstShare, typicalShare, talkers, missing } = traffic();
  const open = missing.length > 0 ? ', of what is known' : '';
  return [
    `Used ${percent(worstShare)} at worst, ${percent(typicalShare)} typically${open}.`,
    talkers.length > 0
      ? `Most from ${escape(talkers.map(({ device, share }) => `${device} ${percent(share)}`).join(', '))}.`
      : '',
  ];
}

/** Volts at a device with the battery at its lowest; undefined where something for it is not known. */
export function voltsAt({ bus, fed }: BusAnalysis, node: BusNode): number | undefined {
  const stretch = fed().find((one) => one.stretch.number === node.stretch);
  return stretch === undefined || stretch.drops.missing !== undefined || bus.open
    ? undefined
    : stretch.lowestAt(node);
}

function nodeText(node: BusNode, lowest: number | undefined): string {
  return [
    node.device,
    node.via === 'terminator'
      ? 'terminator'
      : node.dropMetres === undefined
        ? `${node.via}, drop not known`
        : `drop ${metres(node.dropMetres)}`,
    ...(node.atMetres === undefined ? [] : [`at ${metres(node.atMetres)}`]),
    ...(lowest === undefined ? [] : [volts(lowest)]),
  ].join(', ');
}

/** A tee: where it is, and what each device on it takes, sends and gets. */
export function teeCard(origin: string, analysis: Analysis): Card | undefined {
  for (const found of analysis.buses) {
    const tee = found.bus.tees.find((one) => one.origin === origin);
    if (tee) return cardOf(found, tee);
  }
  return undefined;
}

function cardOf(found: BusAnalysis, tee: Tee): Card {
  const { bus, traffic } = found;
  const where =
    tee.atMetres === undefined ? '' : `${metres(tee.atMetres)} from the first end of backbone ${bus.name}`;
  const lines = [`${where}${tee.capped ? ', capped: free for a device' : ''}.`];
  const sent = traffic().messages;
  for (const node of tee.nodes) {
    const lowest = voltsAt(found, node);
    lines.push(
      escape(
        [
          nodeText({ ...node, atMetres: undefined }, undefined),
          node.loadUnits === undefined ? 'load not known' : units(node.loadUnits),
          ...(lowest === undefined ? [] : [`${volts(lowest)} with the battery at its lowest`]),
        ].join(', '),
      ),
    );
    lines.push(
      ...rows(
        sent
          .filter((message) => message.by === node.device)
          .map(({ pgn, name, hertz, worst }) =>
            escape(
              `sends ${pgn === undefined ? '' : `${pgn} `}${name}, ${hertz === undefined ? 'on request or by event' : `${number(hertz, 2)} a second, ${percent(worst / BUS_BITS_PER_SECOND)}`}`,
            ),
          ),
      ),
    );
  }
  return { heading: `tee ${bold(tee.device ?? 'capped')}`, lines };
}

/** A message by its number. */
export function pgnCard(text: string): Card | undefined {
  const entry = pgnOf(text);
  if (entry === undefined)
    return isProprietary(Number(text))
      ? { heading: `message ${bold(text)}`, lines: ["A maker's own message."] }
      : undefined;
  const { frames, worst } = messageBits(entry);
  const share =
    entry.intervalSeconds === undefined ? undefined : worst / entry.intervalSeconds / BUS_BITS_PER_SECOND;
  return {
    heading: `message ${bold(text)} ${escape(entry.name)}`,
    lines: [
      `${count(entry.bytes, 'byte')}${entry.repeatedBytes > 0 ? ` and ${entry.repeatedBytes} for each repetition` : ''}, ${entry.fast ? `fast packet of ${count(frames, 'frame')}` : 'one frame'}${entry.priority === undefined ? '' : `, priority ${entry.priority}`}.`,
      share === undefined
        ? 'Sent on request, or when something happens.'
        : `Usually every ${inUnit(entry.intervalSeconds ?? 0, (entry.intervalSeconds ?? 0) < 1 ? 'ms' : 's')}: ${percent(share)} of a backbone at worst.`,
    ],
  };
}
