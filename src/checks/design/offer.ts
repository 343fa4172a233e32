/** A design in words and figures, for whoever decides about it. */
import type { Analysis } from '../analysis.js';
import { endText } from '../wiring/wiring.js';
import { textOf, type Design } from './design.js';
import type { Offer } from './search.js';

export interface Change {
  readonly kind: 'exchange' | 'remove' | 'add' | 'unplug' | 'plug';
  /** The device, or the link as it is written. */
  readonly what: string;
  readonly text: string;
}

/** What a design changes, gear first. */
export function changesOf(design: Design): readonly Change[] {
  return [
    ...design.exchanges.map(({ device, from, to, wasOpen }): Change => ({
      kind: 'exchange',
      what: device,
      text: wasOpen ? `${device}: ${to}` : `${device}: ${to} in place of ${from}`,
    })),
    ...design.dropped.map((device): Change => ({
      kind: 'remove',
      what: device,
      text: `take out ${device}`,
    })),
    ...design.added.map(({ device, model, zone, way }): Change => ({
      kind: 'add',
      what: device,
      text: `put in ${device}, a ${model.name}${zone === undefined ? '' : ` at ${zone}`}${way === undefined ? '' : `, fed from ${way}`}`,
    })),
    ...design.unplugged.map((link): Change => {
      const what = `${endText(link.a)} -- ${endText(link.b)}`;
      return { kind: 'unplug', what, text: `take out the cable ${what}` };
    }),
    ...design.plugged.map(({ a, b, cable }): Change => {
      const what = `${textOf(a)} -- ${textOf(b)}`;
      return { kind: 'plug', what, text: `lead ${what}${cable === undefined ? '' : ` with ${cable}`}` };
    }),
    ...design.replugged.map(({ link, plug }): Change => {
      const what = `${endText(link.a)} -- ${endText(link.b)}`;
      return { kind: 'plug', what, text: `plug ${what} into ${textOf(plug)}` };
    }),
  ];
}

export interface FreePorts {
  readonly device: string;
  readonly count: number;
}

/** Ethernet ports that a design leaves free. */
export function freePortsOf({ analysis }: Offer): readonly FreePorts[] {
  const counts = new Map<string, number>();
  for (const { device, port, on } of analysis.ports)
    if (port.medium === 'ethernet' && on.length === 0) counts.set(device, (counts.get(device) ?? 0) + 1);
  return [...counts].map(([device, count]) => ({ device, count }));
}

export interface Dependence {
  readonly screen: string;
  /** Other screens that have to be on for it. */
  readonly on: readonly string[];
}

/** Which screens show what they have to only while another screen is on. */
export function dependencesOf(analysis: Analysis): readonly Dependence[] {
  const screens = new Set(analysis.screens);
  const found = new Map<string, Set<string>>();
  for (const need of analysis.needs)
    for (const { screen, visible, needsPowered } of need.answers) {
      const others = needsPowered.filter((device) => screens.has(device));
      if (visible !== true || others.length === 0) continue;
      const known = found.get(screen) ?? new Set();
      for (const other of others) known.add(other);
      found.set(screen, known);
    }
  return [...found].map(([screen, on]) => ({ screen, on: [...on] }));
}
