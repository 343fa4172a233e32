/** Schedules for whoever orders, pulls and labels cables, as plain rows. Numbers are those of the drawings. */
import type { Analysis, CableRun } from '../../checks/analysis.js';
import type { End, Run } from '../../vessel/model.js';
import { compareText } from '../../vessel/words.js';
import { numberCables } from '../numbering.js';

/** A cable, a span or a drop. */
export interface ScheduleRow {
  readonly number: string;
  readonly medium: string | null;
  readonly type: string | null;
  readonly from: string;
  readonly to: string;
  readonly zones: readonly string[];
  readonly runs: readonly string[];
  readonly neededMetres: number | null;
  /** Lengths that are bought; none for a tail or a cable cut to length. */
  readonly stockMetres: readonly number[];
  readonly existing: boolean;
}

const end = ({ device, port }: End): string =>
  port === undefined ? (device ?? '?') : `${device ?? '?'}.${port}`;

/** The cable schedule: links, then spans and drops of the buses, in the order of their numbers. */
export function cableSchedule(analysis: Analysis): readonly ScheduleRow[] {
  const { of } = numberCables(analysis);
  const ends = endsOf(analysis);
  const links = analysis.cables.map((run): ScheduleRow => {
    const { a, b, medium } = ends(run);
    return {
      number: of(run.link.origin) ?? '',
      medium,
      type: run.cable ?? (run.captiveMetres === undefined ? null : 'captive tail'),
      from: a,
      to: b,
      zones: run.zones,
      runs: run.runs.map(runName),
      neededMetres: run.neededMetres ?? null,
      stockMetres: run.pieces,
      existing: run.link.existing,
    };
  });
  const buses = analysis.vessel.backbones.flatMap((backbone) =>
    backbone.items.flatMap((item): ScheduleRow[] => {
      const row = (
        to: string,
        type: string | undefined,
        length: number | undefined,
        from: string,
      ): ScheduleRow => ({
        number: of(item.origin) ?? '',
        medium: 'nmea2000',
        type: type ?? backbone.cable ?? null,
        from,
        to,
        zones: item.kind === 'span' ? [...(item.between ?? [])] : [],
        runs: [],
        neededMetres: length ?? null,
        stockMetres: [],
        existing: false,
      });
      if (item.kind === 'span')
        return [row(`backbone ${backbone.name}`, item.cable, item.lengthMetres, `backbone ${backbone.name}`)];
      if (item.kind !== 'tee' || item.end === undefined) return [];
      return [
        row(end(item.end), item.cable, item.dropMetres, `backbone ${backbone.name}`),
        ...item.branches.map((branch) =>
          row(end(branch.end), item.cable, branch.lengthMetres, end(item.end ?? branch.end)),
        ),
      ];
    }),
  );
  return [...links, ...buses].sort((x, y) => byNumber(x.number, y.number));
}

const byNumber = (x: string, y: string): number => compareText(x, y);

const runName = ({ name, from, to }: Run): string => name ?? `${from} -- ${to}`;

function endsOf(analysis: Analysis): (run: CableRun) => { a: string; b: string; medium: string | null } {
  const wired = new Map(analysis.links.map((link) => [link.link.origin, link]));
  return ({ link }) => {
    const found = wired.get(link.origin);
    return {
      a: found?.a ? `${found.a.device}.${found.a.port.name}` : end(link.a),
      b: found?.b ? `${found.b.device}.${found.b.port.name}` : end(link.b),
      medium: found?.medium ?? null,
    };
  };
}

/** A label for one end of a cable: its number, where this end goes, and where the other one is. */
export interface LabelRow {
  readonly number: string;
  readonly at: string;
  readonly zone: string | null;
  readonly other: string;
}

/** Labels for both ends of every cable, a cable's two together; sorted by number. */
export function labelList(analysis: Analysis): readonly LabelRow[] {
  const { vessel } = analysis;
  const { of } = numberCables(analysis);
  const ends = endsOf(analysis);
  const zones = new Map(vessel.devices.map(({ name, back, zone }) => [name, back ?? zone]));
  const label = (number: string, at: string, other: string): LabelRow => ({
    number,
    at,
    zone: zones.get(at.split('.')[0] ?? at) ?? null,
    other,
  });
  const both = (number: string, a: string, b: string): LabelRow[] => [
    label(number, a, b),
    label(number, b, a),
  ];
  const rows = [
    ...analysis.cables.flatMap((run) => {
      const { a, b } = ends(run);
      return both(of(run.link.origin) ?? '', a, b);
    }),
    ...vessel.feeds.flatMap((feed) => {
      const loads = feed.to.map(end);
      const number = of(feed.origin) ?? '';
      return [
        label(number, end(feed.from), loads.join(', ')),
        ...loads.map((load) => label(number, load, end(feed.from))),
      ];
    }),
    ...vessel.backbones.flatMap((backbone) =>
      backbone.items.flatMap((item): LabelRow[] => {
        const bus = `backbone ${backbone.name}`;
        const number = of(item.origin) ?? '';
        if (item.kind === 'tap') return both(number, end(item.from), bus);
        return item.kind === 'tee' && item.end !== undefined ? both(number, end(item.end), bus) : [];
      }),
    ),
  ];
  // The sort is stable: the two ends of a cable stay together.
  return rows.sort((x, y) => byNumber(x.number, y.number));
}

/** What goes through one run. */
export interface PullRow {
  readonly run: string;
  readonly from: string;
  readonly to: string;
  readonly conduitMillimetres: number | null;
  readonly numbers: readonly string[];
  readonly types: readonly string[];
}

/** The pull list: for each run the cables that are new in it, in the order of the spec. Runs without any are left out. */
export function pullList(analysis: Analysis): readonly PullRow[] {
  const { of } = numberCables(analysis);
  return analysis.vessel.runs.flatMap((run): PullRow[] => {
    const through = analysis.cables.filter((cable) => !cable.link.existing && cable.runs.includes(run));
    if (through.length === 0) return [];
    return [
      {
        run: runName(run),
        from: run.from,
        to: run.to,
        conduitMillimetres: run.conduitMetres === undefined ? null : Math.round(run.conduitMetres * 1e4) / 10,
        numbers: through.map((cable) => of(cable.link.origin) ?? '').sort(byNumber),
        types: [...new Set(through.map((cable) => cable.cable ?? 'captive tail'))].sort(compareText),
      },
    ];
  });
}

/** A pane of the screen plan. */
export interface ScreenRow {
  readonly screen: string;
  readonly view: string;
  readonly pane: string;
  /** From the top layer down. */
  readonly layers: readonly string[];
  /** Null where the spec does not say enough. */
  readonly visible: boolean | null;
}

/** The screen plan: what each screen shows in each view. */
export function screenPlan({ vessel, panes }: Analysis): readonly ScreenRow[] {
  return vessel.views.flatMap((view) =>
    view.panes.map((pane): ScreenRow => {
      const shown = panes.filter((one) => one.pane.origin === pane.origin).map((one) => one.shown.visible);
      return {
        screen: view.screen ?? '?',
        view: view.name,
        pane: pane.name,
        layers: pane.layers.map(({ text }) => text),
        visible: shown.includes(false) ? false : shown.length === 0 || shown.includes(null) ? null : true,
      };
    }),
  );
}
