/**
 * Each element taken away in turn, on data and power together: what the boat then no longer does. What is dark is as if it were not
 * there. A need is judged again only where what it rests on is touched: nothing that is taken away brings a picture back.
 */
import { devicesOfNeed } from '../../vessel/options/names.js';
import { once } from '../once.js';
import { terminalId } from '../power/supply/banks.js';
import type { Failure, FailureReport, NeedSurvival } from '../analysis.js';
import type { Context } from '../context.js';
import { elementsOf, type Element } from './elements.js';
import { createJudge } from './judge.js';
import { ALL_WELL, createLights, type Lit, type Outage } from './lit.js';
import { lowers, remainsOf } from './remains.js';
import { supportsOf, type Support } from './supports.js';
import { computeVoltages } from './voltages.js';

export function computeFailures(context: Context): FailureReport {
  const { vessel } = context;
  const lights = createLights(context);
  const before = lights(ALL_WELL);
  const supports = supportsOf(context);
  const judge = createJudge(context);
  const ground: Ground = { context, judge, lights, before, supports };
  const events = elementsOf(context).map((element) => ({ element, outage: outageOf(element) }));
  const failures = events.map(({ element, outage }) => failureOf(element, outage, ground));
  return {
    failures,
    needs: survivals(context, failures),
    voltages: once(() =>
      computeVoltages(
        context,
        events.map((event, index) => ({ ...event, dark: failures[index]?.devicesDark ?? [] })),
      ),
    ),
    notAnalysed: [
      ...context.needs
        .filter(({ index, met }) => met !== true || vessel.needs[index]?.kind === 'cost')
        .map(({ spot, text, met, reason }) => ({
          spot,
          what: `need ${text}`,
          why:
            met === true
              ? 'what the boat costs does not hang on what fails'
              : met === null
                ? (reason ?? 'it is not judged')
                : 'it is not met with everything aboard',
        })),
      ...context.panes
        .filter((pane) => pane.shown.visible !== true)
        .map(({ pane, view, shown }) => ({
          spot: { origin: pane.origin },
          what: `pane ${view.name}/${pane.name}`,
          why: shown.reason ?? 'it does not show with everything aboard',
        })),
      ...(vessel.feeds.length === 0
        ? [{ spot: { origin: vessel.origin }, what: 'power', why: 'no feed is declared' }]
        : vessel.devices
            .filter((device) => !device.leaving && !before.devices.has(device.name))
            .map((device) => ({
              spot: { origin: device.origin },
              what: `power of ${device.name}`,
              why: 'nothing powers it as the boat lies',
            }))),
    ],
  };
}

/** The needs that are met with everything aboard, each with what alone costs it. */
function survivals({ vessel, needs }: Context, failures: readonly Failure[]): readonly NeedSurvival[] {
  return needs.flatMap(({ index, met, text, spot }): readonly NeedSurvival[] => {
    if (met !== true || vessel.needs[index]?.kind === 'cost') return [];
    return [
      {
        text,
        spot,
        costBy: failures.filter(({ needsLost }) => needsLost.includes(text)),
        otherPath: failures.filter(({ otherPath }) => otherPath.includes(text)),
      },
    ];
  });
}

interface Ground {
  readonly context: Context;
  readonly judge: ReturnType<typeof createJudge>;
  readonly lights: (outage: Outage) => Lit;
  readonly before: Lit;
  readonly supports: readonly Support[];
}

function failureOf(
  element: Element,
  outage: Outage,
  { context, judge, lights, before, supports }: Ground,
): Failure {
  const { drop } = outage;
  const after = lights(outage);
  const dark = [...before.devices].filter((name) => name !== element.device && !after.devices.has(name));
  const silent = new Set([...before.backbones].filter((name) => !after.backbones.has(name)));
  if (element.backbone !== undefined) silent.add(element.backbone);
  const gone = new Set([...outage.devices, ...dark]);
  const touched = supports.filter(
    ({ devices, links, backbones }) =>
      meet(devices, gone) ||
      meet(links, outage.links) ||
      meet(backbones, silent) ||
      (drop !== undefined && backbones.has(drop.backbone) && drop.devices.some((one) => devices.has(one))),
  );
  const lost = judge({ devices: gone, links: outage.links, backbones: silent, drop }, touched);
  const name = ({ text }: Support): string => text;
  const of = (kind: Support['kind'], isLost: boolean): readonly string[] =>
    touched.filter((one) => one.kind === kind && lost.has(one) === isLost).map(name);
  const hours = hoursLost(context, outage, after);
  return {
    kind: element.kind,
    name: element.name,
    what: element.what,
    spot: element.at,
    needsLost: [...of('need', true), ...hours],
    viewsLost: of('pane', true),
    devicesDark: dark.sort(),
    enginesLost: enginesLost(context, element, before, after),
    otherPath: [...of('need', false), ...of('pane', false)],
  };
}

/** Engines of which a starter had its supply and has it no longer; what is gone itself is none of them. */
function enginesLost({ loads }: Context, element: Element, before: Lit, after: Lit): readonly string[] {
  const lost = loads.starters.filter(
    ({ terminal, device }) =>
      device !== element.device && before.terminals.has(terminal) && !after.terminals.has(terminal),
  );
  return [...new Set(lost.map(({ device }) => device))].sort();
}

/**
 * Needs for hours on a bank that no longer hold: the bank is gone, or what charges it or is to be cranked from it. What only takes
 * other loads away lengthens them.
 */
function hoursLost(context: Context, outage: Outage, { terminals }: Lit): readonly string[] {
  const { vessel, supply, lookup, needs } = context;
  const cutsOff = lowers(supply, outage);
  const isTouched = (device: string): boolean =>
    outage.devices.has(device) ||
    (lookup
      .modelOf(device)
      ?.ports.some(({ name, medium }) => medium === 'dc' && !terminals.has(terminalId(device, name))) ??
      false);
  const asked = needs.flatMap(({ index, met, text }) => {
    const need = vessel.needs[index];
    if (met !== true || need?.kind !== 'last') return [];
    return cutsOff || devicesOfNeed(need).some(isTouched) ? [{ need, text }] : [];
  });
  const remains = asked.length === 0 ? undefined : remainsOf(context, outage);
  if (remains === undefined) return [];
  const { lasting } = remains.energy();
  return asked.filter(({ need }) => lasting(need).met !== true).map(({ text }) => text);
}

const outageOf = (element: Element): Outage => ({
  devices: new Set(element.device === undefined ? [] : [element.device]),
  links: new Set(element.link === undefined ? [] : [element.link]),
  backbones: new Set(element.backbone === undefined ? [] : [element.backbone]),
  drop: element.drop,
  cuts: element.cuts,
});

function meet(some: ReadonlySet<string>, others: ReadonlySet<string>): boolean {
  for (const one of others) if (some.has(one)) return true;
  return false;
}
