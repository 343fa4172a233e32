/** What is known of the boat or catalogue around the cursor: names that resolve there, models, and what is on each port. */
import {
  AstUtils,
  type AstNode,
  type LangiumDocument,
  type ReferenceInfo,
  type ScopeProvider,
} from 'langium';
import type { Analysis, PortUse } from '../../../checks/analysis.js';
import { takesMany } from '../../../checks/wiring/fit.js';
import type { Cable, Exposure, FuseType, Model, Port } from '../../../vessel/model.js';
import type { VesselAnalysis } from '../../analysis/analyses.js';
import * as ast from '../../generated/ast.js';
import { lowerCable, lowerExposure, lowerFuseType, lowerModel } from '../../lowering/models.js';
import type { Closure, Closures } from '../../naming/closures.js';
import { specOf, type FileFacts } from '../../naming/facts.js';

export interface BoatServices {
  readonly closures: Closures;
  readonly scopes: ScopeProvider;
  /** The last analysis of the vessel that a file belongs to. */
  readonly analysis: (uri: string) => VesselAnalysis | undefined;
}

/** Types whose names can be listed from anywhere in a file, by the reference that wants them. */
const WANTED_BY = {
  ZoneDecl: ['DeviceDecl', 'zone'],
  RunDecl: ['ByClause', 'runs'],
  DeviceDecl: ['SyncedProperty', 'devices'],
  BackboneDecl: ['AddEdit', 'backbone'],
  ModeDecl: ['DayPart', 'mode'],
  ModelDecl: ['DeviceDecl', 'models'],
  CableDecl: ['UsingClause', 'cable'],
  FamilyDecl: ['FamiliesProperty', 'families'],
  SignalDecl: ['HearAbility', 'signals'],
  MediumDecl: ['PortDecl', 'medium'],
  ClassDecl: ['ModelDecl', 'class'],
  ExposureDecl: ['ZoneDecl', 'exposure'],
  FuseTypeDecl: ['HoldsFeature', 'types'],
  VesselDecl: ['AboardDecl', 'vessel'],
} as const;

interface Declarations {
  ZoneDecl: ast.ZoneDecl;
  RunDecl: ast.RunDecl;
  DeviceDecl: ast.DeviceDecl;
  BackboneDecl: ast.BackboneDecl;
  ModeDecl: ast.ModeDecl;
  ModelDecl: ast.ModelDecl;
  CableDecl: ast.CableDecl;
  FamilyDecl: ast.FamilyDecl;
  SignalDecl: ast.SignalDecl;
  MediumDecl: ast.MediumDecl;
  ClassDecl: ast.ClassDecl;
  ExposureDecl: ast.ExposureDecl;
  FuseTypeDecl: ast.FuseTypeDecl;
  VesselDecl: ast.VesselDecl;
}

/** A device as it is declared, with its base model where that resolves. */
export interface DeviceAboard {
  readonly name: string;
  readonly node: ast.DeviceDecl;
  readonly model: Model | undefined;
}

export class Boat {
  readonly facts: FileFacts;
  readonly closure: Closure | undefined;
  private readonly models = new Map<ast.ModelDecl, Model | undefined>();
  private known: VesselAnalysis | undefined | null = null;
  private ownUses: Own | undefined;
  private listed: readonly DeviceAboard[] | undefined;

  constructor(
    private readonly services: BoatServices,
    readonly document: LangiumDocument,
    /** Where the statement that the cursor is in begins: what it uses itself is free for it. */
    private readonly here: number,
    /** The option that the cursor is in: it sees what it adds. */
    private readonly option: ast.OptionDecl | undefined,
  ) {
    this.facts = services.closures.facts(document);
    this.closure = services.closures.closureOf(this.facts.uri);
  }

  get closures(): Closures {
    return this.services.closures;
  }

  get analysis(): Analysis | undefined {
    return this.found()?.analysis;
  }

  private found(): VesselAnalysis | undefined {
    if (this.known === null) this.known = this.services.analysis(this.facts.uri);
    return this.known;
  }

  /** What resolves here, in the order of the files. */
  declared<T extends keyof Declarations>(type: T): readonly (readonly [string, Declarations[T]])[] {
    const [container, property] = WANTED_BY[type];
    const outer: AstNode = this.option ?? specOf(this.document);
    const info = {
      container: { $type: container, $container: outer } as AstNode,
      property,
      reference: { $refText: '' },
    } as unknown as ReferenceInfo;
    return this.services.scopes
      .getScope(info)
      .getAllElements()
      .toArray()
      .flatMap(({ name, node }) => (node?.$type === type ? [[name, node as Declarations[T]] as const] : []));
  }

  devices(): readonly DeviceAboard[] {
    this.listed ??= this.declared('DeviceDecl').map(([name, node]) => ({
      name,
      node,
      model: this.model(node.models[0]?.ref),
    }));
    return this.listed;
  }

