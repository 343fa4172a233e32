/** What every sheet needs to know of a boat: its look-ups, its numbers, and the findings at each place. */
import type { Analysis } from '../../checks/analysis.js';
import type { Device } from '../../vessel/model.js';
import { createLookup, type Lookup } from '../../vessel/lookup.js';
import type { Origin } from '../../vessel/origin.js';
import { numberCables, type Numbering } from '../numbering.js';
import type { DiagramNode } from '../diagram/diagram.js';
import { brokenLines } from '../text/measure.js';

export interface Facts {
  readonly analysis: Analysis;
  readonly lookup: Lookup;
  readonly numbering: Numbering;
  /** Codes of the open findings at an element, each once. */
  readonly marksAt: (origin: Origin) => readonly string[];
}

/** Collect them. */
export function collectFacts(analysis: Analysis): Facts {
  const marks = new Map<Origin, string[]>();
  for (const { waived, severity, at, rule } of analysis.findings) {
    if (waived !== null || severity === 'information') continue;
    const list = marks.get(at.origin) ?? [];
    if (!list.includes(rule)) list.push(rule);
    marks.set(at.origin, list);
  }
  return {
    analysis,
    lookup: createLookup(analysis.vessel),
    numbering: numberCables(analysis),
    marksAt: (origin) => marks.get(origin) ?? [],
  };
}

/** What a box keeps free at its edges, and for its symbol. */
const EDGES = 3;
const SYMBOL = 8;

/** A device as a box of a width in mm. `lines` follow its name, broken where they are too long for it. */
export function deviceNode(
  facts: Facts,
  device: Device,
  lines: readonly string[],
  marks: readonly string[],
  width: number,
): DiagramNode {
  const model = facts.lookup.modelOf(device.name);
  const title = model?.title ?? model?.name ?? 'model not known';
  const state = device.existing ? ', aboard already' : device.leaving ? ', comes out' : '';
  return {
    id: device.name,
    origin: device.origin,
    name: device.name,
    lines: brokenLines(lines, width - EDGES, model === undefined ? 0 : SYMBOL),
    marks,
    existing: device.existing || device.leaving,
    symbol: model?.class,
    label: `${device.name}: ${title}${device.zone === undefined ? '' : ` at ${device.zone}`}${state}${marks.length === 0 ? '' : `; found: ${marks.join(', ')}`}.`,
  };
}

/** Title of a model, and its name with the maker's part number. */
export function modelLines({ lookup }: Facts, device: Device): readonly string[] {
  const model = lookup.modelOf(device.name);
  if (model === undefined) return [device.models[0] ?? 'model not known'];
  const name = device.models.length > 1 ? device.models.join(' or ') : model.name;
  const part = [name, ...(model.part === undefined ? [] : [model.part])].join('  ');
  return model.title === undefined ? [part] : [model.title, part];
}
