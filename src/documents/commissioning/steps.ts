/** The commissioning sheet: what to test in order, each with the value that the analysis expects. */
import type { Analysis, ViewAnswer } from '../../checks/analysis.js';
import type { FeedResult } from '../../checks/power/sizing/feeds.js';
import { listOf, number } from '../../vessel/words.js';
import { numberCables } from '../numbering.js';
import { labelList } from '../schedules/schedules.js';
import { busTests } from './bus.js';

export const STAGES = ['power off', 'power on', 'screens', 'needs'] as const;

/** A test as it is worked out. */
export interface Test {
  readonly stage: (typeof STAGES)[number];
  readonly test: string;
  /** Where it is made. */
  readonly at: string;
  /** Null where the analysis does not know it. */
  readonly expected: string | null;
  /** The fact that is missing, or what else there is to know. */
  readonly note: string | null;
}

/** A test with its number on the sheet, from 1. */
export interface CommissioningRow extends Test {
  readonly number: number;
}

/** Every test in the order in which it is safe to make it: nothing is switched on before fuses, polarity and buses are right. */
export function commissioning(analysis: Analysis): readonly CommissioningRow[] {
  const tests = [
    ...labelTests(analysis),
    ...batteryTests(analysis),
    ...feedTests(analysis),
    ...busTests(analysis),
    ...screenTests(analysis),
    ...needTests(analysis),
  ];
  return STAGES.flatMap((stage) => tests.filter((test) => test.stage === stage)).map((test, index) => ({
    number: index + 1,
    ...test,
  }));
}

function labelTests(analysis: Analysis): readonly Test[] {
  const power = new Set(feedNumbers(analysis).values());
  const ends = new Map<string, string[]>();
  for (const { number: cable, at } of labelList(analysis))
    if (cable !== '') ends.set(cable, [...(ends.get(cable) ?? []), at]);
  return [...ends].map(([cable, at]) => ({
    stage: 'power off',
    test: power.has(cable)
      ? `ferrule or lug, and label, at each end of ${cable}`
      : `label at each end of ${cable}`,
    at: [...new Set(at)].join(' and '),
    expected: `${cable} at each`,
    note: null,
  }));
}

function feedNumbers(analysis: Analysis): ReadonlyMap<string, string> {
  const { of } = numberCables(analysis);
  return new Map(analysis.power.feeds().map(({ origin }) => [origin, of(origin) ?? '']));
}

function feedTests(analysis: Analysis): readonly Test[] {
  const feeds = analysis.power.feeds();
  return [
    ...feeds
      .filter((feed, index) => feeds.findIndex(({ origin }) => origin === feed.origin) === index)
      .flatMap(fuses),
    ...feeds.map((feed): Test => ({
      stage: 'power off',
      test: 'polarity, by continuity before it is plugged in',
      at: feed.to,
      expected: `L+ through to ${feed.from}, L- through to its negative`,
      note: null,
    })),
    ...feeds.filter((feed) => feed.kind === 'feed' && !charges(analysis, feed)).map(volts),
  ];
}

/** What charges or joins batteries, or cranks, has another voltage whenever an engine runs: no steady figure is expected of it. */
function charges({ vessel }: Analysis, { from, to, crankingAmps }: FeedResult): boolean {
  if (crankingAmps !== undefined) return true;
  const classOf = (terminal: string): string | undefined => {
    const name = terminal.split('.')[0];
    const device = vessel.devices.find((one) => one.name === name);
    return vessel.models[device?.models[0] ?? '']?.class;
  };
  const joining = ['battery', 'combiner', 'chargesplitter'];
  return (
    joining.includes(classOf(to) ?? '') ||
    ['combiner', 'chargesplitter', 'solar'].includes(classOf(from) ?? '')
  );
}

const fuses = (feed: FeedResult): readonly Test[] =>
  feed.protection.map(({ device, amps, type, at }) => ({
    stage: 'power off',
    test: `${device} of ${feed.from} to ${feed.to}`,
    at: at ?? feed.from,
    expected: amps === undefined ? null : `${number(amps, 1)} A${type === undefined ? '' : ` ${type}`}`,
    note: amps === undefined ? (feed.missing ?? 'its rating is not known') : null,
  }));

/** The voltage is that of the nominal battery at the most that is drawn; less load leaves more. */
const volts = (feed: FeedResult): Test => ({
  stage: 'power on',
  test: 'voltage with everything on it switched on',
  at: feed.to,
  expected:
    feed.loadVolts === undefined
      ? null
      : `${number(feed.loadVolts)} V or more with the battery at its nominal voltage`,
  note:
    feed.loadVolts === undefined
      ? (feed.missing ?? 'its voltage is not known')
      : feed.dropVolts === undefined
        ? null
        : `${number(feed.dropVolts)} V lost at the most`,
});

function batteryTests({ vessel }: Analysis): readonly Test[] {
  return vessel.devices.flatMap((device): Test[] => {
    const model = vessel.models[device.models[0] ?? ''];
    if (model?.class !== 'battery' || device.leaving) return [];
    const total = model.volts === undefined ? undefined : model.volts * (device.series ?? 1);
    return [
      {
        stage: 'power on',
        test: 'voltage at rest, before anything is switched on',
        at: device.name,
        expected: total === undefined ? null : `above ${number(total)} V, its nominal voltage`,
        note: total === undefined ? `${model.name} does not state its voltage` : null,
      },
    ];
  });
}

/** Every source on every screen that can show it, by its path; what is not known is tested and said to be unknown. */
function screenTests(analysis: Analysis): readonly Test[] {
  const answers = analysis.screens.flatMap((screen) =>
    analysis.sources.map(({ source, signal }) => analysis.answer(screen, source, signal)),
  );
  const groups = new Map<string, ViewAnswer[]>();
  for (const answer of answers) {
    if (answer.visible === false) continue;
    const key = [answer.screen, answer.source, ...answer.path, answer.visible, answer.reason].join('\n');
    groups.set(key, [...(groups.get(key) ?? []), answer]);
  }
  return [...groups.values()].flatMap((group): Test[] => {
    const [first] = group;
    if (first === undefined) return [];
    const signals = [...new Set(group.map(({ signal }) => signal))];
    return [
      {
        stage: 'screens',
        test: `${first.source}: ${signals.join(', ')}`,
        at: first.screen,
        expected: first.visible === null ? null : pathText(first),
        note: first.visible === null ? first.reason : needsPower(first),
      },
    ];
  });
}

const pathText = ({ path, by }: ViewAnswer): string =>
  path.length < 2 ? 'shown, its own' : `shown, by ${path.join(' - ')}${by === 'bus' ? ' over the bus' : ''}`;

const needsPower = ({ needsPowered }: ViewAnswer): string | null =>
  needsPowered.length === 0 ? null : `with ${listOf(needsPowered)} on`;

/** What a boat costs is not tested aboard. */
function needTests({ needs, vessel }: Analysis): readonly Test[] {
  const aboard = needs.filter(({ index }) => vessel.needs[index]?.kind !== 'cost');
  return aboard.map(({ text, met, reason }) => ({
    stage: 'needs',
    test: text,
    at: 'aboard',
    expected: met === null ? null : met ? 'holds' : 'does not hold as specified',
    note: reason,
  }));
}
