/** What one failure costs: by what fails, by need, and the voltages that are left. */
import type { FailureReport } from '../../checks/analysis.js';
import type { Spot } from '../../vessel/origin.js';
import { count, listOf, number } from '../../vessel/words.js';
import { WHERE_COLUMNS, type Column, type ListKind, type PlaceOf } from './listing.js';

const REASON: Column = {
  field: 'reason',
  title: 'Why not',
  type: 'string',
  ifNull: '',
  text: 'Why it is not analysed; null for what is.',
};

/** Names beyond which a table says how many more there are: a battery costs everything. */
const MOST_NAMES = 4;

const whereIn =
  (placeOf: PlaceOf) =>
  (spot: Spot): { readonly file: string | null; readonly line: number | null } => {
    const place = placeOf(spot);
    return { file: place?.file ?? null, line: place ? place.range.start.line + 1 : null };
  };

/** `hub, panel, house and 3 more`, for a table. */
const shortly = (names: readonly string[]): string =>
  names.length <= MOST_NAMES + 1 ? names.join(', ') : listOf(names, 'and', MOST_NAMES);

export const FAILURES: ListKind = {
  what: 'failures',
  summary: 'what the boat no longer does when one thing aboard fails',
  columns: [
    {
      field: 'kind',
      title: 'Kind',
      type: 'string',
      values: ['device', 'cable', 'bus', 'feed', 'fuse', 'not analysed'],
      text: 'What fails; "not analysed" for a need, a pane or a supply that is not there to be lost.',
    },
    {
      field: 'element',
      title: 'Fails',
      type: 'string',
      text: 'Its name, or the two ends of what joins them.',
    },
    {
      field: 'what',
      title: 'What',
      type: 'string',
      ifNull: '',
      text: "A device's class, a cable's medium, drop, feed or tap, fuse or breaker; null for what is not analysed.",
    },
    {
      field: 'needsLost',
      title: 'Needs lost',
      type: 'strings',
      text: 'Needs that are met, and would not be.',
    },
    {
      field: 'viewsLost',
      title: 'Views lost',
      type: 'strings',
      text: 'Panes of views that show what they should, and would not, as Drift/left.',
    },
    { field: 'devicesDark', title: 'Dark', type: 'strings', text: 'Other devices that would have no power.' },
    {
      field: 'enginesLost',
      title: 'Cannot start',
      type: 'strings',
      text: 'Engines whose starter would have no supply as the switches stand.',
    },
    {
      field: 'otherPath',
      title: 'Another path',
      type: 'strings',
      text: 'Needs and panes that rest on it and would still hold by another path.',
    },
    REASON,
    ...WHERE_COLUMNS,
  ],
  list: ({ analysis }, placeOf) => {
    const { failures, notAnalysed } = analysis.failures();
    const where = whereIn(placeOf);
    const rows = [
      ...failures.map((one) => ({
        kind: one.kind,
        element: one.name,
        what: one.what,
        needsLost: one.needsLost,
        viewsLost: one.viewsLost,
        devicesDark: one.devicesDark,
        enginesLost: one.enginesLost,
        otherPath: one.otherPath,
        reason: null,
        ...where(one.spot),
      })),
      ...notAnalysed.map(({ what, why, spot }) => ({
        kind: 'not analysed',
        element: what,
        what: null,
        needsLost: [],
        viewsLost: [],
        devicesDark: [],
        enginesLost: [],
        otherPath: [],
        reason: why,
        ...where(spot),
      })),
    ];
    return { rows, summary: summaryOf(analysis.failures()) };
  },
};

function summaryOf({ failures, notAnalysed }: FailureReport): string {
  const costing = failures.filter((one) => one.needsLost.length > 0);
  const nothing = failures.filter(
    (one) =>
      one.needsLost.length + one.viewsLost.length + one.devicesDark.length + one.enginesLost.length === 0,
  );
  return `${count(failures.length, 'failure')}: ${costing.length} cost a need, ${nothing.length} cost nothing; ${notAnalysed.length} not analysed.`;
}

