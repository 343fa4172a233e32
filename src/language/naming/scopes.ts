/**
 * Where a name may lead at each place. Every scope is one or two look-ups in the closure's tables, so that linking is linear;
 * completion reads the same scopes, so that what is offered is what resolves.
 */
import {
  AstUtils,
  EMPTY_SCOPE,
  stream,
  type AstNode,
  type AstNodeDescription,
  type ReferenceInfo,
  type Scope,
  type ScopeProvider,
  type Stream,
} from 'langium';
import * as ast from '../generated/ast.js';
import type { Closure, Closures } from './closures.js';
import type { Names, Namespace } from './facts.js';

const namespaceOf: Readonly<Record<string, Namespace>> = {
  ZoneDecl: 'aboard',
  RunDecl: 'aboard',
  DeviceDecl: 'aboard',
  BackboneDecl: 'aboard',
  ModeDecl: 'aboard',
  OptionDecl: 'aboard',
  ModelDecl: 'goods',
  CableDecl: 'goods',
  FamilyDecl: 'goods',
  SignalDecl: 'signal',
  MediumDecl: 'medium',
  ClassDecl: 'class',
  ExposureDecl: 'exposure',
  FuseTypeDecl: 'fusetype',
};

/** One for each target: every reference holds on to the description that it was given. */
const descriptions = new WeakMap<AstNode, AstNodeDescription>();

/** The description of a target; the path is not used, since nodes are held directly. */
function describe(name: string, node: AstNode): AstNodeDescription {
  const known = descriptions.get(node);
  if (known?.name === name) return known;
  const made = { name, node, type: node.$type, documentUri: AstUtils.getDocument(node).uri, path: '' };
  descriptions.set(node, made);
  return made;
}

/** Names given by a look-up and a listing. */
class LookupScope implements Scope {
  constructor(
    private readonly find: (name: string) => AstNode | undefined,
    private readonly list: () => Iterable<readonly [string, AstNode]>,
  ) {}

  getElement(name: string): AstNodeDescription | undefined {
    const node = this.find(name);
    return node && describe(name, node);
  }

  getElements(name: string): Stream<AstNodeDescription> {
    const found = this.getElement(name);
    return stream(found ? [found] : []);
  }

  getAllElements(): Stream<AstNodeDescription> {
    return stream(this.list()).map(([name, node]) => describe(name, node));
  }
}

function* typed(names: Names, accept: (node: AstNode) => boolean): Iterable<readonly [string, AstNode]> {
  for (const [name, nodes] of names) {
    const node = nodes.find(accept);
    if (node) yield [name, node];
  }
}

const namesScope = (names: Names, accept: (node: AstNode) => boolean): Scope =>
  new LookupScope(
    (name) => names.get(name)?.find(accept),
    () => typed(names, accept),
  );

export class WireloftScopeProvider implements ScopeProvider {
  constructor(
    private readonly closures: Closures,
    private readonly typeOf: (info: ReferenceInfo) => string,
  ) {}

  getScope(info: ReferenceInfo): Scope {
    const type = this.typeOf(info);
    if (type === 'VesselDecl') return this.vessels();
    if (type === 'PortItem') return portScope(info.container);
    if (type === 'PositionDecl') return positionScope(info.container);
    const closure = this.closures.closureAt(info.container);
    if (!closure) return EMPTY_SCOPE;
    if (type === 'Sourced') return sourcedScope(info.container, closure);
    if (type === 'SignalDecl' && ast.isSourceRef(info.container)) return tailScope(info.container, closure);
    const space = namespaceOf[type];
    if (!space) return EMPTY_SCOPE;
    const accept = (node: AstNode): boolean => node.$type === type;
    return space === 'aboard'
      ? aboardScope(info.container, closure, accept)
      : namesScope(closure.names[space], accept);
  }

  private vessels(): Scope {
    const find = (): [string, AstNode][] =>
      this.closures.vesselFiles().flatMap((uri) => {
        const document = this.closures.document(uri);
        return document
          ? this.closures.facts(document).vessels.map((vessel): [string, AstNode] => [vessel.name, vessel])
          : [];
      });
    return new LookupScope((name) => find().find(([n]) => n === name)?.[1], find);
  }
}

/** What an option adds, by name. */
export function addedBy(option: ast.OptionDecl): ReadonlyMap<string, AstNode> {
  const added = new Map<string, AstNode>();
  for (const edit of option.edits) {
    const declaration = ast.isAddEdit(edit) ? edit.declaration : undefined;
    const name = declaration && 'name' in declaration ? declaration.name : undefined;
    if (declaration && name && !added.has(name)) added.set(name, declaration);
  }
  return added;
}

/** Things aboard; inside an option, what it adds as well. */
function aboardScope(container: AstNode, closure: Closure, accept: (node: AstNode) => boolean): Scope {
  const base = closure.names.aboard;
  const option = AstUtils.getContainerOfType(container, ast.isOptionDecl);
  if (!option) return namesScope(base, accept);
  const added = addedBy(option);
  return new LookupScope(
    (name) => {
      const own = added.get(name);
      return own && accept(own) ? own : base.get(name)?.find(accept);
    },
    function* () {
      for (const [name, node] of added) if (accept(node)) yield [name, node] as const;
      yield* typed(base, accept);
    },
  );
}

