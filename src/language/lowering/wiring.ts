/** Lowers what joins devices: links, feeds, backbones and their parts. */
import type { AstNode } from 'langium';
import type {
  Backbone,
  BackboneItem,
  Conductor,
  End,
  Feed,
  Joining,
  Link,
  Protection,
} from '../../vessel/model.js';
import * as ast from '../generated/ast.js';
import type { PlaceTable } from './places.js';
import { si, wireSize } from './quantity.js';

/** An end; the name of a device or port that does not resolve is left out, not guessed. */
export function lowerEnd(node: ast.End | undefined): End {
  const device = node?.device?.ref?.name;
  const port = node?.port;
  return {
    device,
    port: port?.ref ? port.$refText : undefined,
    portUnresolved: port !== undefined && port.ref === undefined,
  };
}

/** An end as it was written: `plotter.net1`. */
export function endText(node: ast.End | undefined): string {
  if (!node) return '?';
  return node.port ? `${node.device?.$refText ?? '?'}.${node.port.$refText}` : (node.device?.$refText ?? '?');
}

type Clause = ast.LinkClause | ast.FeedClause;

interface Way {
  readonly cable: string | undefined;
  readonly joins: readonly Joining[];
  readonly by: readonly string[];
  readonly lengthMetres: number | undefined;
  readonly label: string | undefined;
}

function way(clauses: readonly Clause[]): Way {
  let using: ast.UsingClause | undefined;
  let length: ast.LengthClause | undefined;
  let label: ast.LabelClause | undefined;
  const joins: Joining[] = [];
  const by: string[] = [];
  for (const clause of clauses)
    switch (clause.$type) {
      case 'UsingClause':
        using ??= clause;
        break;
      case 'JoinClause':
        joins.push({ model: clause.model?.ref?.name, zone: clause.zone?.ref?.name });
        break;
      case 'ByClause':
        by.push(...clause.runs.flatMap((run) => run.ref?.name ?? []));
        break;
      case 'LengthClause':
        length ??= clause;
        break;
      case 'LabelClause':
        label ??= clause;
        break;
      default:
        break;
    }
  return {
    cable: using?.cable?.ref?.name,
    joins,
    by,
    lengthMetres: si(length?.value, 'length'),
    label: label?.value,
  };
}

export function lowerLink(node: ast.LinkDecl, places: PlaceTable): Link {
  // A link's identity is its two ends, whichever is written first.
  const ends = [endText(node.a), endText(node.b)].sort();
  return {
    origin: places.claim(`link ${ends.join(' -- ')}`, node),
    a: lowerEnd(node.a),
    b: lowerEnd(node.b),
    ...way(node.clauses),
    existing: node.clauses.some(ast.isExistingClause),
  };
}

function conductor(clauses: readonly ast.FeedClause[]): Conductor {
  const protections: Protection[] = [];
  const flags = { protected: false, cranking: false, sheathed: false };
  let wire: ast.WireClause | undefined;
  for (const clause of clauses)
    switch (clause.$type) {
      case 'ProtectionClause':
        protections.push(...clause.protections.map((p) => lowerProtection(clause.device, p)));
        break;
      case 'FeedFlag':
        flags[clause.key] = true;
        break;
      case 'WireClause':
        wire ??= clause;
        break;
      default:
        break;
    }
  const { cable, joins, by, lengthMetres, label } = way(clauses);
  // Spelt out: an object spread into another takes many times the room, and a boat has many feeds.
  return {
    cable,
    joins,
    by,
    lengthMetres,
    label,
    protections,
    protectedUpstream: flags.protected,
    cranking: flags.cranking,
    sheathed: flags.sheathed,
    wire: wireSize(wire?.size),
    wireRatedCelsius: si(wire?.rated, 'temperature'),
  };
}

function lowerProtection(device: 'fuse' | 'breaker', node: ast.Protection): Protection {
  return {
    device,
    amps: si(node.amps, 'current'),
    type: node.type?.ref?.name,
    ratedVolts: si(node.rated, 'voltage'),
    interruptsAmps: si(node.interrupts, 'current'),
    at: node.at?.ref?.name,
    afterMetres: si(node.after, 'length'),
  };
}

export function lowerFeed(node: ast.FeedDecl, places: PlaceTable): Feed {
  return {
    origin: places.claim(`feed ${endText(node.from)} -> ${node.to.map(endText).join(', ')}`, node),
    from: lowerEnd(node.from),
    wayLabel: node.wayLabel,
    to: node.to.map(lowerEnd),
    ...conductor(node.clauses),
    existing: node.clauses.some(ast.isExistingClause),
  };
}

export function lowerBackbone(node: ast.BackboneDecl, places: PlaceTable): Backbone {
  return {
    origin: places.claim(`backbone ${node.name}`, node),
    name: node.name,
    cable: node.cable?.ref?.name,
    items: node.items.flatMap((item) => lowerItem(node.name, item, places) ?? []),
  };
}

/** An item of a backbone; also used for the tees that an option adds. */
export function lowerItem(
  backbone: string,
  node: ast.BackboneItem,
  places: PlaceTable,
): BackboneItem | undefined {
  const claim = (what: string, at: AstNode): string => places.claim(`backbone ${backbone}/${what}`, at);
  switch (node.$type) {
    case 'TerminatorItem':
      return { kind: 'terminator', origin: claim('terminator', node), in: node.device?.ref?.name };
    case 'TeeItem':
      return {
        kind: 'tee',
        origin: claim(node.capped ? 'tee capped' : `tee ${endText(node.end)}`, node),
        end: node.capped || !node.end ? undefined : lowerEnd(node.end),
        dropMetres: si(node.drop, 'length'),
        cable: node.cable?.ref?.name,
        zone: node.zone?.ref?.name,
        branches: node.branches.map((branch) => ({
          end: lowerEnd(branch.end),
          lengthMetres: si(branch.drop, 'length'),
        })),
      };
    case 'SpanItem': {
      const from = node.from?.ref?.name;
      const to = node.to?.ref?.name;
      return {
        kind: 'span',
        origin: claim('span', node),
        lengthMetres: si(node.length, 'length'),
        between: from !== undefined && to !== undefined ? [from, to] : undefined,
        cable: node.cable?.ref?.name,
      };
    }
    case 'TapItem':
      return {
        kind: 'tap',
        origin: claim(`tap ${endText(node.from)}`, node),
        from: lowerEnd(node.from),
        zone: node.zone?.ref?.name,
        conductor: conductor(node.clauses),
      };
    case 'MarkItem':
      return { kind: node.key, origin: claim(node.key, node) };
  }
}
