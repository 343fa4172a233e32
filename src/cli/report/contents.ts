/** What a report says of a vessel: the lists of the program, put in the order in which a boat is handed over. */
import type { VesselReport } from '../../language/project/report.js';
import {
  BOX,
  type Block,
  type Report,
  type ReportColumn,
  type Section,
} from '../../documents/report/report.js';
import type { FailureReport } from '../../checks/analysis.js';
import { STAGES } from '../../documents/commissioning/steps.js';
import type { Scene } from '../../documents/scene/scene.js';
import { count } from '../../vessel/words.js';
import { BUSES } from '../list/buses.js';
import { COMMISSIONING, CONNECTORS, FAULTS, VAN } from '../list/commissioning.js';
import { FAILURES_BY_NEED } from '../list/failures.js';
import { FEEDS } from '../list/feeds.js';
import type { Listed, ListKind } from '../list/listing.js';
import { NEEDS } from '../list/needs.js';
import { PARTS } from '../list/parts.js';
import { PULLS, SCHEDULE, SCREENS } from '../list/schedules.js';
import { grid } from '../list/table.js';
import { labelBlocks } from './labels.js';
import { offerBlocks } from './offers.js';

export interface ReportSources {
  readonly vessel: VesselReport;
  /** The vessel with each of its options; none where options were chosen. */
  readonly variants: readonly VesselReport[];
  readonly sheets: readonly Scene[];
  readonly date: string | undefined;
  readonly revision: string | undefined;
  readonly file: string;
  readonly version: string;
}

const CAUTION =
  'Disconnect every battery and the shore supply before work. Check lengths, sizes and ratings aboard before cutting or energising. Worked out from the specification, and not from a survey of the boat. "unknown" means that the specification does not say enough.';

export function reportOf(sources: ReportSources): Report {
  const { vessel, date, revision, file, version } = sources;
  const { vessel: boat } = vessel.analysis;
  const facts: (readonly [string, string | undefined])[] = [
    ['Option', vessel.option ?? undefined],
    ['Owner', boat.owner],
    ['Yard', boat.yard],
    ['Number', boat.drawingNumber],
    ['Revision', revision ?? boat.revision],
    ['Status', boat.status],
    ['Date', date],
    [
      'Practice',
      boat.practice === undefined ? undefined : boat.practice === 'abyc' ? 'ABYC E-11' : 'ISO 13297',
    ],
    ['Findings', countsText(vessel)],
    ['Made from', `${file} by ${version}`],
  ];
  return {
    title: boat.name,
    subtitle: boat.title ?? 'Electronics: report for handover',
    facts: facts.flatMap(([caption, value]) => (value === undefined ? [] : [[caption, value] as const])),
    caution: CAUTION,
    sections: sections(sources).filter(
      ({ blocks, sheets }) => blocks.length > 0 || (sheets ?? []).length > 0,
    ),
  };
}

function countsText({ counts }: VesselReport): string {
  const { error, warning, information, waived, unknown } = counts;
  return `${count(error, 'error')}, ${count(warning, 'warning')}, ${information} for information, ${waived} waived, ${unknown} not judged`;
}

function sections(sources: ReportSources): readonly Section[] {
  const { vessel, variants, sheets } = sources;
  const table = (
    kind: ListKind,
    titles?: readonly string[],
    extra?: readonly ReportColumn[],
  ): readonly Block[] => listBlocks(kind, sources, titles, extra);
  const offers = variants.filter(({ option }) => option !== null);
  return [
    owner('What the boat has', aboard(vessel)),
    owner('Screen plan', table(SCREENS)),
    owner('Needs', table(NEEDS, ['Need', 'Met', 'Reason'])),
    owner('What one failure costs', failures(sources)),
    ...(offers.length === 0 ? [] : [owner('Options', offerBlocks(vessel, offers))]),
    owner('Open findings and waivers', findings(vessel)),
    owner('Cautions', cautions(vessel)),
    { ...installer('Drawings', sheetBlocks(sheets)), sheets },
    { ...installer('Parts', table(PARTS)), apart: true },
    installer('Cable schedule', table(SCHEDULE, SCHEDULE_TITLES)),
    installer('Pull list', table(PULLS)),
    installer('Labels', labelBlocks(vessel)),
    installer('Feeds, wires and fuses', [
      ...table(FEEDS, FEED_TITLES),
      { kind: 'text', text: 'A star marks what was left to the tool and worked out.' },
    ]),
    installer('Backbones', table(BUSES)),
    installer('Connectors', table(CONNECTORS)),
    {
      ...installer('Commissioning', [
        {
          kind: 'text',
          text: 'Make the tests in this order. Stop where a reading is not as expected, and find out why before you go on.',
        },
        ...commissioningBlocks(sources),
        ...(vessel.analysis.buses.length === 0
          ? []
          : [{ kind: 'heading', text: 'Fault finder' } as const, ...table(FAULTS)]),
        { kind: 'text', text: 'Tested by: ______________________________   Date: ____________________' },
      ]),
      apart: true,
    },
    { ...installer('Van list', table(VAN)), apart: true },
  ];
}

