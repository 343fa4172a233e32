/** Lowers places, devices, needs, modes and views. */
import type {
  Day,
  Device,
  Duty,
  Exposure,
  Mode,
  Need,
  Negative,
  Preference,
  Run,
  View,
  Wanted,
  Zone,
} from '../../vessel/model.js';
import * as ast from '../generated/ast.js';
import { docOf } from './doc.js';
import { isMedium } from './models.js';
import type { PlaceTable } from './places.js';
import { money, si, whole } from './quantity.js';

export function lowerZone(
  node: ast.ZoneDecl,
  exposures: ReadonlyMap<string, Exposure>,
  places: PlaceTable,
): Zone {
  const length = (key: 'aft' | 'height'): number | undefined =>
    si(node.clauses.find((c): c is ast.ZoneLength => ast.isZoneLength(c) && c.key === key)?.value, 'length');
  const word = (key: 'side' | 'deck'): string | undefined =>
    node.clauses.find((c): c is ast.ZoneWord => ast.isZoneWord(c) && c.key === key)?.value;
  return {
    origin: places.claim(`zone ${node.name}`, node),
    name: node.name,
    exposure: exposures.get(node.exposure?.ref?.name ?? ''),
    fuel: node.clauses.find(ast.isZoneFuel)?.fuel,
    aftMetres: length('aft'),
    heightMetres: length('height'),
    side: word('side'),
    deck: word('deck'),
  };
}

export function lowerRun(node: ast.RunDecl, places: PlaceTable): Run | undefined {
  const from = node.from?.ref?.name;
  const to = node.to?.ref?.name;
  const origin = places.claim(
    `run ${node.name ?? [node.from?.$refText, node.to?.$refText].sort().join(' -- ')}`,
    node,
  );
  if (from === undefined || to === undefined) return undefined;
  return {
    origin,
    name: node.name,
    from,
    to,
    lengthMetres: si(node.length, 'length'),
    conduitMetres: si(node.bore, 'length'),
    conduit: node.conduit,
    loom: node.loom,
  };
}

export function lowerDevice(node: ast.DeviceDecl, places: PlaceTable): Device {
  const count = (key: 'series' | 'parallel' | 'instance'): number | undefined =>
    whole(node.properties.find((p): p is ast.DeviceCount => ast.isDeviceCount(p) && p.key === key)?.value);
  const offset = node.properties.find(ast.isOffsetProperty);
  const forward = si(offset?.forward, 'length');
  const starboard = si(offset?.starboard, 'length');
  const up = si(offset?.up, 'length');
  const models = node.models.flatMap((model) => model.ref?.name ?? []);
  return {
    origin: places.claim(`device ${node.name}`, node),
    name: node.name,
    // One that does not resolve makes the whole choice unknown.
    models: models.length === node.models.length ? models : [],
    zone: node.zone?.ref?.name,
    back: node.back?.ref?.name,
    existing: node.existing,
    leaving: node.leaving,
    doc: docOf(node),
    note: node.properties.find(ast.isDeviceNote)?.value,
    series: count('series'),
    parallel: count('parallel'),
    offsetMetres:
      forward !== undefined && starboard !== undefined && up !== undefined
        ? [forward, starboard, up]
        : undefined,
    instance: count('instance'),
    normally: node.properties.find(ast.isNormallyProperty)?.position?.ref?.name,
    syncedWith: node.properties
      .filter(ast.isSyncedProperty)
      .flatMap((p) => p.devices.flatMap((d) => d.ref?.name ?? [])),
  };
}

// ---------------------------------------------------------------- needs and views

function lowerWanted(node: ast.SourceRef): Wanted {
  const head = node.head?.ref;
  const text = node.$cstNode?.text.replace(/\s+/g, '') ?? '';
  const tail = node.tail?.ref?.name;
  const broken = node.tail !== undefined && tail === undefined;
  if (broken || head === undefined) return { device: undefined, signal: undefined, text };
  if (ast.isDeviceDecl(head)) return { device: head.name, signal: tail, text };
  return { device: undefined, signal: tail ?? head.name, text };
}

type References = readonly { readonly ref?: { readonly name: string } | undefined }[];
const named = (references: References): string[] => references.flatMap((r) => r.ref?.name ?? []);
const all = (...lists: References[]): boolean =>
  lists.every((list) => list.every((r) => r.ref !== undefined));

