/** Everything that is pulled along the runs: cables of links, conductors of feeds, spans and drops of backbones. */
import type { Conductor, End, Vessel } from '../../vessel/model.js';
import type { Route, Routes } from '../../vessel/routes.js';
import type { Lookup } from '../../vessel/lookup.js';
import type { RoutedCable } from './cables.js';
import type { Spot } from '../finding.js';

export interface Passage {
  readonly what: string;
  readonly spot: Spot;
  readonly from: string;
  readonly to: string;
  readonly route: Route;
  /** Its length is stated, so that no route is needed to know it. */
  readonly lengthStated: boolean;
  readonly odMetres: number | undefined;
  /** Diameter of the moulded connector at its end. */
  readonly headMetres: number | undefined;
  /** It has a moulded connector, of whatever size. */
  readonly moulded: boolean;
}

/** What it is worked out of. */
interface Source {
  readonly vessel: Vessel;
  readonly lookup: Lookup;
  readonly routes: Routes;
  readonly cables: readonly RoutedCable[];
}

/** Collect what is pulled, as far as its two zones are known. */
export function collectPassages(context: Source): readonly Passage[] {
  return [...linkPassages(context), ...feedPassages(context), ...busPassages(context)];
}

function linkPassages({ lookup, cables }: Source): readonly Passage[] {
  return cables.flatMap((run): Passage[] => {
    const [from] = run.zones;
    const to = run.zones.at(-1);
    if (run.route === undefined || from === undefined || to === undefined) return [];
    const cable = lookup.cable(run.cable);
    const tail = run.wired.a?.port.captive ?? run.wired.b?.port.captive;
    return [
      {
        what: run.id.replace('--', ' -- '),
        spot: { origin: run.link.origin },
        from,
        to,
        route: run.route,
        lengthStated: run.statedMetres !== undefined,
        odMetres: cable?.odMetres ?? tail?.odMetres,
        headMetres: tail === undefined ? cable?.headMetres : tail.headMetres,
        moulded: tail !== undefined || (cable?.stock.length ?? 0) > 0,
      },
    ];
  });
}

function feedPassages(context: Source): readonly Passage[] {
  return context.vessel.feeds.flatMap((feed) =>
    feed.to.flatMap((to) => conductorPassage(context, feed.from, to, feed, { origin: feed.origin })),
  );
}

function conductorPassage(
  context: Source,
  from: End,
  to: End,
  conductor: Conductor,
  spot: Spot,
): readonly Passage[] {
  const { lookup } = context;
  if (from.device === undefined || to.device === undefined) return [];
  return between(context, lookup.plugZone(from.device), lookup.plugZone(to.device), {
    what: `${from.device} -> ${to.device}`,
    spot,
    by: conductor.by,
    via: conductor.joins.flatMap((joint) => joint.zone ?? []),
    lengthStated: conductor.lengthMetres !== undefined,
    odMetres: lookup.cable(conductor.cable)?.odMetres,
  });
}

interface Pulled {
  readonly what: string;
  readonly spot: Spot;
  readonly by?: readonly string[];
  readonly via?: readonly string[];
  readonly lengthStated: boolean;
  readonly odMetres: number | undefined;
}

function between(
  { lookup, routes }: Source,
  from: string | undefined,
  to: string | undefined,
  pulled: Pulled,
): readonly Passage[] {
  if (
    from === undefined ||
    to === undefined ||
    lookup.zone(from) === undefined ||
    lookup.zone(to) === undefined
  )
    return [];
  const { what, spot, by, via, lengthStated, odMetres } = pulled;
  return [
    {
      what,
      spot,
      from,
      to,
      route: routes.between(from, to, by, via),
      lengthStated,
      odMetres,
      headMetres: undefined,
      moulded: false,
    },
  ];
}

function busPassages(context: Source): readonly Passage[] {
  const { lookup } = context;
  return context.vessel.backbones.flatMap((backbone) =>
    backbone.items.flatMap((item) => {
      const spot: Spot = { origin: item.origin };
      if (item.kind === 'span' && item.between !== undefined) {
        const [from, to] = item.between;
        const odMetres = lookup.cable(item.cable ?? backbone.cable)?.odMetres;
        return between(context, from, to, {
          what: `span of backbone ${backbone.name}`,
          spot,
          lengthStated: item.lengthMetres !== undefined,
          odMetres,
        });
      }
      if (item.kind === 'tee' && item.zone !== undefined && item.end?.device !== undefined) {
        const odMetres = lookup.cable(item.cable ?? backbone.cable)?.odMetres;
        const to = lookup.plugZone(item.end.device);
        return between(context, item.zone, to, {
          what: `drop to ${item.end.device}`,
          spot,
          lengthStated: item.dropMetres !== undefined,
          odMetres,
        });
      }
      return [];
    }),
  );
}
