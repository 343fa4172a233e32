/** Lowers the options of a closure, each to what it changes of the vessel. */
import type { AddedTee, VesselOption } from '../../vessel/options/model.js';
import * as ast from '../generated/ast.js';
import type { Closure } from '../naming/closures.js';
import { specOf } from '../naming/facts.js';
import { addedBy } from '../naming/scopes.js';
import { docOf } from './doc.js';
import { PlaceTable } from './places.js';
import { lowerAboard } from './statements.js';
import { lowerExposures, lowerWaivers } from './vessel.js';
import { endText, lowerEnd, lowerItem } from './wiring.js';

export interface LoweredOption {
  readonly option: VesselOption;
  /** Places of what the option holds, on top of the boat's. */
  readonly places: PlaceTable;
  readonly node: ast.OptionDecl;
}

/** Every option in the order of the text, each with a table of its own: two may add things of the same name. */
export function lowerOptions(closure: Closure, base: PlaceTable): readonly LoweredOption[] {
  const nodes = closure.documents.flatMap((document, index) => {
    const kind = closure.facts[index]?.kind;
    return kind === 'vessel' || kind === 'fragment'
      ? specOf(document).statements.filter(ast.isOptionDecl)
      : [];
  });
  const first = nodes.filter((node) => closure.names.aboard.get(node.name)?.[0] === node);
  if (first.length === 0) return [];
  const exposures = lowerExposures(closure);
  return first.map((node) => lowerOption(node, closure, exposures, new PlaceTable([base])));
}

function lowerOption(
  node: ast.OptionDecl,
  closure: Closure,
  exposures: ReturnType<typeof lowerExposures>,
  places: PlaceTable,
): LoweredOption {
  const origin = places.claim(`option ${node.name}`, node);
  const adds = lowerAboard(addedStatements(node, closure), exposures, places);
  const lists = {
    tees: [] as AddedTee[],
    removedDevices: [] as { origin: string; device: string }[],
    removedLinks: [] as VesselOption['removedLinks'][number][],
    changes: [] as { origin: string; device: string; model: string }[],
  };
  const edit = (what: string, at: ast.Edit): string => places.claim(`${origin}/${what}`, at);
  for (const one of node.edits) {
    if (ast.isAddEdit(one)) lists.tees.push(...lowerTee(one, places));
    else if (ast.isChangeEdit(one)) {
      const device = one.device?.ref?.name;
      const model = one.model?.ref?.name;
      if (device !== undefined && model !== undefined)
        lists.changes.push({ origin: edit(`change ${device}`, one), device, model });
    } else if (one.b)
      lists.removedLinks.push({
        origin: edit(`remove ${[endText(one.a), endText(one.b)].sort().join(' -- ')}`, one),
        a: lowerEnd(one.a),
        b: lowerEnd(one.b),
      });
    else {
      const device = one.a?.device?.ref?.name;
      if (device !== undefined) lists.removedDevices.push({ origin: edit(`remove ${device}`, one), device });
    }
  }
  const option = { origin, name: node.name, title: node.title, doc: docOf(node), adds, ...lists };
  return { option: { ...option, waivers: lowerWaivers(closure, places) }, places, node };
}

/** What it adds; what has a name that is taken is reported and plays no part. */
function* addedStatements(node: ast.OptionDecl, closure: Closure): Iterable<ast.Addable> {
  const named = addedBy(node);
  for (const edit of node.edits) {
    const declaration = ast.isAddEdit(edit) ? edit.declaration : undefined;
    if (!declaration) continue;
    const name = 'name' in declaration ? declaration.name : undefined;
    if (name && (named.get(name) !== declaration || closure.names.aboard.has(name))) continue;
    yield declaration;
  }
}

function lowerTee(node: ast.AddEdit, places: PlaceTable): AddedTee[] {
  const backbone = node.backbone?.ref?.name;
  if (!node.tee || backbone === undefined) return [];
  const item = lowerItem(backbone, node.tee, places);
  if (item?.kind !== 'tee') return [];
  const device = node.beside?.ref?.name;
  const beside = node.place && device !== undefined ? { place: node.place, device } : undefined;
  return [{ item, backbone, beside }];
}
