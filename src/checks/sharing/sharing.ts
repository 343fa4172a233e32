/** Which screens can view which sources, by which path: the answers, worked out when asked for and remembered. */
import type { Vessel } from '../../vessel/model.js';
import type { Lookup } from '../../vessel/lookup.js';
import { anyCovers, covers, meet } from '../../vessel/signals.js';
import { listOf } from '../../vessel/words.js';
import type { SourceSignal, VerdictKind, ViewAnswer } from '../analysis.js';
import { hasEthernet, type Ethernet } from '../network/ethernet.js';
import type { Wiring } from '../wiring/wiring.js';
import { createBuses } from './bus.js';
import { deviceSpot } from './conditions.js';
import { createHosting, type Hosting } from './hosting.js';
import { createNearest, type Nearest } from './nearest.js';
import { answerFrom, standing, unknownAnswer, type Question } from './steps.js';
import { busWays, networkWays, ownWays, unlinked, USER_DATA, type Means } from './ways.js';

export interface BusRate {
  readonly hertz: number | undefined;
  readonly atLeast: boolean;
}

export interface Sharing {
  readonly answer: (screen: string, source: string, signal: string, off?: ReadonlySet<string>) => ViewAnswer;
  /** As `answer`, for a device that takes figures in (`need ... hear`): wanting a signal is enough. */
  readonly hears: (device: string, source: string, signal: string, off?: ReadonlySet<string>) => ViewAnswer;
  /**
   * False where it is plain without a search for reasons that neither a plug nor ethernet nor a bus joins the two; where it is
   * true, ask.
   */
  readonly mayReach: (device: string, source: string, signal: string) => boolean;
  /** How often a bus brings a signal from a source to a device: `atLeast` so often where nothing says it of every message. */
  readonly rate: (device: string, source: string, signal: string, off?: ReadonlySet<string>) => BusRate;
  /** What a device stands for: what it gives, what a black box hosts, the charts that a display shares. */
  readonly standsFor: (device: string, signal: string | undefined) => readonly SourceSignal[];
  readonly sources: readonly SourceSignal[];
  readonly screens: readonly string[];
  /** Every source of a signal, those near the screen first. */
  readonly sourcesOf: (signal: string, screen: string) => Iterable<SourceSignal>;
  readonly hosting: Hosting;
  readonly nearest: Nearest;
}