/** A device or a signal; the device wins. */
function sourcedScope(container: AstNode, closure: Closure): Scope {
  const devices = aboardScope(container, closure, ast.isDeviceDecl);
  const signals = namesScope(closure.names.signal, (node) => ast.isSignalDecl(node));
  return new LookupScope(
    (name) => devices.getElement(name)?.node ?? signals.getElement(name)?.node,
    function* () {
      for (const d of devices.getAllElements()) if (d.node) yield [d.name, d.node] as const;
      for (const d of signals.getAllElements())
        if (d.node && !d.name.includes('.')) yield [d.name, d.node] as const;
    },
  );
}

/** After a device: a signal in full or without its first word. After a signal: what it covers. */
function tailScope(source: ast.SourceRef, closure: Closure): Scope {
  const signals = closure.names.signal;
  const head = source.head.ref;
  const covered = ast.isSignalDecl(head) ? `${head.name}.` : undefined;
  const find = (name: string): AstNode | undefined => {
    if (covered) return signals.get(covered + name)?.[0];
    return signals.get(name)?.[0] ?? shortened(signals).get(name);
  };
  return new LookupScope(find, function* () {
    if (covered) {
      for (const [name, nodes] of signals)
        if (name.startsWith(covered) && nodes[0]) yield [name.slice(covered.length), nodes[0]] as const;
      return;
    }
    if (!ast.isDeviceDecl(head)) return;
    for (const signal of givenBy(head)) yield [withoutFirstWord(signal.name), signal] as const;
  });
}

const withoutFirstWord = (name: string): string => name.slice(name.indexOf('.') + 1);

const shortNames = new WeakMap<Names, Map<string, AstNode>>();

function shortened(signals: Names): Map<string, AstNode> {
  let short = shortNames.get(signals);
  if (!short) {
    short = new Map();
    for (const [name, nodes] of signals) {
      const key = withoutFirstWord(name);
      if (nodes[0] && key !== name && !short.has(key)) short.set(key, nodes[0]);
    }
    shortNames.set(signals, short);
  }
  return short;
}

/** Signals that a device's models give or share. */
function* givenBy(device: ast.DeviceDecl): Iterable<ast.SignalDecl> {
  const seen = new Set<ast.SignalDecl>();
  for (const model of device.models)
    for (const property of model.ref?.properties ?? []) {
      const references = ast.isRatesProperty(property)
        ? property.key === 'gives'
          ? property.items.map((item) => item.signal)
          : []
        : ast.isSignalsProperty(property) && property.key === 'shares'
          ? property.signals
          : [];
      for (const reference of references) {
        const signal = reference.ref;
        if (signal && !seen.has(signal)) {
          seen.add(signal);
          yield signal;
        }
      }
    }
}

// ---------------------------------------------------------------- ports and positions

/** The port item of a model that a name or a number belongs to. */
function findPort(model: ast.ModelDecl, name: string): ast.PortItem | undefined {
  for (const property of model.properties) {
    if (!ast.isPortDecl(property)) continue;
    for (const item of property.items)
      if (ast.isPortName(item) ? item.name === name : inRange(item, name)) return item;
  }
  return undefined;
}

function inRange(range: ast.PortRange, name: string): boolean {
  if (!/^[0-9]{1,9}$/.test(name)) return false;
  const number = Number(name);
  return number >= Number(range.first) && number <= Number(range.last ?? range.first);
}

/** Names of a model's ports, ranges written out up to a bound. */
export function* portNames(
  model: ast.ModelDecl,
  most = 256,
): Iterable<readonly [string, ast.PortItem, ast.PortDecl]> {
  for (const property of model.properties) {
    if (!ast.isPortDecl(property)) continue;
    for (const item of property.items) {
      if (ast.isPortName(item)) {
        if (item.name) yield [item.name, item, property];
        continue;
      }
      const first = Number(item.first);
      const last = Math.min(Number(item.last ?? item.first), first + most - 1);
      for (let n = first; n <= last; n++) yield [String(n), item, property];
    }
  }
}

/** The model of an end's device; inside an option that changes it, the one it is changed to. */
function modelAt(end: ast.End): ast.ModelDecl | undefined {
  const device = end.device.ref;
  const option = AstUtils.getContainerOfType(end, ast.isOptionDecl);
  const change = option?.edits.find(
    (edit): edit is ast.ChangeEdit => ast.isChangeEdit(edit) && edit.device?.ref === device,
  );
  return change?.model?.ref ?? device?.models[0]?.ref;
}

function portScope(container: AstNode): Scope {
  const model = ast.isEnd(container)
    ? modelAt(container)
    : AstUtils.getContainerOfType(container, ast.isModelDecl);
  if (!model) return EMPTY_SCOPE;
  return new LookupScope(
    (name) => findPort(model, name),
    function* () {
      for (const [name, item] of portNames(model)) yield [name, item] as const;
    },
  );
}

function positionScope(container: AstNode): Scope {
  const device = ast.isSetDuty(container)
    ? container.device.ref
    : AstUtils.getContainerOfType(container, ast.isDeviceDecl);
  const positions =
    device?.models[0]?.ref?.properties.flatMap((p) => (ast.isPositionsProperty(p) ? p.positions : [])) ?? [];
  return new LookupScope(
    (name) => positions.find((p) => p.name === name),
    () => positions.map((p) => [p.name, p] as const),
  );
}