const owner = (title: string, blocks: readonly Block[]): Section => ({ title, blocks, reader: 'owner' });
const installer = (title: string, blocks: readonly Block[]): Section => ({
  title,
  blocks,
  reader: 'installer',
});

/** The way is told by its zones; what goes through each run, by the pull list. */
const SCHEDULE_TITLES = [
  'No.',
  'Medium',
  'Type',
  'From',
  'To',
  'Zones',
  'Needed m',
  'Stock m',
  'Aboard',
  'Unknown',
];
const FEED_TITLES = [
  'No.',
  'From',
  'To',
  'Label',
  'm',
  'Wire',
  'Fuse',
  'Most A',
  'Drop %',
  'Allowed %',
  'Load V',
  'Unknown',
];

/** Which needs hang on one thing, and which places are short of volts when something fails. */
function failures(sources: ReportSources): readonly Block[] {
  const found = sources.vessel.analysis.failures();
  if (found.failures.length === 0) return [];
  const listed = FAILURES_BY_NEED.list(sources.vessel, () => undefined, []);
  return [
    {
      kind: 'text',
      text: 'Each device, cable, fuse and feed taken away by itself. A need that does not survive any one failure is worth a spare aboard, or another way.',
    },
    ...tableBlocks(
      FAILURES_BY_NEED,
      { ...listed, rows: listed.rows.filter((row) => row['survives'] !== null) },
      ['Need', 'Survives any', 'Failures', 'Lost with'],
      [],
    ),
    ...[...engineTexts(found), ...voltageTexts(found)].map((text): Block => ({ kind: 'text', text })),
  ];
}

function engineTexts({ failures: all }: FailureReport): readonly string[] {
  const engines = [...new Set(all.flatMap(({ enginesLost }) => enginesLost))];
  return engines.map((engine) => {
    const by = all.flatMap(({ enginesLost, name }) => (enginesLost.includes(engine) ? [name] : []));
    return `${engine} cannot be started, as the switches stand, when one of these fails: ${by.join('; ')}.`;
  });
}

function voltageTexts({ voltages }: FailureReport): readonly string[] {
  const all = voltages();
  if (all.length === 0) return [];
  const short = all.filter(
    ({ collapsing, floorVolts, lowestVolts }) =>
      collapsing.length > 0 || (lowestVolts ?? Infinity) < (floorVolts ?? 0),
  );
  return [
    short.length === 0
      ? 'Whatever one thing fails, the voltage of what is still fed stays high enough, as far as it is known.'
      : `Short of voltage with one thing failed: ${short.map(({ device, failure, collapsing }) => `${device} (${failure ?? collapsing[0] ?? 'with everything aboard'})`).join(', ')}.`,
  ];
}

/** A table for each stage, with a box to tick and room for the reading. */
function commissioningBlocks(sources: ReportSources): readonly Block[] {
  const listed = COMMISSIONING.list(sources.vessel, () => undefined, []);
  const pen: readonly ReportColumn[] = [
    { title: 'Reading', blank: 22 },
    { title: 'Done', blank: 10 },
  ];
  const titles = ['No.', 'Test', 'At', 'Expected', 'Note'];
  return [
    ...STAGES.flatMap((stage): readonly Block[] => {
      const rows = listed.rows.filter((row) => row['stage'] === stage);
      if (rows.length === 0) return [];
      const [table] = tableBlocks(COMMISSIONING, { ...listed, rows }, titles, pen);
      return [{ kind: 'heading', text: STAGE_TITLES[stage] }, ...(table === undefined ? [] : [table])];
    }),
    { kind: 'text', text: listed.summary },
  ];
}

const STAGE_TITLES: Readonly<Record<(typeof STAGES)[number], string>> = {
  'power off': 'With power off',
  'power on': 'With power on',
  screens: 'On the screens',
  needs: 'What the boat is to do',
};

/** A list as a table with its last line; nothing where it has no rows. */
function listBlocks(
  kind: ListKind,
  { vessel, variants }: ReportSources,
  titles: readonly string[] | undefined,
  extra: readonly ReportColumn[] = [],
): readonly Block[] {
  return tableBlocks(
    kind,
    kind.list(vessel, () => undefined, variants),
    titles,
    extra,
  );
}

