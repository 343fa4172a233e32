/** Boats to draw: the examples, and boats of any size that are alike from station to station. */
import { join } from 'node:path';
import { analyse } from '../../src/checks/analyse.js';
import type { Analysis } from '../../src/checks/analysis.js';
import { openProject } from '../../src/language/project/open.js';
import { CABLES, MODELS } from '../support/fleet.js';
import { backbone, boat, type BoatParts } from '../support/vessel.js';

const root = join(import.meta.dirname, '..', '..');
export const EXAMPLES = [
  'kittiwake/kittiwake',
  'motoryacht/razorbill',
  'openboat/dunlin',
  'sailing/whimbrel',
] as const;

/** The analysis of an example. */
export async function example(name: string): Promise<Analysis> {
  const [, analysis] = (await variants(name)).find(([option]) => option === null) ?? [];
  if (analysis === undefined) throw new Error(`${name} has no vessel`);
  return analysis;
}

/** An example as she is, under `null`, and with each of her options. */
export async function variants(name: string): Promise<readonly (readonly [string | null, Analysis])[]> {
  const { report } = await openProject([join(root, 'examples', `${name}.loft`)], {
    root,
    today: '2026-11-25',
  });
  return report.vessels.map(({ option, analysis }) => [option, analysis]);
}

const STATION = 13;

/** A boat's parts: stations of thirteen devices in two zones, joined from one to the next. */
export function fleetParts(devices: number): BoatParts {
  const stations = Array.from({ length: Math.ceil(devices / STATION) }, (_, index) => index + 1);
  const list = stations.flatMap((n): readonly (readonly [string, string])[] => [
    [`main${n}`, `Tern13 @ helm${n}`],
    [`second${n}`, `Tern8 @ helm${n}`],
    [`hub${n}`, `Switch5 @ locker${n}`],
    [`live${n}`, `LiveBox @ locker${n}`],
    [`head${n}`, `LiveHead @ helm${n}`],
    [`beam${n}`, `BeamHd @ locker${n}`],
    [`camera${n}`, `Camera2 @ locker${n}`],
    [`gnss${n}`, `Gnss10 @ helm${n}`],
    [`log${n}`, `OldLog @ helm${n}`],
    [`bank${n}`, `Battery @ locker${n}`],
    [`panel${n}`, `Panel8 @ locker${n}`],
    [`cutoff${n}`, `Cutoff @ locker${n}`],
    [`pump${n}`, `Pump @ locker${n}`],
  ]);
  return {
    models: MODELS,
    cables: CABLES,
    zones: stations.flatMap((n) => [`helm${n} sheltered`, `locker${n} interior`]),
    runs: stations.flatMap((n) => [
      `helm${n} -- locker${n} 3 conduit 32`,
      ...(n > 1 ? [`locker${n - 1} -- helm${n} 5`] : []),
    ]),
    devices: Object.fromEntries(list.slice(0, devices)),
    links: stations.flatMap((n) => [
      `main${n}.net1 -- hub${n}.1 using SealedNet`,
      `second${n}.net -- hub${n}.2 using SealedNet`,
      `live${n}.net -- hub${n}.3 using SealedNet`,
      `camera${n}.net -- hub${n}.4 using Patch`,
      `head${n}.plug -- live${n}.head`,
      `beam${n}.plug -- main${n}.sonar`,
      `log${n}.out -- main${n}.listen`,
      ...(n > 1 ? [`main${n}.net2 -- hub${n - 1}.5 using SealedNet`] : []),
    ]),
    feeds: stations.flatMap((n) => [
      `bank${n}.post -> cutoff${n}.a`,
      `cutoff${n}.b -> panel${n}.in`,
      `panel${n}.1 -> main${n}.power`,
      `panel${n}.2 -> second${n}.power`,
      `panel${n}.3 -> hub${n}.power`,
      `panel${n}.4 -> live${n}.power`,
      `panel${n}.5 -> log${n}.power`,
      `bank${n}.post -> pump${n}.power`,
    ]),
    backbones: stations.map((n) =>
      backbone(`bus${n}`, [`gnss${n}.n2k`, `main${n}.n2k`, `second${n}.n2k`], { cable: 'MicroTrunk' }),
    ),
    slack: 0.5,
  };
}

/** Parts as a boat, analysed; connections to devices that are not there are left out. */
export function analysed(parts: BoatParts): Analysis {
  const names = new Set(Object.keys(parts.devices ?? {}));
  const there = (text: string): boolean =>
    [...text.matchAll(/(\p{L}[\p{L}\p{N}_]*)\.\w+/gu)].every(([, name]) => names.has(name ?? ''));
  return analyse(
    boat({
      ...parts,
      links: (parts.links ?? []).filter(there),
      feeds: (parts.feeds ?? []).filter(there),
      backbones: (parts.backbones ?? []).map((bus) => ({
        ...bus,
        items: bus.items.filter(
          (item) => item.kind !== 'tee' || item.end?.device === undefined || names.has(item.end.device),
        ),
      })),
    }),
    { today: '2026-11-25' },
  );
}
