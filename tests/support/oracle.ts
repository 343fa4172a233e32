/**
 * An independent judge of sharing, written from docs/language.md alone ("What is shared with whom"). It imports nothing of the
 * checks, searches by brute force, and takes vessels whose links name their ports, or leave them out only at a range.
 */
import type { End, Link, Model, Port, Vessel } from '../../src/vessel/model.js';

/** What a trace claims. */
export interface Claim {
  readonly screen: string;
  readonly source: string;
  readonly signal: string;
  readonly by: 'own' | 'network' | 'bus' | null;
  readonly path: readonly string[];
  readonly needsPowered: readonly string[];
}

const covers = (general: string, signal: string): boolean =>
  signal === general || signal.startsWith(`${general}.`);

function modelOf(vessel: Vessel, device: string): Model | undefined {
  return vessel.models[vessel.devices.find((one) => one.name === device)?.models[0] ?? ''];
}

function portsAt(vessel: Vessel, end: End): readonly Port[] {
  if (end.device === undefined || end.portUnresolved) return [];
  return (modelOf(vessel, end.device)?.ports ?? []).filter(
    (port) => end.port === undefined || port.name === end.port,
  );
}

/** The ports of a link, near end first, where it joins the device to something by ports that go together. */
function joints(
  vessel: Vessel,
  device: string,
): readonly { readonly to: string; readonly near: Port; readonly far: Port; readonly link: Link }[] {
  return vessel.links.flatMap((link) => {
    const [near, far] =
      link.a.device === device ? [link.a, link.b] : link.b.device === device ? [link.b, link.a] : [];
    if (near === undefined || far?.device === undefined) return [];
    const to = far.device;
    return portsAt(vessel, near)
      .flatMap((p) =>
        portsAt(vessel, far)
          .filter((q) => q.medium === p.medium)
          .slice(0, 1)
          .map((q) => ({ to, near: p, far: q, link })),
      )
      .slice(0, 1);
  });
}

const SHARED_MEDIA = ['ethernet', 'nmea2000', 'nmea0183', 'dc', 'ac'];

/** Devices that a source is plugged into and that accept it, through couplers. */
function hostsOf(vessel: Vessel, source: string, signal: string): readonly string[] {
  const grade = modelOf(vessel, source)?.gives.find((give) => give.signal === signal)?.grade;
  return joints(vessel, source).flatMap((joint) => {
    if (SHARED_MEDIA.includes(joint.near.medium)) return [];
    const sonar = joint.far.medium === 'transducer' && covers('sonar', signal);
    const accepted = joint.far.accepts === 'hd' || (joint.far.accepts === 'standard' && grade !== 'hd');
    return sonar && !accepted ? [] : [joint.to];
  });
}

const passes = (model: Model | undefined): boolean =>
  model?.class === 'switch' || model?.class === 'joint' || (model?.bridges.includes('ethernet') ?? false);

/** Whether ethernet joins two devices through devices that bridge and are on. */
function joined(vessel: Vessel, from: string, to: string, off: ReadonlySet<string>): boolean {
  const seen = new Set([from]);
  const queue = [from];
  for (const at of queue) {
    for (const joint of joints(vessel, at)) {
      if (joint.near.medium !== 'ethernet') continue;
      if (joint.to === to) return true;
      if (seen.has(joint.to) || off.has(joint.to) || !passes(modelOf(vessel, joint.to))) continue;
      seen.add(joint.to);
      queue.push(joint.to);
    }
  }
  return from === to;
}

function families(vessel: Vessel, from: string, to: string): boolean {
  const one = modelOf(vessel, from)?.families ?? [];
  const other = modelOf(vessel, to)?.families ?? [];
  return one.length === 0 || other.length === 0 || one.some((family) => other.includes(family));
}

