import type { BankDay } from '../../checks/power/energy/days.js';
import type { BankFlow } from '../../checks/power/energy/flow.js';
import { count } from '../../vessel/words.js';
import { rounded } from './feeds.js';
import type { Column, ListKind, Row } from './listing.js';

const figure = (field: string, title: string, text: string): Column => ({
  field,
  title,
  type: 'number',
  ifNull: '',
  text,
});

export const ENERGY: ListKind = {
  what: 'energy',
  summary: 'how long each bank lasts in each mode, and how it fares over each day',
  columns: [
    { field: 'bank', title: 'Bank', type: 'string', text: 'The battery.' },
    {
      field: 'mode',
      title: 'Mode',
      type: 'string',
      ifNull: '',
      text: 'The mode; null for a day, and where no mode is declared and everything is on.',
    },
    { field: 'day', title: 'Day', type: 'string', ifNull: '', text: 'The day; null for a mode.' },
    figure(
      'usableAmpHours',
      'Usable Ah',
      'What may be taken of a full bank; null for a day, and where it is not known.',
    ),
    figure(
      'averageAmps',
      'Average A',
      'What it gives in the mode, less what charges; negative where it is charged, null for a day or where it is not known.',
    ),
    figure(
      'hoursLow',
      'Lasts h',
      'From full to its planned depth; null for a day, where it is not known, and where nothing is taken.',
    ),
    figure(
      'hoursHigh',
      'to h',
      'The same by the lower exponent, where the model states none; null with hoursLow.',
    ),
    figure('outAmpHours', 'Out Ah', 'Taken out over the day; null for a mode.'),
    figure('inAmpHours', 'In Ah', 'Put in over the day that comes out again; null for a mode.'),
    figure('lowestPercent', 'Down to %', 'The least that it holds over the day; null for a mode.'),
    {
      field: 'comesBack',
      title: 'Comes back',
      type: 'boolean',
      ifNull: '',
      text: 'Whether each day ends as full as it began, sooner or later; null for a mode.',
    },
    figure(
      'daysToDepth',
      'Too deep on day',
      'The day on which it is drawn deeper than planned; null where it never is, and for a mode.',
    ),
    {
      field: 'unknown',
      title: 'Unknown',
      type: 'string',
      ifNull: '',
      text: 'The fact without which a figure is missing, or no more than a bound; null where none is.',
    },
  ],
  list: ({ analysis }) => {
    const { energy } = analysis;
    const flows = energy.modes.flatMap((mode) => energy.flowsIn(mode));
    const days = energy.days();
    const order = [...new Set([...flows, ...days].map(({ bank }) => bank.device))];
    const rows = order.flatMap((bank) => [
      ...flows.filter((flow) => flow.bank.device === bank).map(ofMode),
      ...days.filter((day) => day.bank.device === bank).map(ofDay),
    ]);
    const unknown = rows.filter((row) => row['unknown'] !== null).length;
    return {
      rows,
      summary: `${count(order.length, 'bank')} in ${count(energy.modes.length, 'mode')} and ${count(analysis.vessel.days.length, 'day')}: ${unknown} with something unknown.`,
    };
  },
};

const EMPTY = {
  mode: null,
  day: null,
  averageAmps: null,
  hoursLow: null,
  hoursHigh: null,
  outAmpHours: null,
  inAmpHours: null,
  lowestPercent: null,
  comesBack: null,
  daysToDepth: null,
};

function ofMode({ bank, mode, store, netAmps, hours, missing, atMost, atLeast }: BankFlow): Row {
  const finite = (value: number | undefined): number | null =>
    value === undefined || !Number.isFinite(value) ? null : rounded(value, 1);
  return {
    ...EMPTY,
    bank: bank.device,
    mode: mode?.name ?? null,
    usableAmpHours: rounded(store && store.ampHours * store.depth, 1),
    averageAmps: missing === undefined ? rounded(netAmps, 3) : null,
    hoursLow: finite(hours?.low),
    hoursHigh: finite(hours?.high),
    unknown: missing ?? atMost ?? atLeast ?? null,
  };
}

function ofDay({
  bank,
  day,
  outAmpHours,
  inAmpHours,
  lowest,
  comesBack,
  daysToDepth,
  missing,
}: BankDay): Row {
  return {
    ...EMPTY,
    bank: bank.device,
    day: day.name,
    usableAmpHours: null,
    outAmpHours: rounded(outAmpHours, 1),
    inAmpHours: rounded(inAmpHours, 1),
    lowestPercent: rounded(lowest * 100, 1),
    comesBack,
    daysToDepth: daysToDepth ?? null,
    unknown: missing ?? null,
  };
}