export const FAILURES_BY_NEED: ListKind = {
  what: 'failures-by-need',
  summary: 'which single failures cost each need',
  columns: [
    { field: 'need', title: 'Need', type: 'string', text: 'The need, as it is written.' },
    {
      field: 'survives',
      title: 'Survives any',
      type: 'boolean',
      ifNull: 'not analysed',
      text: 'Whether it holds whatever one thing fails; null where it is not met, or is not judged, with everything aboard.',
    },
    {
      field: 'failures',
      title: 'Failures',
      type: 'number',
      ifNull: '',
      text: 'How many single failures cost it; null where that is not analysed.',
    },
    {
      field: 'devices',
      title: 'Devices',
      type: 'strings',
      text: 'Devices whose failure alone costs it.',
      only: 'data',
    },
    {
      field: 'cables',
      title: 'Cables',
      type: 'strings',
      text: 'Cables and buses whose failure alone costs it.',
      only: 'data',
    },
    {
      field: 'supply',
      title: 'Feeds',
      type: 'strings',
      text: 'Feeds and fuses whose failure alone costs it.',
      only: 'data',
    },
    { field: 'lostWith', title: 'Lost with', type: 'string', text: 'The same in short.', only: 'table' },
    {
      field: 'otherPath',
      title: 'Another path',
      type: 'strings',
      text: 'What it rests on, and would be reached without.',
      only: 'data',
    },
    { field: 'besides', title: 'Another path', type: 'string', text: 'The same in short.', only: 'table' },
    REASON,
    ...WHERE_COLUMNS,
  ],
  list: ({ analysis }, placeOf) => {
    const { needs, notAnalysed } = analysis.failures();
    const where = whereIn(placeOf);
    const rows = needs.map(({ text, spot, costBy, otherPath }) => {
      const named = (...kinds: readonly string[]): readonly string[] =>
        costBy.filter(({ kind }) => kinds.includes(kind)).map(({ name }) => name);
      const [devices, cables, supply] = [named('device'), named('cable', 'bus'), named('feed', 'fuse')];
      return {
        need: text,
        survives: costBy.length === 0,
        failures: costBy.length,
        devices,
        cables,
        supply,
        lostWith: [
          ...(devices.length > 0 ? [shortly(devices)] : []),
          ...(cables.length > 0 ? [count(cables.length, 'cable')] : []),
          ...(supply.length > 0 ? [`${supply.length} of its supply`] : []),
        ].join('; '),
        otherPath: otherPath.map(({ name }) => name),
        besides: otherPath.length === 0 ? '' : shortly(otherPath.map(({ name }) => name)),
        reason: null,
        ...where(spot),
      };
    });
    const open = notAnalysed.filter(({ what }) => what.startsWith('need '));
    const surviving = needs.filter(({ costBy }) => costBy.length === 0);
    return {
      rows: [
        ...rows,
        ...open.map(({ what, why, spot }) => ({
          need: what.slice('need '.length),
          survives: null,
          failures: null,
          devices: [],
          cables: [],
          supply: [],
          lostWith: '',
          otherPath: [],
          besides: '',
          reason: why,
          ...where(spot),
        })),
      ],
      summary: `${count(needs.length, 'need')}, of which ${surviving.length} ${surviving.length === 1 ? 'survives' : 'survive'} any one failure; ${open.length} not analysed.`,
    };
  },
};

const volts = (value: number | undefined): number | null =>
  value === undefined ? null : Number(value.toFixed(2));

export const FAILURE_VOLTAGES: ListKind = {
  what: 'failure-voltages',
  summary: 'the lowest voltage of each device with one thing failed',
  columns: [
    { field: 'device', title: 'Device', type: 'string', text: 'The device.' },
    { field: 'terminal', title: 'At', type: 'string', text: 'The port or the backbone that it lives on.' },
    {
      field: 'needsVolts',
      title: 'Needs V',
      type: 'number',
      ifNull: '',
      text: 'The least that it works with; null where that is not stated.',
    },
    {
      field: 'normalVolts',
      title: 'Normal V',
      type: 'number',
      ifNull: 'unknown',
      text: 'With everything aboard, in its worst mode and with the batteries at their lowest.',
    },
    {
      field: 'lowestVolts',
      title: 'Lowest V',
      type: 'number',
      ifNull: 'unknown',
      text: 'The same over all single failures that leave it fed.',
    },
    {
      field: 'failure',
      title: 'When this fails',
      type: 'string',
      ifNull: '',
      text: 'The failure that gives it; null where none gives less than it has with everything aboard.',
    },
    {
      field: 'mode',
      title: 'In mode',
      type: 'string',
      ifNull: '',
      text: 'The mode in which that is; null where none is declared.',
    },
    {
      field: 'holds',
      title: 'Holds',
      type: 'boolean',
      ifNull: 'unknown',
      text: 'Whether that is enough for it, and no failure lets its supply collapse; null where a figure is missing.',
    },
    {
      field: 'collapses',
      title: 'Collapses with',
      type: 'strings',
      text: 'Failures with which what is left of its supply collapses under the load.',
    },
    {
      field: 'dark',
      title: 'Dark with',
      type: 'strings',
      text: 'Failures that leave it without power.',
      only: 'data',
    },
    {
      field: 'darkCount',
      title: 'Dark with',
      type: 'number',
      text: 'How many failures leave it without power.',
      only: 'table',
    },
    {
      ...REASON,
      title: 'Unknown',
      text: 'The fact that is missing, so that the figures are not known or bounds from above; null where none is.',
    },
    ...WHERE_COLUMNS,
  ],
  list: ({ analysis }, placeOf) => {
    const where = whereIn(placeOf);
    const found = analysis.failures().voltages();
    const rows = found.map((one) => {
      const { floorVolts, lowestVolts, collapsing, reason } = one;
      const short = floorVolts !== undefined && lowestVolts !== undefined && lowestVolts < floorVolts;
      // A bound from above that is too low is too low; one that suffices says nothing.
      const sure = floorVolts !== undefined && lowestVolts !== undefined && reason === undefined;
      return {
        device: one.device,
        terminal: one.terminal,
        needsVolts: floorVolts ?? null,
        normalVolts: volts(one.normalVolts),
        lowestVolts: volts(lowestVolts),
        failure: one.failure ?? null,
        mode: one.mode ?? null,
        holds: short || collapsing.length > 0 ? false : sure ? true : null,
        collapses: collapsing,
        dark: one.darkBy,
        darkCount: one.darkBy.length,
        reason: reason ?? null,
        ...where(one.spot),
      };
    });
    const failing = rows.filter(({ holds }) => holds === false).length;
    const lower = rows.filter(({ failure }) => failure !== null).length;
    const least = rows.reduce((a, { lowestVolts }) => Math.min(a, lowestVolts ?? Infinity), Infinity);
    return {
      rows,
      summary: `${count(rows.length, 'device')}: ${lower} lower with something failed, ${failing} too low or collapsing, ${rows.filter(({ reason }) => reason !== null).length} not known for sure${Number.isFinite(least) ? `; the least is ${number(least)} V` : ''}.`,
    };
  },
};
