/** What is known of the boat or catalogue around the cursor: names that resolve there, models, and what is on each port. */
import type { AstNode, LangiumDocument, ReferenceInfo, ScopeProvider } from 'langium';
import type { Analysis } from '../../../checks/analysis.js';
import type { FeedResult } from '../../../checks/power/sizing/feeds.js';
import { takesMany } from '../../../checks/wiring/fit.js';
import type { Cable, Exposure, FuseType, Model, Port } from '../../../vessel/model.js';
import type { VesselAnalysis } from '../../analysis/analyses.js';
import type * as ast from '../../generated/ast.js';
import { lowerCable, lowerExposure, lowerFuseType, lowerModel } from '../../lowering/models.js';
import type { Closure, Closures } from '../../naming/closures.js';
import { specOf, type FileFacts } from '../../naming/facts.js';
import { overlayOf, type Overlay } from './overlay.js';
import { originsAt, usesIn, type Uses, type UsesOf } from './uses.js';

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

/** Where in a file the cursor stands. */
export interface Standing {
  readonly cursor: number;
  /** Where the statement or item that the cursor is in begins: what it uses itself is free for it. */
  readonly statement: number;
  /** The option that the cursor is in: it sees what it adds. */
  readonly option: ast.OptionDecl | undefined;
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
  private usesOf: UsesOf | undefined;
  private readonly overlay: Overlay | undefined;
  private listed: readonly DeviceAboard[] | undefined;

  constructor(
    private readonly services: BoatServices,
    readonly document: LangiumDocument,
    readonly at: Standing,
  ) {
    this.facts = services.closures.facts(document);
    this.closure = services.closures.closureOf(this.facts.uri);
    this.overlay = at.option && overlayOf(at.option, at.cursor);
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
    const outer: AstNode = this.at.option ?? specOf(this.document);
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
    this.listed ??= this.declared('DeviceDecl')
      .filter(([name]) => !this.overlay?.removed.has(name))
      .map(([name, node]) => ({
        name,
        node,
        model: this.model(this.overlay?.changed.get(name) ?? node.models[0]?.ref),
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

  /** The legs of the feed or tap that the cursor is in, as the last analysis has them; an option's are not in it. */
  legsHere(): readonly FeedResult[] {
    const known = this.at.option === undefined ? this.found() : undefined;
    if (known === undefined) return [];
    const origins = originsAt(known, this.facts.uri, this.at.statement);
    return known.analysis.power.feeds().filter(({ origin }) => origins.has(origin));
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
  uses(device: string, port: string): Uses {
    this.usesOf ??= usesIn(this.found(), this.overlay, this.facts.uri, this.at.statement);
    return this.usesOf(device, port);
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
}