/** Devices to which a bus brings a signal, from a source over backbones, lines and gateways that are on. */
function busReach(
  vessel: Vessel,
  source: string,
  signal: string,
  off: ReadonlySet<string>,
): ReadonlySet<string> {
  const { pgn, sentence } = vessel.signals[signal] ?? {};
  const reached = new Set<string>();
  const sent = new Set<string>();
  const heard = (device: string, port: string | undefined): void => {
    reached.add(device);
    if (off.has(device)) return;
    for (const passing of modelOf(vessel, device)?.passes ?? []) {
      if (port === undefined || !passing.from.includes(port)) continue;
      const dropped =
        passing.filter?.kind === 'without' &&
        passing.filter.messages.some((one) => one === sentence || one === String(pgn));
      if (!dropped) send(device, passing.to);
    }
  };
  const send = (device: string, port: string): void => {
    if (sent.has(`${device}.${port}`)) return;
    sent.add(`${device}.${port}`);
    const medium = modelOf(vessel, device)?.ports.find((one) => one.name === port)?.medium;
    if (medium === 'nmea2000' && pgn !== undefined) {
      for (const backbone of vessel.backbones) {
        const devices = backbone.items.flatMap((item) =>
          item.kind === 'tee' ? (item.end?.device ?? []) : [],
        );
        if (!devices.includes(device)) continue;
        for (const other of devices) {
          if (other !== device)
            heard(other, modelOf(vessel, other)?.ports.find((one) => one.medium === 'nmea2000')?.name);
        }
      }
    }
    if (medium === 'nmea0183' && sentence !== undefined) {
      for (const joint of joints(vessel, device)) {
        if (
          joint.near.name === port &&
          joint.near.serial?.talksBaud !== undefined &&
          joint.far.serial?.listensBaud !== undefined
        )
          heard(joint.to, joint.far.name);
      }
    }
  };
  for (const port of modelOf(vessel, source)?.ports ?? []) send(source, port.name);
  return reached;
}

/** Whether a screen certainly shows a signal of another device. */
export function reaches(
  vessel: Vessel,
  screen: string,
  source: string,
  signal: string,
  off: ReadonlySet<string>,
): boolean {
  const from = modelOf(vessel, source);
  const to = modelOf(vessel, screen);
  if (from === undefined || to === undefined || off.has(screen) || off.has(source)) return false;
  const gives = from.gives.some((give) => give.signal === signal);
  const shown = to.shows.some((one) => covers(one, signal));
  const hosts = hostsOf(vessel, source, signal);
  if (gives && shown && hosts.includes(screen)) return true;
  const putOn = hosts.filter(
    (host) => !off.has(host) && (modelOf(vessel, host)?.shares.some((one) => covers(one, signal)) ?? false),
  );
  const userData =
    from.class === 'display' && from.shares.includes(signal) && ['chart', 'waypoints'].includes(signal);
  const itself = (gives || userData) && from.ports.some((port) => port.medium === 'ethernet') ? [source] : [];
  const onNetwork = [...(gives ? putOn : []), ...itself];
  if (shown && onNetwork.some((host) => families(vessel, host, screen) && joined(vessel, host, screen, off)))
    return true;
  const wanted = shown || to.wants.some((want) => covers(want.signal, signal));
  return gives && wanted && busReach(vessel, source, signal, off).has(screen);
}

/** Walk a trace again, step by step. Null where it holds, else what is wrong with it. */
export function rewalk(vessel: Vessel, claim: Claim): string | null {
  const { path, by } = claim;
  if (path[0] !== claim.source || path.at(-1) !== claim.screen)
    return 'the path does not go from the source to the screen';
  if (new Set(path).size !== path.length) return 'the path goes round in a circle';
  const dark = path.slice(1, -1).filter((device) => modelOf(vessel, device)?.class !== 'joint');
  if (dark.join() !== claim.needsPowered.join())
    return `powered should be ${dark.join()}, not ${claim.needsPowered.join()}`;
  for (let at = 1; at < path.length; at += 1) {
    const [from = '', to = ''] = [path[at - 1], path[at]];
    const linked = joints(vessel, from).filter((joint) => joint.to === to);
    const bused = vessel.backbones.some((backbone) => {
      const devices = backbone.items.flatMap((item) => (item.kind === 'tee' ? (item.end?.device ?? []) : []));
      return devices.includes(from) && devices.includes(to);
    });
    const fits =
      by === 'bus'
        ? bused || linked.some((joint) => joint.near.medium === 'nmea0183')
        : by === 'network'
          ? linked.some(
              (joint) =>
                joint.near.medium === 'ethernet' || (at === 1 && !SHARED_MEDIA.includes(joint.near.medium)),
            )
          : linked.some((joint) => !SHARED_MEDIA.includes(joint.near.medium));
    if (!fits) return `nothing joins ${from} to ${to} for a way by ${by ?? 'nothing'}`;
    const ethernetAfter = by === 'network' && at + 1 < path.length;
    const isHost = at === 1 && linked.some((joint) => !SHARED_MEDIA.includes(joint.near.medium));
    if (ethernetAfter && !isHost && !passes(modelOf(vessel, to))) return `${to} does not bridge ethernet`;
  }
  return null;
}
