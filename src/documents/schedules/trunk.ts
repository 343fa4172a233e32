/** The pieces of backbones in the schedules: spans, drops and branches, each with where it begins and ends along the cable. */
import type { Analysis } from '../../checks/analysis.js';
import type { Piece } from '../../checks/buses/bus.js';
import type { BackboneItem, End } from '../../vessel/model.js';
import type { Origin } from '../../vessel/origin.js';

/** A span, a drop or a branch. */
export interface TrunkPiece {
  readonly origin: Origin;
  /** Branches of one box, counted from 1; undefined for what has a number of its own. */
  readonly branch: number | undefined;
  readonly from: string;
  readonly to: string;
  /** Where its ends are; undefined where that is not said. */
  readonly fromZone: string | undefined;
  readonly toZone: string | undefined;
  readonly zones: readonly string[];
  readonly cable: string | undefined;
  readonly lengthMetres: number | undefined;
  readonly missing: string | undefined;
}

const end = ({ device, port }: End): string =>
  port === undefined ? (device ?? '?') : `${device ?? '?'}.${port}`;

export function trunkPieces({ vessel, buses }: Analysis): readonly TrunkPiece[] {
  const zones = new Map(vessel.devices.map(({ name, back, zone }) => [name, back ?? zone]));
  const zoneOf = ({ device }: End): string | undefined =>
    device === undefined ? undefined : zones.get(device);
  return vessel.backbones.flatMap((backbone) => {
    const bus = buses.find((one) => one.bus.backbone === backbone)?.bus;
    const { name, items } = backbone;
    return items.flatMap((item, index): readonly TrunkPiece[] => {
      const { origin } = item;
      const made = (
        facts: Omit<TrunkPiece, 'origin' | 'zones' | 'cable' | 'lengthMetres' | 'missing'>,
        cable: string | undefined,
        piece: Piece | undefined,
      ): TrunkPiece => ({
        origin,
        ...facts,
        zones: [...new Set([facts.fromZone, facts.toZone].flatMap((zone) => zone ?? []))],
        cable: cable ?? backbone.cable,
        lengthMetres: piece?.lengthMetres,
        missing: piece === undefined ? 'its length is not worked out' : piece.missing,
      });
      if (item.kind === 'span') {
        const piece = bus?.spans.find((span) => span.piece.origin === origin)?.piece;
        const [fromZone, toZone] = item.between ?? [];
        const facts = {
          branch: undefined,
          from: pointText(name, items.slice(0, index).reverse()),
          to: pointText(name, items.slice(index + 1)),
          fromZone,
          toZone,
        };
        return [made(facts, item.cable, piece)];
      }
      if (item.kind !== 'tee' || item.end === undefined) return [];
      const tee = bus?.tees.find((one) => one.origin === origin);
      const { end: first } = item;
      const drop = {
        branch: undefined,
        from: `backbone ${name}`,
        to: end(first),
        fromZone: item.zone,
        toZone: zoneOf(first),
      };
      return [
        made(drop, item.cable, tee?.drop),
        ...item.branches.map((branch, at) => {
          const facts = {
            branch: at + 1,
            from: end(first),
            to: end(branch.end),
            fromZone: zoneOf(first),
            toZone: zoneOf(branch.end),
          };
          return made(facts, item.cable, tee?.branches[at]?.piece);
        }),
      ];
    });
  });
}

/** What a span meets first: `nav at gnss`. */
function pointText(name: string, items: readonly BackboneItem[]): string {
  const [next] = items.filter(({ kind }) => kind !== 'ground');
  switch (next?.kind) {
    case 'tee':
      return next.end === undefined ? `${name}, capped tee` : `${name} at ${next.end.device ?? '?'}`;
    case 'terminator':
      return next.in === undefined ? `${name}, terminator` : `${name}, terminator in ${next.in}`;
    case 'tap':
      return `${name}, tap from ${end(next.from)}`;
    case 'isolate':
      return `${name}, isolation`;
    default:
      return `${name}, open end`;
  }
}