  device(name: string | undefined): DeviceAboard | undefined {
    return name === undefined ? undefined : this.devices().find((device) => device.name === name);
  }

  model(node: ast.ModelDecl | undefined): Model | undefined {
    if (!node) return undefined;
    if (!this.models.has(node)) this.models.set(node, lowerModel(node, node.name));
    return this.models.get(node);
  }

  /** Every alternative of a device that resolves. */
  alternatives(device: DeviceAboard): readonly Model[] {
    return device.node.models.flatMap((reference) => this.model(reference.ref) ?? []);
  }

  cables(): readonly { readonly node: ast.CableDecl; readonly cable: Cable }[] {
    return this.declared('CableDecl').flatMap(([name, node]) => {
      const cable = lowerCable(node, name);
      return cable ? [{ node, cable }] : [];
    });
  }

  fuseTypes(): readonly { readonly node: ast.FuseTypeDecl; readonly type: FuseType }[] {
    return this.declared('FuseTypeDecl').map(([, node]) => ({ node, type: lowerFuseType(node) }));
  }

  /** Where a device's plugs are: behind it where it is flush mounted. */
  exposureOf(device: DeviceAboard | undefined): Exposure | undefined {
    const zone = device?.node.back?.ref ?? device?.node.zone?.ref;
    const node = zone?.exposure?.ref;
    return node && lowerExposure(node);
  }

  /** What is on a port, but for what the statement at the cursor itself puts there. */
  uses(device: string, port: string): PortUse['on'] {
    const key = `${device}.${port}`;
    const own = this.own();
    const others = (this.useTable().get(key)?.on ?? []).filter(
      ({ spot }) => !own.origins.has(spot.origin) && !(key === own.tapped && spot.origin === own.backbone),
    );
    return this.option ? [...others, ...this.addedUses(this.option, device, port)] : others;
  }

  isFree(device: string, port: Port): boolean {
    if (takesMany(port)) return true;
    // A talker has many listeners; a port that listens hears one talker.
    if (port.medium === 'nmea0183' && port.serial?.talksBaud !== undefined) return true;
    return this.uses(device, port.name).length === 0;
  }

  /** Codes of the rules that report something on a line of this file. */
  reportedAt(line: number): string[] {
    return (this.found()?.problems.get(this.facts.uri) ?? [])
      .filter((problem) => problem.place.range.start.line === line)
      .map((problem) => problem.rule);
  }

  private useTable(): ReadonlyMap<string, PortUse> {
    const { analysis } = this;
    if (!analysis) return new Map();
    let table = useTables.get(analysis);
    if (!table) {
      table = new Map(analysis.ports.map((use) => [`${use.device}.${use.port.name}`, use]));
      useTables.set(analysis, table);
    }
    return table;
  }

  /** What the last analysis has of the statement or item at the cursor. */
  private own(): Own {
    this.ownUses ??= ownIn(this.found(), this.facts.uri, this.here);
    return this.ownUses;
  }

  /** Ports that the option at the cursor gives away by name. */
  private addedUses(option: ast.OptionDecl, device: string, port: string): PortUse['on'] {
    return option.edits.flatMap((edit) => {
      const declaration = ast.isAddEdit(edit) ? edit.declaration : undefined;
      const ends = ast.isLinkDecl(declaration)
        ? [declaration.a, declaration.b]
        : ast.isFeedDecl(declaration)
          ? [declaration.from, ...declaration.to]
          : [];
      const isUsed = ends.some((end) => end?.device?.$refText === device && end.port?.$refText === port);
      return declaration?.$cstNode && declaration.$cstNode.offset !== this.here && isUsed
        ? [{ what: `option ${option.name}`, spot: { origin: '' } }]
        : [];
    });
  }
}

interface Own {
  /** Origins of what stands at the cursor. */
  readonly origins: ReadonlySet<string>;
  /** For a tap: the port that it takes, as `panel.3`, and the origin of its backbone, under which its use is kept. */
  readonly tapped: string | undefined;
  readonly backbone: string | undefined;
}

function ownIn(known: VesselAnalysis | undefined, uri: string, here: number): Own {
  const origins = new Set<string>();
  for (const [origin, node] of known?.places.origins() ?? [])
    if (node.$cstNode?.offset === here && AstUtils.getDocument(node).uri.toString() === uri)
      origins.add(origin);
  for (const { backbone, taps } of known?.analysis.backbones ?? []) {
    const items = backbone.items.filter((item) => item.kind === 'tap');
    const tap = taps[items.findIndex((item) => origins.has(item.origin))];
    if (tap) return { origins, tapped: `${tap.device}.${tap.port.name}`, backbone: backbone.origin };
  }
  return { origins, tapped: undefined, backbone: undefined };
}

const useTables = new WeakMap<Analysis, ReadonlyMap<string, PortUse>>();
