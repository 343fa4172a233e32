/** How far signals have to travel on a backbone: the longest way between any two points of it. */
import type { Bus, Piece } from './bus.js';

export interface Reach {
  /** Metres of the longest way: the backbone, or more where a drop is longer than the backbone goes on behind it. */
  readonly metres: number;
  /** The same as a share of what its cables are good for, each metre by its own cable's longest. */
  readonly share: number;
  /** A device whose drop reaches further than the terminator behind it. */
  readonly beyond: string | undefined;
}

interface Leaf {
  readonly at: number;
  readonly shareAt: number;
  readonly drop: number;
  readonly shareDrop: number;
  readonly device: string | undefined;
}

/**
 * The longest way. Cables of different limits are added up by shares, as DeviceNet's rule for mixed trunks does (from memory).
 * Undefined where a length, a cable or its limit is not known; `missing` says which.
 */
export function reachOf(bus: Bus): Reach | { readonly missing: string } {
  const lengths = [...bus.spans.map((span) => span.piece)];
  let [at, shareAt] = [0, 0];
  const atPoint = new Map<number, readonly [number, number]>();
  let point = 0;
  const weigh = (piece: Piece): { readonly metres: number; readonly share: number } | string => {
    if (piece.lengthMetres === undefined) return piece.missing ?? 'a length is not known';
    if (piece.lengthMetres === 0) return { metres: 0, share: 0 };
    const longest = piece.cable?.longestMetres;
    if (longest === undefined)
      return piece.cableMissing ?? `${piece.cable?.name ?? 'a cable'} does not say how long it may be`;
    return { metres: piece.lengthMetres, share: piece.lengthMetres / longest };
  };
  atPoint.set(0, [0, 0]);
  for (const { piece, point: before } of bus.spans) {
    const known = weigh(piece);
    if (typeof known === 'string') return { missing: known };
    // Isolations begin a point and take no length.
    for (; point < before; point++) atPoint.set(point + 1, [at, shareAt]);
    at += known.metres;
    shareAt += known.share;
    point = before + 1;
    atPoint.set(point, [at, shareAt]);
  }
  for (; point < bus.points; point++) atPoint.set(point + 1, [at, shareAt]);
  if (lengths.length === 0 && bus.tees.length === 0) return { metres: 0, share: 0, beyond: undefined };

  const leaves: Leaf[] = [
    { at: 0, shareAt: 0, drop: 0, shareDrop: 0, device: undefined },
    { at, shareAt, drop: 0, shareDrop: 0, device: undefined },
  ];
  for (const tee of bus.tees) {
    if (tee.drop === undefined) continue;
    const own = weigh(tee.drop);
    // A drop that is not known is a matter of its own rule; the backbone has its length without it.
    if (typeof own === 'string') continue;
    const [teeAt, teeShare] = atPoint.get(tee.point) ?? [0, 0];
    let [drop, shareDrop] = [own.metres, own.share];
    for (const { piece } of tee.branches) {
      const more = weigh(piece);
      if (typeof more === 'string') continue;
      drop = Math.max(drop, own.metres + more.metres);
      shareDrop = Math.max(shareDrop, own.share + more.share);
    }
    leaves.push({
      at: teeAt,
      shareAt: teeShare,
      drop,
      shareDrop,
      device: tee.nodes[0]?.device ?? tee.device,
    });
  }
  return furthest(leaves);
}

/** Of all pairs the two that are furthest apart, in one sweep along the cable. */
function furthest(leaves: readonly Leaf[]): Reach {
  const sorted = [...leaves].sort((a, b) => a.at - b.at);
  let metres = 0;
  let share = 0;
  let beyond: string | undefined;
  let [back, shareBack]: [number, number] = [-Infinity, -Infinity];
  let from: Leaf | undefined;
  for (const leaf of sorted) {
    const way = leaf.at + leaf.drop + back;
    if (way > metres + 1e-9) {
      metres = way;
      beyond = leaf.drop > 0 ? leaf.device : from?.device;
    }
    share = Math.max(share, leaf.shareAt + leaf.shareDrop + shareBack);
    if (leaf.drop - leaf.at > back) {
      back = leaf.drop - leaf.at;
      from = leaf;
    }
    shareBack = Math.max(shareBack, leaf.shareDrop - leaf.shareAt);
  }
  return { metres, share, beyond };
}
