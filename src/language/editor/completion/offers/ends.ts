/** The ends of links, feeds, tees and taps: devices that have a port to spare there, and those ports. */
import type { Port } from '../../../../vessel/model.js';
import { grouped } from '../../../../checks/wiring/ends.js';
import type { Boat, DeviceAboard } from '../boat.js';
import { deviceDetail, freePorts, joined, portDetail } from '../details.js';
import { fittingPorts, isInEvery, mustName, roleOf, type Role } from '../fitting.js';
import { around, type Place } from '../place.js';
import { partOf, textOf } from '../reading/parts.js';
import { kinds, type Suggestion } from '../suggestion.js';
import { documented, type Offer } from './offer.js';

/** Devices that have a fitting free port. */
export const endDevices: Offer = (place, boat) => {
  const role = roleOf(place, boat);
  if (!role) return [];
  if (role.kind === 'remove') return removable(place, boat);
  const isNamed = textOf(place.whole(place.part), 'port') !== undefined;
  return boat
    .devices()
    .map((device) => ({ device, ports: fittingPorts(device, role, boat) }))
    .filter(({ device, ports }) => ports.length > 0 || (role.kind === 'tee' && isTeebox(device)))
    .flatMap(({ device, ports }) =>
      !isNamed && mustName(device, role)
        ? withPorts(device, ports, deviceRank(role, ports), boat)
        : [
            {
              label: device.name,
              kind: kinds.device,
              detail: joined(deviceDetail(device), ports.length > 0 && freePorts(ports)),
              ...documented(device.node),
              rank: deviceRank(role, ports),
            },
          ],
    );
};

/** A device together with a port, where it does not do alone: one port of each kind that is free. */
function withPorts(device: DeviceAboard, ports: readonly Port[], rank: number, boat: Boat): Suggestion[] {
  return (device.model ? grouped(device.model, ports) : []).flatMap(([port]) =>
    port && isInEvery(port, device, boat)
      ? [
          {
            label: `${device.name}.${port.name}`,
            kind: kinds.device,
            detail: joined(deviceDetail(device), portDetail(port), 'free'),
            ...documented(device.node),
            rank,
          },
        ]
      : [],
  );
}

/** A tee box has its drops, and often no port of its own. */
const isTeebox = ({ model }: DeviceAboard): boolean => model?.class === 'teebox';

/** Those with one thing to be plugged in come first; hosts that say what they accept before those that do not. */
function deviceRank(role: Role, ports: readonly Port[]): number {
  const [best] = ports;
  if (role.kind === 'link') {
    const isHost = best?.medium === 'transducer' && best.accepts !== undefined;
    return role.other?.device.model?.class === 'transducer' && !isHost ? 2 : 1;
  }
  if (role.kind === 'from' || role.kind === 'to')
    return ports.some((port) => port.dc?.direction !== undefined) ? 1 : 2;
  return 1;
}

/** What an option may remove: a device, and after `--` what it is joined to. */
function removable(place: Place, boat: Boat): Suggestion[] {
  const edit = around(place, 'RemoveEdit');
  const end = edit && partOf(edit, 'a');
  const first = end && textOf(end, 'device');
  const near = place.owners[0]?.property === 'b' ? linkedTo(first, boat) : undefined;
  return boat
    .devices()
    .filter((device) => near === undefined || near.has(device.name))
    .filter((device) => device.name !== first)
    .map((device) => ({
      label: device.name,
      kind: kinds.device,
      detail: near
        ? `${deviceDetail(device)}, linked to it`
        : `${deviceDetail(device)}, with its links, feeds and panes`,
      ...documented(device.node),
    }));
}

function linkedTo(from: string | undefined, boat: Boat): Set<string> {
  return new Set(
    (boat.analysis?.links ?? []).flatMap(({ link: { a, b } }) =>
      a.device === from ? (b.device ?? []) : b.device === from ? (a.device ?? []) : [],
    ),
  );
}

/** Ports after `device.`: those that fit there and are free. */
export const endPorts: Offer = (place, boat) => {
  const role = roleOf(place, boat);
  const device = boat.device(textOf(place.part, 'device'));
  if (!role || !device) return [];
  const ports = fittingPorts(device, role, boat).filter((port) => isInEvery(port, device, boat));
  return ports.map((port) => ({
    label: port.name,
    kind: kinds.port,
    detail: joined(portDetail(port), stateOf(device, port, role, boat)),
  }));
};

function stateOf(device: DeviceAboard, port: Port, role: Role, boat: Boat): string {
  const uses = boat.uses(device.name, port.name).map((use) => use.what);
  if (role.kind === 'remove') return `on ${uses.join(' and ')}`;
  return uses.length === 0 ? 'free' : `takes more than one, on ${uses.join(' and ')}`;
}
