/** What is on each port, by the last analysis, but for what the statement at the cursor itself puts there. */
import { AstUtils } from 'langium';
import type { Analysis, PortUse } from '../../../checks/analysis.js';
import type { VesselAnalysis } from '../../analysis/analyses.js';
import type { Overlay } from './overlay.js';

export type Uses = PortUse['on'];

/** Answers what is on a port of a device. */
export type UsesOf = (device: string, port: string) => Uses;

/** `here` is the offset at which the statement at the cursor begins. */
export function usesIn(
  known: VesselAnalysis | undefined,
  overlay: Overlay | undefined,
  uri: string,
  here: number,
): UsesOf {
  if (!known) return overlay?.added ?? (() => []);
  const table = tableOf(known.analysis);
  const own = ownIn(known, uri, here);
  const freed = overlay?.freed(known.analysis);
  return (device, port) => {
    const key = `${device}.${port}`;
    const others = (table.get(key)?.on ?? []).filter(
      ({ spot }) =>
        !own.origins.has(spot.origin) &&
        !freed?.has(spot.origin) &&
        !(key === own.tapped && spot.origin === own.backbone),
    );
    return overlay ? [...others, ...overlay.added(device, port)] : others;
  };
}

const tables = new WeakMap<Analysis, ReadonlyMap<string, PortUse>>();

function tableOf(analysis: Analysis): ReadonlyMap<string, PortUse> {
  let table = tables.get(analysis);
  if (!table) {
    table = new Map(analysis.ports.map((use) => [`${use.device}.${use.port.name}`, use]));
    tables.set(analysis, table);
  }
  return table;
}

interface Own {
  /** Origins of what stands at the cursor. */
  readonly origins: ReadonlySet<string>;
  /** For a tap: the port that it takes, as `panel.3`, and the origin of its backbone, under which its use is kept. */
  readonly tapped: string | undefined;
  readonly backbone: string | undefined;
}

/** Origins of what is written from an offset on. */
export function originsAt({ places }: VesselAnalysis, uri: string, offset: number): ReadonlySet<string> {
  const origins = new Set<string>();
  for (const [origin, node] of places.origins())
    if (node.$cstNode?.offset === offset && AstUtils.getDocument(node).uri.toString() === uri)
      origins.add(origin);
  return origins;
}

function ownIn(known: VesselAnalysis, uri: string, here: number): Own {
  const origins = originsAt(known, uri, here);
  for (const { backbone, taps } of known.analysis.backbones) {
    const items = backbone.items.filter((item) => item.kind === 'tap');
    const tap = taps[items.findIndex((item) => origins.has(item.origin))];
    if (tap) return { origins, tapped: `${tap.device}.${tap.port.name}`, backbone: backbone.origin };
  }
  return { origins, tapped: undefined, backbone: undefined };
}
