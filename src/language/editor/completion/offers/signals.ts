/** Signals: by themselves, of a device, and the sources of needs and panes. */
import type { Analysis } from '../../../../checks/analysis.js';
import type { Model } from '../../../../vessel/model.js';
import { isPointToPoint } from '../../../../checks/sharing/hosting.js';
import { carriageOf, covers } from '../../../../vessel/signals.js';
import type * as ast from '../../../generated/ast.js';
import type { Boat, DeviceAboard } from '../boat.js';
import { joined } from '../details.js';
import { around, type Place } from '../place.js';
import { textOf, textsOf } from '../reading/parts.js';
import { kinds, type Suggestion } from '../suggestion.js';
import { deviceItem } from './devices.js';
import { documented, written, type Offer } from './offer.js';

function signalItem(node: ast.SignalDecl, label = node.name, what?: string, rank = 0): Suggestion {
  const message = node.properties.map((property) => property.$cstNode?.text.replace(/\s+/g, ' ')).join(', ');
  return {
    label,
    kind: kinds.signal,
    detail: joined(label === node.name ? undefined : node.name, node.title, what, message),
    ...documented(node),
    rank,
  };
}

/** Every signal that is not in the list yet. */
export const signals: Offer = (place, boat) => {
  const there = written(place);
  return boat.declared('SignalDecl').flatMap(([name, node]) => (there.has(name) ? [] : [signalItem(node)]));
};

/** Signals of a model's `gives` or `wants`. */
export const rated: Offer = (place, boat) => {
  const property = around(place, 'RatesProperty');
  const there = new Set<string>();
  const whole = property && place.whole(property);
  for (let value = whole?.values; value; value = value.before)
    if (value.property === 'items' && 'id' in value.content) there.add(textOf(value.content, 'signal') ?? '');
  return boat.declared('SignalDecl').flatMap(([name, node]) => (there.has(name) ? [] : [signalItem(node)]));
};

/** Signals that something aboard gives. */
export const given: Offer = (place, boat) => givenWhere(place, boat, () => true);

/** Those of them that travel on a bus, and so can be heard. */
export const heard: Offer = (place, boat) => {
  const vessel = boat.analysis?.vessel;
  return givenWhere(place, boat, (name) => {
    const carriage = vessel && carriageOf(vessel, name);
    return !carriage || carriage.pgns.length + carriage.sentences.length > 0;
  });
};

function givenWhere(place: Place, boat: Boat, fits: (name: string) => boolean): Suggestion[] {
  const available = givenAboard(boat);
  const there = written(place);
  return boat.declared('SignalDecl').flatMap(([name, node]) => {
    const gives = available.filter(([, signal]) => covers(name, signal) || covers(signal, name));
    return there.has(name) || gives.length === 0 || !fits(name)
      ? []
      : [signalItem(node, name, byWhom(gives))];
  });
}

type Given = readonly [device: string, signal: string];

function givenAboard(boat: Boat): Given[] {
  return boat
    .devices()
    .flatMap(({ name, model }) => (model?.gives ?? []).map(({ signal }): Given => [name, signal]));
}

const byWhom = (gives: readonly Given[]): string => {
  const names = [...new Set(gives.map(([device]) => device))];
  return `from ${names.slice(0, 3).join(', ')}${names.length > 3 ? ', ...' : ''}`;
};

// ---------------------------------------------------------------- sources

/** Sources of a need or pane, then signals from anywhere. For a pane, only what its screen can show. */
export const sources: Offer = (place, boat) => {
  const visible = visibleOn(place, boat);
  const goal = around(place, 'NamedGoal');
  const screens = goal ? textsOf(goal, 'subjects') : screensOf(place);
  const devices = boat.devices().flatMap((device) => {
    if (screens.includes(device.name)) return [];
    const gives = signalsOf(device, boat).filter((signal) => visible(device.name, signal));
    return gives.length > 0 ? [deviceItem(device, gives.join(', '), device.model?.shows.length ? 1 : 0)] : [];
  });
  const available = boat.devices().flatMap((device) =>
    signalsOf(device, boat)
      .filter((signal) => visible(device.name, signal))
      .map((signal): Given => [device.name, signal]),
  );
  const anywhere = boat.declared('SignalDecl').flatMap(([name, node]) => {
    const gives = available.filter(([, signal]) => covers(name, signal));
    return gives.length > 0 && !boat.device(name) ? [signalItem(node, name, byWhom(gives), 2)] : [];
  });
  return [...devices, ...anywhere];
};

