/** Schedules for whoever orders, pulls and labels cables, as plain rows. Numbers are those of the drawings. */
import type { Analysis, CableRun } from '../../checks/analysis.js';
import type { End, Run } from '../../vessel/model.js';
import type { Origin } from '../../vessel/origin.js';
import type { Route } from '../../vessel/routes.js';
import { compareText } from '../../vessel/words.js';
import { numberCables } from '../numbering.js';
import { trunkPieces, type TrunkPiece } from './trunk.js';

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
  /** Why there is no length; null where there is one. */
  readonly missing: string | null;
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
      missing: run.unknown ?? null,
    };
  });
  const ways = waysOf(analysis);
  const buses = trunkPieces(analysis).map((piece): ScheduleRow => {
    const way = piece.branch === undefined ? ways.get(piece.origin)?.[0] : undefined;
    return {
      number: pieceNumber(of, piece),
      medium: 'nmea2000',
      type: piece.cable ?? null,
      from: piece.from,
      to: piece.to,
      zones: way?.zones ?? piece.zones,
      runs: way?.runs.map(runName) ?? [],
      neededMetres: piece.lengthMetres ?? null,
      stockMetres: [],
      existing: false,
      missing: piece.lengthMetres === undefined ? (piece.missing ?? 'its length is not given') : null,
    };
  });
  return [...links, ...buses].sort((x, y) => byNumber(x.number, y.number));
}

/** Branches of a box are counted behind its number: `N330.1`. */
const pieceNumber = (of: (origin: Origin) => string | undefined, { origin, branch }: TrunkPiece): string =>
  `${of(origin) ?? ''}${branch === undefined ? '' : `.${branch}`}`;

/** The ways of everything that is pulled, by its origin: of a feed with several loads, one for each. */
function waysOf({ passages }: Analysis): ReadonlyMap<Origin, readonly Way[]> {
  const ways = new Map<Origin, Way[]>();
  for (const { spot, route } of passages)
    if (route.kind === 'route') ways.set(spot.origin, [...(ways.get(spot.origin) ?? []), route]);
  return ways;
}

type Way = Route & { readonly kind: 'route' };

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
      backbone.items.flatMap((item): LabelRow[] =>
        item.kind === 'tap' ? both(of(item.origin) ?? '', end(item.from), `backbone ${backbone.name}`) : [],
      ),
    ),
    ...trunkPieces(analysis).flatMap((piece): LabelRow[] => {
      const number = pieceNumber(of, piece);
      const { from, to, fromZone, toZone } = piece;
      return [
        { number, at: from, zone: fromZone ?? null, other: to },
        { number, at: to, zone: toZone ?? null, other: from },
      ];
    }),
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

/** The pull list: for each run the cables that are new in it, in the order of the spec: links, feeds, spans and drops. */
export function pullList(analysis: Analysis): readonly PullRow[] {
  const { vessel, cables } = analysis;
  const { of } = numberCables(analysis);
  const ways = waysOf(analysis);
  const aboard = new Set(
    [...vessel.links, ...vessel.feeds].flatMap((one) => (one.existing ? [one.origin] : [])),
  );
  const types = new Map<Origin, string>([
    ...analysis.power
      .feeds()
      .map(({ origin, cable, wire }) => [origin, cable ?? `2 x ${wire.size ?? 'unknown wire'}`] as const),
    ...trunkPieces(analysis).map(({ origin, cable }) => [origin, cable ?? 'unknown cable'] as const),
    ...cables.map(({ link, cable }) => [link.origin, cable ?? 'captive tail'] as const),
  ]);
  return vessel.runs.flatMap((run): PullRow[] => {
    const through = [...ways].flatMap(([origin, all]) =>
      !aboard.has(origin) && all.some(({ runs }) => runs.includes(run)) ? [origin] : [],
    );
    if (through.length === 0) return [];
    return [
      {
        run: runName(run),
        from: run.from,
        to: run.to,
        conduitMillimetres: run.conduitMetres === undefined ? null : Math.round(run.conduitMetres * 1e4) / 10,
        numbers: through.map((origin) => of(origin) ?? '').sort(byNumber),
        types: [...new Set(through.map((origin) => types.get(origin) ?? 'unknown'))].sort(compareText),
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
