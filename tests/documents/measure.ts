/**
 * What is wrong with a drawing, measured on the finished scene alone: nothing of the layout's own code is used, and texts are measured
 * with the font file itself.
 */
import type { Scene } from '../../src/documents/scene/scene.js';
import { bodyFaults } from './measure/bodies.js';
import { partsOf } from './measure/parts.js';
import type { Rect } from './measure/shapes.js';
import { textFaults } from './measure/texts.js';
import { wireFaults } from './measure/wires.js';

interface Measures {
  /** What must not be: a sentence for each. */
  readonly faults: readonly string[];
  readonly wires: number;
  readonly crossings: number;
  readonly bends: number;
  /** Length of the ways over the shortest that is at right angles. */
  readonly detour: number;
  readonly boxes: ReadonlyMap<string, Rect>;
}

/** Measure a scene. */
export function measure(scene: Scene): Measures {
  const parts = partsOf(scene);
  const ways = wireFaults(parts);
  const ids = parts.groups.map(({ id }) => id);
  const wires = parts.conductors.filter(({ isTrunk }) => !isTrunk);
  let [bends, routed, shortest] = [0, 0, 0];
  for (const { points, stretches } of wires) {
    bends += Math.max(0, points.length - 2);
    for (const { from, to } of stretches) routed += Math.abs(from.x - to.x) + Math.abs(from.y - to.y);
    const [first] = points;
    const last = points.at(-1);
    if (first !== undefined && last !== undefined)
      shortest += Math.abs(first.x - last.x) + Math.abs(first.y - last.y);
  }
  return {
    faults: [
      ...new Set([
        ...ids.filter((id, index) => ids.indexOf(id) !== index).map((id) => `the id ${id} is there twice`),
        ...parts.empty,
        ...bodyFaults(parts),
        ...textFaults(parts),
        ...ways.faults,
      ]),
    ],
    wires: wires.length,
    crossings: ways.crossings,
    bends,
    detour: shortest === 0 ? 1 : routed / shortest,
    boxes: new Map(parts.devices.map(({ group, box }) => [group.name, box])),
  };
}