/** Prepare the sharing of a vessel. */
export function createSharing(vessel: Vessel, lookup: Lookup, wiring: Wiring, ethernet: Ethernet): Sharing {
  const hosting = createHosting(vessel, lookup, wiring);
  const nearest = createNearest(vessel, lookup, wiring, ethernet);
  const means: Means = {
    lookup,
    ethernet,
    hosting,
    nearest,
    wiring,
    buses: createBuses(vessel, lookup, wiring),
  };
  const aboard = vessel.devices.filter((device) => !device.leaving).map((device) => device.name);

  const ownSignals = (device: string, signal: string | undefined): readonly SourceSignal[] => {
    const model = lookup.modelOf(device);
    const fits = (given: string): boolean => signal === undefined || meet(given, signal);
    const narrow = (given: string): string =>
      signal !== undefined && covers(given, signal) ? signal : given;
    const given = (model?.gives ?? []).filter((give) => fits(give.signal));
    const list: SourceSignal[] = given.map((give) => ({
      source: device,
      signal: narrow(give.signal),
      grade: give.grade,
    }));
    if (model?.class === 'display') {
      for (const data of USER_DATA) {
        const shared = anyCovers(model.shares, data) && fits(data);
        if (shared && !list.some((one) => one.signal === data))
          list.push({ source: device, signal: data, grade: undefined });
      }
    }
    return list;
  };
  const standsFor = (device: string, signal: string | undefined): readonly SourceSignal[] => {
    const own = ownSignals(device, signal);
    if (lookup.modelOf(device)?.class !== 'sonar') return own;
    return [...own, ...hosting.hostedBy(device).flatMap((name) => ownSignals(name, signal))];
  };

  const ask = (question: Question): ViewAnswer => {
    const own = ownWays(means, question);
    const first = answerFrom(question, own);
    if (first.visible === true) return first;
    const attempts = [...own, ...networkWays(means, question), ...busWays(means, question)];
    return answerFrom(question, attempts.length > 0 ? attempts : [unlinked(means, question)]);
  };

  const work = (
    screen: string,
    source: string,
    signal: string,
    off: ReadonlySet<string>,
    hearing: boolean,
  ): ViewAnswer => {
    for (const name of [screen, source]) {
      if (lookup.modelOf(name) === undefined) {
        const why =
          lookup.device(name) === undefined
            ? `${name} is not declared`
            : `the model of ${name} is not declared`;
        return unknownAnswer(screen, source, signal, why);
      }
    }
    const emitters = standsFor(source, signal);
    if (emitters.length === 0 && screen === source && isBuiltIn(screen, signal)) {
      return ask({ screen, source, signal, grade: undefined, off, hearing });
    }
    if (emitters.length === 0) return nothingGiven(screen, source, signal);
    let best: ViewAnswer | undefined;
    for (const emitter of emitters) {
      const answer = ask({
        screen,
        source: emitter.source,
        signal: emitter.signal,
        grade: emitter.grade,
        off,
        hearing,
      });
      if (best === undefined || standing(answer.visible) > standing(best.visible)) best = answer;
      if (best.visible === true) break;
    }
    return best === undefined ? nothingGiven(screen, source, signal) : { ...best, source, signal };
  };

  /** A display has charts of its own whether or not it shares them. */
  const isBuiltIn = (device: string, signal: string): boolean => {
    const model = lookup.modelOf(device);
    return (
      model?.class === 'display' &&
      USER_DATA.some((data) => covers(data, signal)) &&
      anyCovers(model.shows, signal)
    );
  };

  const mayReach: Sharing['mayReach'] = (device, source, signal) => {
    const [from, to] = [lookup.modelOf(source), lookup.modelOf(device)];
    if (from === undefined || to === undefined || device === source) return true;
    if (from.class === 'display' || from.class === 'sonar' || hasEthernet(from)) return true;
    if (!from.gives.some((give) => covers(give.signal, signal))) return true;
    if (hosting.plugsOf(source).length > 0 || hosting.mayBeLinked(source, () => true)) return true;
    if (!means.buses.isOnBus(source) || means.buses.travels(source, signal).holds !== true) return true;
    const { arrivals, doubt, silent } = means.buses.reach(source, signal, NONE);
    return (
      arrivals.has(device) || doubt !== null || silent !== null || hosting.mayBeLinked(device, () => true)
    );
  };

  const nothingGiven = (screen: string, source: string, signal: string): ViewAnswer => {
    const model = lookup.modelOf(source);
    const spot = deviceSpot(lookup.device(source), source);
    const no = (verdict: VerdictKind, why: string): ViewAnswer => ({
      ...unknownAnswer(screen, source, signal, why),
      visible: false,
      verdict,
      hops: [{ device: source, port: undefined, why, spot }],
    });
    if (model === undefined)
      return unknownAnswer(screen, source, signal, `the model of ${source} is not declared`);
    if (model.class === 'sonar' && model.gives.length === 0 && hosting.hostedBy(source).length === 0) {
      if (hosting.mayBeLinked(source, () => true))
        return unknownAnswer(screen, source, signal, `a link that may be ${source}'s is not settled`);
      return no('not-linked', `nothing is plugged into ${source}, and it gives nothing of itself`);
    }
    if (model.class === 'display' || model.class === 'sonar')
      return no('not-shared', `${source} does not share ${signal}`);
    if (model.gives.length === 0)
      return unknownAnswer(screen, source, signal, `${model.name} does not say what it gives`);
    return no(
      'not-shared',
      `${source} does not give ${signal}: it gives ${listOf(model.gives.map((give) => give.signal))}`,
    );
  };

  const sources = aboard.flatMap((device) => ownSignals(device, undefined));
  const byRoot = new Map<string, SourceSignal[]>();
  for (const one of sources) {
    const root = rootOf(one.signal);
    const list = byRoot.get(root);
    if (list === undefined) byRoot.set(root, [one]);
    else list.push(one);
  }
  for (const list of byRoot.values())
    list.sort((x, y) => (x.source < y.source ? -1 : x.source > y.source ? 1 : 0));

  /** The networks and backbones that a device, or what it is plugged into, is on: the device itself too. */
  const areas = new Map<string, readonly string[]>();
  const areasOf = (device: string): readonly string[] => {
    const known = areas.get(device);
    if (known !== undefined) return known;
    const found = new Set<string>();
    for (const place of [device, ...hosting.plugsOf(device).map((plug) => plug.other.device)]) {
      found.add(`at ${place}`);
      for (const segment of ethernet.segmentsOf(place)) found.add(`segment ${segment.id}`);
      for (const name of means.buses.backbonesOf(place)) found.add(`backbone ${name}`);
    }
    const list = [...found];
    areas.set(device, list);
    return list;
  };
  /** The sources of each root by area. */
  let byArea: Map<string, Map<string, SourceSignal[]>> | undefined;
  const indexAreas = (): Map<string, Map<string, SourceSignal[]>> => {
    const index = new Map<string, Map<string, SourceSignal[]>>();
    for (const [root, list] of byRoot) {
      const there = new Map<string, SourceSignal[]>();
      index.set(root, there);
      for (const one of list) {
        for (const area of areasOf(one.source)) {
          const sources = there.get(area);
          if (sources === undefined) there.set(area, [one]);
          else sources.push(one);
        }
      }
    }
    return index;
  };
  function* nearFirst(signal: string, screen: string): Generator<SourceSignal> {
    byArea ??= indexAreas();
    const root = rootOf(signal);
    const there = byArea.get(root);
    if (there === undefined) return;
    const seen = new Set<SourceSignal>();
    const fresh = (one: SourceSignal): boolean => {
      if (seen.has(one) || !meet(one.signal, signal)) return false;
      seen.add(one);
      return true;
    };
    const narrow = (one: SourceSignal): SourceSignal =>
      one.signal !== signal && covers(one.signal, signal) ? { ...one, signal } : one;
    for (const area of areasOf(screen))
      for (const one of there.get(area) ?? []) if (fresh(one)) yield narrow(one);
    for (const one of byRoot.get(root) ?? []) if (fresh(one)) yield narrow(one);
  }

  const remembered = new Map<string, ViewAnswer>();
  const remember = (
    screen: string,
    source: string,
    signal: string,
    off: ReadonlySet<string>,
    hearing: boolean,
  ): ViewAnswer => {
    const without = off.size === 0 ? '' : [...off].sort().join('\n');
    const key = `${hearing ? 'hear' : 'show'}\n${screen}\n${source}\n${signal}\n${without}`;
    let answer = remembered.get(key);
    if (answer === undefined) remembered.set(key, (answer = work(screen, source, signal, off, hearing)));
    return answer;
  };
  return {
    answer: (screen, source, signal, off = NONE) => remember(screen, source, signal, off, false),
    hears: (device, source, signal, off = NONE) => remember(device, source, signal, off, true),
    mayReach,
    rate: (device, source, signal, off = NONE) => {
      const sent = means.buses.reach(source, signal, off).arrivals.get(device)?.sent ?? [];
      const rates = sent.flatMap(({ hertz }) => hertz ?? []);
      const hertz = rates.length === 0 ? undefined : Math.max(...rates);
      return { hertz, atLeast: rates.length > 0 && rates.length < sent.length };
    },
    standsFor,
    sources,
    screens: aboard.filter((name) => {
      const model = lookup.modelOf(name);
      return model !== undefined && (model.class === 'display' || model.shows.length > 0);
    }),
    sourcesOf: (signal, screen) => nearFirst(signal, screen),
    hosting,
    nearest,
  };
}

const NONE: ReadonlySet<string> = new Set();

function rootOf(signal: string): string {
  const dot = signal.indexOf('.');
  return dot < 0 ? signal : signal.slice(0, dot);
}