/** The need as one line, which names it. */
const needText = (node: ast.NeedDecl): string =>
  (node.goal?.$cstNode?.text ?? '').replace(/\s+/g, ' ').trim();

export function lowerNeed(node: ast.NeedDecl, places: PlaceTable): Need | undefined {
  const origin = places.claim(`need ${needText(node)}`, node);
  const goal = node.goal;
  switch (goal?.$type) {
    case 'SpareGoal': {
      const medium = goal.medium?.ref?.name;
      const count = whole(goal.count);
      if (count === undefined) return undefined;
      return {
        origin,
        kind: 'spare',
        count,
        medium: isMedium(medium) ? medium : undefined,
        on: named(goal.devices),
        incomplete: !isMedium(medium) || !all(goal.devices),
      };
    }
    case 'CostGoal':
      return { origin, kind: 'cost', under: money(goal.limit) };
    case 'NamedGoal':
      return lowerNamed(goal, origin);
    default:
      return undefined;
  }
}

function lowerNamed(goal: ast.NamedGoal, origin: string): Need | undefined {
  const ability = goal.ability;
  switch (ability?.$type) {
    case 'ShowAbility': {
      const wanted = ability.wanted.map(lowerWanted);
      const known = wanted.every((w) => w.device !== undefined || w.signal !== undefined);
      return {
        origin,
        kind: 'show',
        screens: named(goal.subjects),
        wanted,
        without: named(ability.off),
        incomplete: !known || !all(goal.subjects, ability.off),
      };
    }
    case 'HearAbility':
      return {
        origin,
        kind: 'hear',
        devices: named(goal.subjects),
        signals: named(ability.signals),
        incomplete: !all(goal.subjects, ability.signals),
      };
    case 'LastAbility':
      return {
        origin,
        kind: 'last',
        bank: goal.subjects[0]?.ref?.name,
        seconds: si(ability.time, 'time'),
        mode: ability.mode?.ref?.name,
        cranks: named(ability.cranks),
      };
    default:
      return undefined;
  }
}

export function lowerView(node: ast.ViewDecl, places: PlaceTable): View {
  return {
    origin: places.claim(`view ${node.title}`, node),
    name: node.title,
    screen: node.screen?.ref?.name,
    panes: node.panes.map((pane) => ({
      origin: places.claim(`pane ${node.title}/${pane.name}`, pane),
      name: pane.name,
      layers: pane.layers.map(lowerWanted),
    })),
  };
}

// ---------------------------------------------------------------- modes and the rest

export function lowerMode(node: ast.ModeDecl, places: PlaceTable): Mode {
  return {
    origin: places.claim(`mode ${node.name}`, node),
    name: node.name,
    duties: node.duties.flatMap(lowerDuty),
  };
}

function lowerDuty(node: ast.Duty): Duty[] {
  switch (node.$type) {
    case 'OnDuty':
      if (node.others) return [{ kind: 'others' }];
      return node.items.flatMap((item): Duty[] => {
        const device = item.device?.ref?.name;
        return device === undefined
          ? []
          : [{ kind: 'on', device, duty: si(item.level, 'ratio'), atMax: item.atMax }];
      });
    case 'SetDuty': {
      const device = node.device?.ref?.name;
      const position = node.position?.ref?.name;
      return device !== undefined && position !== undefined ? [{ kind: 'set', device, position }] : [];
    }
    case 'ChargeDuty':
      return node.items.flatMap((item): Duty[] => {
        const device = item.device?.ref?.name;
        return device === undefined ? [] : [{ kind: 'charge', device, level: si(item.level, 'ratio') }];
      });
  }
}

export function lowerDay(node: ast.DayDecl, places: PlaceTable): Day {
  return {
    origin: places.claim(`day ${node.name}`, node),
    name: node.name,
    parts: node.parts.flatMap((part) =>
      part.mode?.ref ? [{ mode: part.mode.ref.name, seconds: si(part.time, 'time') }] : [],
    ),
  };
}

export function lowerNegative(node: ast.NegativeDecl, places: PlaceTable): Negative {
  const banks = named(node.banks);
  return {
    origin: places.claim(`negative ${banks.join(', ')}`, node),
    banks,
    joined: node.state === 'joined',
  };
}

export function lowerPreference(node: ast.PreferDecl, places: PlaceTable): Preference | undefined {
  const signal = node.signal?.ref?.name;
  if (signal === undefined) return undefined;
  return { origin: places.claim(`prefer ${signal}`, node), signal, from: named(node.sources) };
}