function tableBlocks(
  kind: ListKind,
  listed: Listed,
  titles: readonly string[] | undefined,
  extra: readonly ReportColumn[],
): readonly Block[] {
  if (listed.rows.length === 0) return [];
  const { columns, cells } = grid(kind, listed);
  const kept = columns.flatMap((column, index) =>
    titles === undefined || titles.includes(column.title) ? [index] : [],
  );
  return [
    {
      kind: 'table',
      columns: [
        ...kept.map((index) => ({
          title: columns[index]?.title ?? '',
          numeric: columns[index]?.type === 'number' || columns[index]?.type === 'numbers',
        })),
        ...extra,
      ],
      rows: cells.map((row) => [
        ...kept.map((index) => row[index] ?? ''),
        ...extra.map(({ title }) => (title === 'Done' ? BOX : '')),
      ]),
    },
    { kind: 'text', text: listed.summary },
  ];
}

function aboard({ analysis: { vessel } }: VesselReport): readonly Block[] {
  return [
    {
      kind: 'table',
      columns: [
        { title: 'Device' },
        { title: 'Model' },
        { title: 'What it is' },
        { title: 'Zone' },
        { title: 'Aboard' },
      ],
      rows: vessel.devices.map(({ name, models, zone, existing, leaving, series, parallel }) => {
        const [model] = models;
        const many = (series ?? 1) * (parallel ?? 1);
        return [
          name,
          model === undefined ? 'unknown' : `${model}${many > 1 ? `, ${many} of them` : ''}`,
          model === undefined ? '' : (vessel.models[model]?.title ?? vessel.models[model]?.class ?? ''),
          zone ?? 'unknown',
          leaving ? 'goes' : existing ? 'yes' : 'new',
        ];
      }),
    },
  ];
}

function findings({ problems, analysis }: VesselReport): readonly Block[] {
  const rows = (waived: boolean): readonly (readonly string[])[] =>
    problems
      .filter((problem) => (problem.waived !== null) === waived)
      .map(({ severity, rule, message, waived: reason }) => [
        severity,
        rule,
        message,
        ...(reason === null ? [] : [reason]),
      ]);
  const open = rows(false);
  const waivers = rows(true);
  const missing = new Map<string, Set<string>>();
  for (const one of analysis.unknowns)
    missing.set(one.rule, (missing.get(one.rule) ?? new Set()).add(one.missing));
  const columns = [{ title: 'Severity' }, { title: 'Rule' }, { title: 'Finding' }];
  return [
    open.length === 0
      ? {
          kind: 'text',
          text: `Nothing is open; ${count(analysis.rulesRun, 'rule')} were run.`,
        }
      : { kind: 'table', columns, rows: open },
    ...(waivers.length === 0
      ? []
      : ([
          { kind: 'heading', text: 'Waived' },
          { kind: 'table', columns: [...columns, { title: 'Reason of the waiver' }], rows: waivers },
        ] as const)),
    ...(missing.size === 0
      ? []
      : ([
          { kind: 'heading', text: 'Not judged, since a fact is missing' },
          {
            kind: 'table',
            columns: [{ title: 'Rule' }, { title: 'Missing' }],
            rows: [...missing].map(([rule, facts]) => [rule, [...facts].join('; ')]),
          },
        ] as const)),
  ];
}

const sheetBlocks = (sheets: readonly Scene[]): readonly Block[] =>
  sheets.length === 0
    ? []
    : [
        {
          kind: 'table',
          columns: [{ title: 'Sheet', numeric: true }, { title: 'Title' }],
          rows: sheets.map(({ title }, index) => [String(index + 1), title]),
        },
      ];

function cautions({ analysis, counts }: VesselReport): readonly Block[] {
  const { vessel } = analysis;
  const petrol = vessel.zones.filter(({ fuel }) => fuel === 'petrol').map(({ name }) => name);
  const batteries = vessel.devices.filter(
    ({ models }) => vessel.models[models[0] ?? '']?.class === 'battery',
  );
  const text = (one: string): Block => ({ kind: 'text', text: one });
  return [
    text(CAUTION),
    ...(batteries.length === 0
      ? []
      : [
          text(
            `A battery gives hundreds of amperes into a tool that bridges it: ${batteries.map(({ name }) => name).join(', ')}. Take rings and watches off, and fit the negative last.`,
          ),
        ]),
    ...(petrol.length === 0
      ? []
      : [
          text(
            `Petrol vapour can collect in ${petrol.join(', ')}. Run the blower, and switch nothing there that is not ignition protected.`,
          ),
        ]),
    text(
      'A replaced fuse has the rating and type of the one that is listed here. A larger one no longer protects its wire.',
    ),
    ...(counts.unknown > 0
      ? [
          text(
            `${count(counts.unknown, 'judgement')} could not be made, since the specification lacks facts. Settle them aboard before you rely on the figures that are marked unknown.`,
          ),
        ]
      : []),
    ...(counts.error > 0
      ? [
          text(
            `Errors that stand open in this report: ${counts.error}. Do not hand the boat over before they are settled.`,
          ),
        ]
      : []),
  ];
}
