/** NMEA 0183 lines as plain data: who talks, who listens, at which speeds, and what the talker has to say. */
import type { Vessel } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import { statedRate } from '../../vessel/messages.js';
import { charactersOf, LISTENER_AMPS, sentence, share } from '../../vessel/serial.js';
import { carriageOf } from '../../vessel/signals.js';
import { compareText } from '../../vessel/words.js';
import type { PortOfDevice } from '../analysis.js';
import { talksTo } from '../wiring/fit.js';
import { portText, type ResolvedLink, type Wiring } from '../wiring/wiring.js';

/** A class A vessel under 14 kn reports every ten seconds (ITU-R M.1371). */
const SECONDS_PER_REPORT = 10;

export interface Listener extends PortOfDevice {
  readonly link: ResolvedLink;
  /** Its load in listeners of the standard, 2 mA each. */
  readonly units: number;
}

/** A sentence on a line, with the device that has said it first. */
export interface LineSentence {
  readonly formatter: string;
  readonly from: string;
  readonly characters: number | undefined;
  readonly hertz: number | undefined;
}

/** One talker's port with all that listens to it. */
export interface Line {
  /** The talker's port: `wind.talk`. */
  readonly id: string;
  readonly talker: PortOfDevice;
  readonly listeners: readonly Listener[];
  /** In bit/s; undefined where the talker does not say. */
  readonly baud: number | undefined;
  readonly sentences: readonly LineSentence[];
  /** What is known of the characters a second. */
  readonly charactersPerSecond: number;
  /** That as a share of what the line carries. */
  readonly share: number | undefined;
  /** Facts without which the characters are not known whole: "Wind10 does not say how often it sends VHW". */
  readonly missing: readonly string[];
  readonly units: number;
  /** How many listeners the driver carries; undefined where its model does not say. */
  readonly drives: number | undefined;
}

interface Draft {
  readonly talker: PortOfDevice;
  readonly listeners: Listener[];
}

interface Said {
  readonly sentences: readonly LineSentence[];
  readonly missing: readonly string[];
}

/** The lines of a vessel, by their talkers. Devices that leave in the refit are not part of them. */
export function computeLines(vessel: Vessel, lookup: Lookup, wiring: Wiring): readonly Line[] {
  const isGone = (device: string): boolean => lookup.device(device)?.leaving ?? true;
  const drafts = new Map<string, Draft>();
  /** The talker that a listening port hears. */
  const heardAt = new Map<string, string>();
  for (const link of [...wiring.links].sort((x, y) => compareText(x.link.origin, y.link.origin))) {
    const { a, b } = link;
    if (link.state !== 'made' || link.medium !== 'nmea0183' || a === undefined || b === undefined) continue;
    if (isGone(a.device) || isGone(b.device)) continue;
    for (const [talker, listener] of [
      [a, b],
      [b, a],
    ] as const) {
      if (!talksTo(talker.port, listener.port)) continue;
      const id = portText(talker);
      const draft = drafts.get(id) ?? { talker, listeners: [] };
      drafts.set(id, draft);
      const amps = listener.port.serial?.loadAmps;
      draft.listeners.push({ ...listener, link, units: amps === undefined ? 1 : amps / LISTENER_AMPS });
      heardAt.set(portText(listener), id);
    }
  }

  // A gateway says what the talkers that it hears have said: those come first. What goes round in a loop is told of by serial/loop,
  // and adds nothing that was not counted where it came in.
  const said = new Map<string, Said>();
  const heard = (port: PortOfDevice): string | undefined => heardAt.get(portText(port));
  for (const id of inOrder([...drafts.keys()].sort(compareText), (talker) => {
    const draft = drafts.get(talker);
    return draft === undefined ? [] : inputsOf(lookup, draft.talker).flatMap((port) => heard(port) ?? []);
  })) {
    const draft = drafts.get(id);
    if (draft === undefined) continue;
    const result = say(
      vessel,
      lookup,
      wiring,
      draft.talker,
      (port) => said.get(heard(port) ?? '') ?? NOTHING,
    );
    said.set(id, { sentences: merged(result.sentences), missing: [...new Set(result.missing)] });
  }

  return [...drafts]
    .map(([id, { talker, listeners }]): Line => {
      const { sentences, missing } = said.get(id) ?? NOTHING;
      const baud = speedOf(talker.port.serial?.talksBaud);
      const charactersPerSecond = sentences.reduce(
        (total, one) => total + (one.characters ?? 0) * (one.hertz ?? 0),
        0,
      );
      return {
        id,
        talker,
        listeners: [...listeners].sort((x, y) => compareText(portText(x), portText(y))),
        baud,
        sentences,
        charactersPerSecond,
        share: baud === undefined ? undefined : share(charactersPerSecond, baud),
        missing,
        units: listeners.reduce((total, listener) => total + listener.units, 0),
        drives: talker.port.serial?.drives,
      };
    })
    .sort((x, y) => compareText(x.id, y.id));
}

/** Far beyond any line; it keeps sums of sums finite. */
const MOST_HERTZ = 1e6;

const NOTHING: Said = { sentences: [], missing: [] };