/** After `device.`: what it gives or hosts, without the first word where that is plain. After a signal: what it covers. */
export const tails: Offer = (place, boat) => {
  const head = textOf(place.part, 'head') ?? '';
  const all = boat.declared('SignalDecl');
  const device = boat.device(head);
  if (!device)
    return all.flatMap(([name, node]) =>
      name.startsWith(`${head}.`) ? [signalItem(node, name.slice(head.length + 1))] : [],
    );
  const visible = visibleOn(place, boat);
  return signalsOf(device, boat)
    .filter((signal) => visible(device.name, signal))
    .flatMap((signal) => {
      const node = all.find(([name]) => name === signal)?.[1];
      if (!node) return [];
      const grade = device.model?.gives.find((item) => item.signal === signal)?.grade;
      return [signalItem(node, shortest(signal, all), grade)];
    });
};

/** The signal without its first word, where no other signal is meant by that. */
function shortest(signal: string, all: readonly (readonly [string, ast.SignalDecl])[]): string {
  const short = signal.slice(signal.indexOf('.') + 1);
  const meant =
    all.find(([name]) => name === short) ??
    all.find(([name]) => name.endsWith(`.${short}`) && shortOf(name) === short);
  return meant?.[0] === signal ? short : signal;
}

const shortOf = (name: string): string => name.slice(name.indexOf('.') + 1);

/** What a device puts on screens: its own signals, what it shares of charts, and for a black box what is plugged into it. */
function signalsOf(device: DeviceAboard, boat: Boat): readonly string[] {
  const { analysis } = boat;
  const known = analysis && sourceTable(analysis);
  const own = known?.get(device.name) ?? signalsOfModel(device.model);
  if (device.model?.class !== 'sonar' || !analysis) return own;
  const hosted = analysis.links
    .filter(({ medium }) => medium !== undefined && isPointToPoint(medium))
    .flatMap(({ link: { a, b } }) =>
      a.device === device.name ? (b.device ?? []) : b.device === device.name ? (a.device ?? []) : [],
    );
  return [...new Set([...own, ...hosted.flatMap((name) => known?.get(name) ?? [])])];
}

const signalsOfModel = (model: Model | undefined): string[] => model?.gives.map(({ signal }) => signal) ?? [];

const sourceTables = new WeakMap<Analysis, ReadonlyMap<string, readonly string[]>>();

function sourceTable(analysis: Analysis): ReadonlyMap<string, readonly string[]> {
  let table = sourceTables.get(analysis);
  if (!table) {
    const found = new Map<string, string[]>(analysis.vessel.devices.map(({ name }) => [name, []]));
    for (const { source, signal } of analysis.sources) found.get(source)?.push(signal);
    sourceTables.set(analysis, (table = found));
  }
  return table;
}

// ---------------------------------------------------------------- what a screen can show

function screensOf(place: Place): string[] {
  const view = around(place, 'ViewDecl');
  const screen = view && textOf(view, 'screen');
  return screen === undefined ? [] : [screen];
}

/** A pane takes what its screen can show; a need may ask for what is not so yet. */
function visibleOn(place: Place, boat: Boat): (source: string, signal: string) => boolean {
  const [screen] = screensOf(place);
  const { analysis } = boat;
  if (screen === undefined || !analysis?.screens.includes(screen)) return () => true;
  const known = new Set(analysis.vessel.devices.map((device) => device.name));
  return (source, signal) => !known.has(source) || analysis.answer(screen, source, signal).visible !== false;
}
