/** A comparison for a reader in a terminal. The summary comes last: that is where one looks first. */
import { count, metres, number } from '../../vessel/words.js';
import { isSame } from './compare.js';
import type { Change, Comparison, Figure, Money, SupplyChange } from './model.js';

interface Section {
  /** What is different aboard, or what follows from it. */
  readonly kind: 'aboard' | 'follows';
  readonly title: string;
  readonly lines: readonly string[];
}

export const NOTHING = 'No change aboard.';

export function comparisonText(found: Comparison): string {
  if (isSame(found)) return `${NOTHING}\n`;
  const sections = sectionsOf(found).map(({ title, lines }) =>
    [`${title}:`, ...lines.map((line) => `  ${line}`), ''].join('\n'),
  );
  return [...sections, ...summaryOf(found), ''].join('\n');
}

const WORDS: Readonly<Record<Change['action'], string>> = {
  added: '+',
  removed: '-',
  renamed: '=',
  exchanged: '~',
  moved: '~',
  changed: '~',
  replugged: '~',
};

function changeLine({ action, name, before, after }: Change): string {
  const sign = WORDS[action];
  switch (action) {
    case 'added':
      return `${sign} ${name}: ${after ?? ''}`;
    case 'removed':
      return `${sign} ${name}: ${before ?? ''}`;
    case 'renamed':
      return `${sign} ${before ?? ''} is called ${after ?? ''} now`;
    default:
      return `${sign} ${name} ${action}: ${before === '' ? 'nothing' : (before ?? '')} -> ${after === '' ? 'nothing' : (after ?? '')}`;
  }
}

/** `panel.1 -> plotter: wire 2.5 mm2 -> 4 mm2; 11.9 V -> 12.1 V arrive` */
function supplyLine(change: SupplyChange): string {
  return `${change.at}: ${supplyFigures(change).join('; ')}`;
}

export function supplyFigures({ wire, protection, amps, volts }: SupplyChange): readonly string[] {
  const figure = <T extends string | number>(
    found: Figure<T> | null,
    textOf: (value: T) => string,
    none: string,
  ): readonly string[] =>
    found === null
      ? []
      : [[found.before, found.after].map((side) => (side === null ? none : textOf(side))).join(' -> ')];
  return [
    ...figure(wire, (size) => size, 'unknown wire').map((text) => `wire ${text}`),
    ...figure(protection, (fuses) => fuses, 'no fuse'),
    ...figure(amps, (value) => `${number(value, 1)} A`, 'unknown A'),
    ...figure(volts, (value) => `${number(value)} V`, 'unknown V'),
  ];
}

export function sectionsOf(found: Comparison): readonly Section[] {
  const changes = (title: string, what: Change['what']): Section => ({
    kind: 'aboard',
    title,
    lines: found.changes.filter((one) => one.what === what).map(changeLine),
  });
  const both = (
    title: string,
    { gained, lost }: Comparison['views'],
    more = 'gained',
    less = 'lost',
  ): Section => ({
    kind: 'follows',
    title,
    lines: [...lost.map((text) => `${less}: ${text}`), ...gained.map((text) => `${more}: ${text}`)],
  });
  const all: readonly Section[] = [
    changes('Devices', 'device'),
    changes('Cables', 'cable'),
    changes('Feeds', 'feed'),
    changes('Buses', 'bus'),
    { kind: 'aboard', title: 'Volts, amperes, wires and fuses', lines: found.supply.map(supplyLine) },
    both('Needs', found.needs, 'met now', 'no longer met'),
    both('Asked of the boat', found.asked, 'asked now', 'no longer asked'),
    both('Views', found.views),
    both('Findings', found.findings, 'new', 'gone'),
    both('Single points of failure', found.singlePoints, 'new', 'gone'),
  ];
  return all.filter(({ lines }) => lines.length > 0);
}

export function summaryOf(found: Comparison): readonly string[] {
  const { needs, views, findings, regression, metres: length } = found;
  const verdict = [
    regression ? 'Regression' : 'No regression',
    `${count(needs.lost.length, 'need')} and ${count(views.lost.length, 'view')} lost, ${count(findings.newErrors, 'new error')}`,
    `${count(needs.gained.length, 'need')} and ${count(views.gained.length, 'view')} gained, ${findings.fixedErrors} fixed`,
  ];
  const unknown = length.unknown > 0 ? `, ${length.unknown} of unknown length` : '';
  return [
    `${verdict[0] ?? ''}: ${verdict.slice(1).join('; ')}.`,
    `Cable to pull ${metres(length.toPull)}, to take out ${metres(length.toTakeOut)}${unknown}.`,
    `${found.money.length === 0 ? 'No prices are known' : found.money.map(moneyText).join(', ')}; without a price ${found.unpriced.before} -> ${found.unpriced.after} lines.`,
  ].reverse();
}

function moneyText({ currency, before, after }: Money): string {
  const more = after - before;
  const sign = more < 0 ? '-' : '+';
  return `${sign}${number(Math.abs(more))} ${currency} (${number(before)} -> ${number(after)})`;
}
