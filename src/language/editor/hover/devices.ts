/** Hover on a device: what a screen can show and by which path, who sees a source, and what is on each port. */
import type { Analysis, ViewAnswer } from '../../../checks/analysis.js';
import type { Device, Model } from '../../../vessel/model.js';
import { bold, code, escape, portFacts, price, rows, type Card } from './card.js';

export function deviceCard(device: Device, analysis: Analysis): Card {
  const models = device.models.map((name) => analysis.vessel.models[name]);
  const model = models[0];
  const lines: string[] = [];
  if (models.length > 1)
    lines.push(`Open choice: ${device.models.map(code).join(' or ')}; the first is the base.`);
  lines.push(place(device));
  if (model) lines.push(goods(model, device));
  lines.push(
    ...shows(device.name, analysis),
    ...seenBy(device.name, analysis),
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
  const parts = [device.zone === undefined ? 'place not said' : `at ${device.zone}`];
  if (device.back !== undefined) parts.push(`its back in ${device.back}`);
  if (device.existing) parts.push('already aboard');
  if (device.leaving) parts.push('comes out');
  return `${parts.join(', ')}.`;
}

function goods(model: Model, device: Device): string {
  const parts: string[] = [];
  if (model.families.length > 0) parts.push(`family ${model.families.join(', ')}`);
  if (model.part !== undefined) parts.push(`part ${escape(model.part)}`);
  const cost = device.existing ? undefined : price(model.price);
  if (cost !== undefined) parts.push(cost);
  return parts.join(' · ');
}

/** "by network: plotter > hub" or why not. */
export function answerText(answer: ViewAnswer): string {
  if (answer.visible === true) {
    const way =
      answer.by === 'own' ? 'plugged into it' : answer.by === 'bus' ? 'by the bus' : 'by the network';
    const path = answer.path.length > 2 ? `: ${answer.path.join(' → ')}` : '';
    const powered = answer.needsPowered.length > 0 ? `; needs ${answer.needsPowered.join(', ')} on` : '';
    return `${way}${path}${powered}`;
  }
  const reason = answer.reason ?? answer.verdict;
  return answer.nearest === null ? reason : `${reason}; ${answer.nearest}`;
}

/** Most pairs of screen and source that one hover works out. */
const MOST_ANSWERS = 200;

function shows(screen: string, analysis: Analysis): string[] {
  if (!analysis.screens.includes(screen)) return [];
  const sources = analysis.sources.filter((s) => s.source !== screen).slice(0, MOST_ANSWERS);
  const answers = sources.map((s) => analysis.answer(screen, s.source, s.signal));
  return [
    ...grouped('Shows', answers, true, signalOf),
    ...grouped("Can't show", answers, false, signalOf),
    ...grouped('Not known', answers, null, signalOf),
  ];
}

function seenBy(source: string, analysis: Analysis): string[] {
  const signals = analysis.sources.filter((s) => s.source === source);
  if (signals.length === 0) return [];
  const screens = analysis.screens.filter((screen) => screen !== source);
  const answers = signals
    .flatMap((s) => screens.map((screen) => analysis.answer(screen, source, s.signal)))
    .slice(0, MOST_ANSWERS);
  const screenOf = (answer: ViewAnswer): string => answer.screen;
  return [
    ...grouped('Seen on', answers, true, screenOf),
    ...grouped('Not on', answers, false, screenOf),
    ...grouped('Not known', answers, null, screenOf),
  ];
}

const signalOf = (answer: ViewAnswer): string => `${answer.source} ${answer.signal}`;

/** Answers of one kind, those with the same reason together. */
function grouped(
  title: string,
  answers: readonly ViewAnswer[],
  visible: boolean | null,
  subject: (answer: ViewAnswer) => string,
): string[] {
  const byReason = new Map<string, string[]>();
  for (const answer of answers) {
    if (answer.visible !== visible) continue;
    const reason = answerText(answer);
    const list = byReason.get(reason) ?? [];
    const name = subject(answer);
    if (!list.includes(name)) list.push(name);
    byReason.set(reason, list);
  }
  if (byReason.size === 0) return [];
  return [
    `**${title}**`,
    ...rows([...byReason].map(([reason, subjects]) => `${subjects.join(', ')}: ${escape(reason)}`)),
  ];
}

function ports(device: string, analysis: Analysis): string[] {
  const uses = analysis.ports.filter((use) => use.device === device);
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
      portFacts(use.port),
      use.on.length === 0 ? 'Free.' : `On it: ${use.on.map(({ what }) => escape(what)).join(', ')}.`,
    ],
  };
}
