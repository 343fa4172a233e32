/** Hover on a device: what a screen can show and by which path, who sees a source, and what is on each port. */
import type { Analysis, ViewAnswer } from '../../../checks/analysis.js';
import type { Device, Model } from '../../../vessel/model.js';
import { grouped, signalsBySource } from './answers.js';
import { heardByLines, hearsLines, horizonLines } from './data.js';
import { gatewayLines } from './gateway.js';
import { portLines } from './lines.js';
import { bankLines } from './power.js';
import { marginLines, panelLines, wayLines } from './supply.js';
import { bold, code, escape, portFacts, price, rows, type Card } from './card.js';

export function deviceCard(device: Device, analysis: Analysis): Card {
  const models = device.models.map((name) => analysis.vessel.models[name]);
  const model = models[0];
  const lines: string[] = [];
  if (models.length > 1)
    lines.push(`Open choice: ${device.models.map(code).join(' or ')}; the first is the base.`);
  lines.push(place(device));
  if (model) lines.push(goods(model, device));
  if (model?.class === 'battery') lines.push(...bankLines(device.name, analysis));
  lines.push(
    ...shows(device.name, analysis),
    ...seenBy(device.name, analysis),
    ...hearsLines(device.name, analysis),
    ...heardByLines(device.name, analysis),
    ...(model ? gatewayLines(device.name, model, analysis) : []),
    ...(model?.class === 'antenna' ? horizonLines(device.name, analysis) : []),
    ...(model?.class === 'panel' ? panelLines(device.name, analysis) : []),
    ...ports(device.name, analysis),
  );
  const title = model?.title === undefined ? '' : `, ${escape(model.title)}`;
  return {
    heading: `${bold(device.name)} : ${device.models.map(code).join(' or ')}${model ? ` (${model.class}${title})` : ''}`,
    lines,
    doc: [device.doc, device.note === undefined ? undefined : escape(device.note)]
      .filter((text) => text !== undefined)
      .join('\n\n'),
  };
}

function place(device: Device): string {
  const parts = [device.zone === undefined ? 'Place not said' : `At ${escape(device.zone)}`];
  if (device.back !== undefined) parts.push(`its back in ${escape(device.back)}`);
  if (device.existing) parts.push('already aboard');
  if (device.leaving) parts.push('comes out');
  return `${parts.join(', ')}.`;
}

function goods(model: Model, device: Device): string {
  const parts: string[] = [];
  if (model.families.length > 0) parts.push(`family ${escape(model.families.join(', '))}`);
  if (model.part !== undefined) parts.push(`part ${escape(model.part)}`);
  const cost = device.existing ? undefined : price(model.price);
  if (cost !== undefined) parts.push(cost);
  return parts.join(' · ');
}

/** Most pairs of screen and source that one hover works out. */
const MOST_ANSWERS = 200;

function shows(screen: string, analysis: Analysis): string[] {
  if (!analysis.screens.includes(screen)) return [];
  const sources = analysis.sources.filter((s) => s.source !== screen).slice(0, MOST_ANSWERS);
  const answers = sources.map((s) => analysis.answer(screen, s.source, s.signal));
  return [
    ...grouped('Shows', seen(answers, true), signalsBySource),
    ...grouped("Can't show", seen(answers, false), signalsBySource),
    ...grouped('Not known', seen(answers, null), signalsBySource),
  ];
}

/** Who sees what a device gives, or what is plugged into a black box. */
function seenBy(source: string, analysis: Analysis): string[] {
  const signals = analysis.standsFor(source);
  if (signals.length === 0) return [];
  const screens = analysis.screens.filter((screen) => screen !== source);
  const answers = screens
    .flatMap((screen) => signals.map((s) => analysis.answer(screen, s.source, s.signal)))
    .slice(0, MOST_ANSWERS);
  const subject = (group: readonly ViewAnswer[]): string => screensOf(group, source, signals.length);
  return [
    ...grouped('Seen on', seen(answers, true), subject),
    ...grouped('Not on', seen(answers, false), subject),
    ...grouped('Not known', seen(answers, null), subject),
  ];
}

const seen = (answers: readonly ViewAnswer[], visible: boolean | null): ViewAnswer[] =>
  answers.filter((answer) => answer.visible === visible);

/** "plotter", or "bowScreen (position, course)" where not all that the source gives is meant. */
function screensOf(answers: readonly ViewAnswer[], source: string, all: number): string {
  const byScreen = new Map<string, ViewAnswer[]>();
  for (const answer of answers) byScreen.set(answer.screen, [...(byScreen.get(answer.screen) ?? []), answer]);
  return [...byScreen]
    .map(([screen, own]) => {
      if (own.length === all && own.every((answer) => answer.source === source)) return screen;
      const what = own.every((answer) => answer.source === source)
        ? own.map((answer) => answer.signal).join(', ')
        : signalsBySource(own);
      return `${screen} (${what})`;
    })
    .join(', ');
}

function ports(device: string, analysis: Analysis): string[] {
  const ways = new Set(analysis.power.panel(device)?.ways.map(({ port }) => port.name));
  const uses = analysis.ports.filter((use) => use.device === device && !ways.has(use.port.name));
  if (uses.length === 0) return [];
  return [
    '**Ports**',
    ...rows(
      uses.map((use) => {
        const on = use.on.length === 0 ? 'free' : use.on.map(({ what }) => escape(what)).join(', ');
        return `${code(use.port.name)} ${escape(portFacts(use.port))}: ${on}`;
      }),
    ),
  ];
}

/** One port of a device: what is on it, or that it is free. */
export function portCard(device: string, port: string, analysis: Analysis): Card | undefined {
  const use = analysis.ports.find((u) => u.device === device && u.port.name === port);
  if (!use) return undefined;
  return {
    heading: bold(`${device}.${port}`),
    lines: [
      escape(portFacts(use.port)),
      use.on.length === 0 ? 'Free.' : `On it: ${use.on.map(({ what }) => escape(what)).join(', ')}.`,
      ...portLines(`${device}.${port}`, analysis),
      ...wayLines(device, port, analysis),
      ...marginLines(`${device}.${port}`, analysis),
    ],
  };
}