/** Each after all that it depends on, as far as no circle keeps it from that. */
function inOrder(ids: readonly string[], needs: (id: string) => readonly string[]): readonly string[] {
  const order: string[] = [];
  const seen = new Set<string>();
  for (const first of ids) {
    const stack: { readonly id: string; readonly open: boolean }[] = [{ id: first, open: true }];
    for (let top = stack.pop(); top !== undefined; top = stack.pop()) {
      if (!top.open) {
        order.push(top.id);
        continue;
      }
      if (seen.has(top.id)) continue;
      seen.add(top.id);
      stack.push({ id: top.id, open: false });
      for (const id of needs(top.id)) if (!seen.has(id)) stack.push({ id, open: true });
    }
  }
  return order;
}

/** The listening ports from which a gateway fills a talking one. */
function inputsOf(lookup: Lookup, { device, port }: PortOfDevice): readonly PortOfDevice[] {
  if (port.sends.length > 0) return [];
  const names = (lookup.modelOf(device)?.passes ?? []).flatMap(({ from, to }) =>
    to === port.name ? from : [],
  );
  return [...new Set(names)].flatMap((name) => {
    const input = lookup.portOf(device, name);
    return input?.medium === 'nmea0183' ? [{ device, port: input }] : [];
  });
}

/** A sentence of one device that comes in by several ways goes out as often as by all of them together. */
function merged(sentences: readonly LineSentence[]): readonly LineSentence[] {
  const table = new Map<string, LineSentence>();
  for (const one of sentences) {
    const key = `${one.formatter} ${one.from}`;
    const known = table.get(key);
    const hertz =
      known === undefined
        ? one.hertz
        : known.hertz === undefined || one.hertz === undefined
          ? undefined
          : Math.min(known.hertz + one.hertz, MOST_HERTZ);
    table.set(key, { ...one, hertz });
  }
  return [...table.values()];
}

/** A speed in bit/s; a port that talks without saying how fast has none. */
export function speedOf(baud: number | undefined): number | undefined {
  return baud === 0 ? undefined : baud;
}

/** What a talker says: what its port states; what a gateway passes on; else the usual sentences of what its device gives. */
function say(
  vessel: Vessel,
  lookup: Lookup,
  wiring: Wiring,
  talker: PortOfDevice,
  heard: (port: PortOfDevice) => Said,
): Said {
  const { device, port } = talker;
  const model = lookup.modelOf(device);
  if (model === undefined) return { sentences: [], missing: [`${device} has no known model`] };
  const sentences: LineSentence[] = [];
  const missing: string[] = [];
  const add = (formatter: string, hertz: number | undefined): void => {
    const characters = charactersOf(formatter);
    const rate = hertz ?? (formatter === 'VDM' ? aisRate(vessel) : undefined);
    sentences.push({ formatter, from: device, characters, hertz: rate });
    if (characters === undefined) missing.push(`how long sentence ${formatter} of ${model.name} is`);
    if (rate !== undefined) return;
    missing.push(
      formatter === 'VDM'
        ? 'how many AIS targets to reckon with ("targets" of the vessel)'
        : `how often ${model.name} sends ${formatter}`,
    );
  };
  if (port.sends.length > 0) {
    for (const { message, hertz } of port.sends)
      add(message, hertz ?? rateOfCarried(lookup, device, message));
    return { sentences, missing };
  }
  const passes = model.passes.filter((passing) => passing.to === port.name);
  for (const { from, filter } of passes) {
    for (const name of from) {
      const input = lookup.portOf(device, name);
      if (input === undefined) continue;
      if (input.medium !== 'nmea0183') {
        if (wiring.useOf(device, name).length > 0)
          missing.push(`which sentences ${model.name} sends on ${port.name} of what it hears on ${name}`);
        continue;
      }
      const came = heard({ device, port: input });
      const isListed = (one: LineSentence): boolean => filter?.messages.includes(one.formatter) ?? false;
      sentences.push(
        ...came.sentences.filter((one) => filter === undefined || isListed(one) === (filter.kind === 'with')),
      );
      missing.push(...came.missing);
    }
  }
  if (passes.length > 0) return { sentences, missing };
  const usual = new Map<string, number | undefined>();
  for (const { signal, hertz } of model.gives)
    for (const formatter of carriageOf(vessel, signal)?.sentences ?? [])
      if (!usual.has(formatter)) usual.set(formatter, hertz);
  for (const [formatter, hertz] of usual) add(formatter, hertz);
  if (usual.size === 0) missing.push(`which sentences ${model.name} sends on ${port.name}`);
  return { sentences, missing };
}

/** The rate that a model gives for what a sentence brings, where its port states none. */
function rateOfCarried(lookup: Lookup, device: string, formatter: string): number | undefined {
  const model = lookup.modelOf(device);
  for (const signal of sentence(formatter)?.carries ?? []) {
    const hertz = statedRate(model, signal);
    if (hertz !== undefined) return hertz;
  }
  return undefined;
}

function aisRate(vessel: Vessel): number | undefined {
  return vessel.aisTargets === undefined ? undefined : vessel.aisTargets / SECONDS_PER_REPORT;
}
