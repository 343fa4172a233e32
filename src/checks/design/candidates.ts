/** Which models may stand in the place of a device. */
import type { Device, Model } from '../../vessel/model.js';
import { compareText } from '../../vessel/words.js';
import type { Context } from '../context.js';
import { bridgesEthernet } from '../network/ethernet.js';
import { dcDirection } from '../wiring/fit.js';
import type { Candidate } from './problem.js';
import type { Prices } from './prices.js';

/**
 * The models of a device, the present one first. Where the spec leaves a choice open they are those it lists; a display may also
 * become another of its family that is at least as large and has what the display has in use; a switch may become another.
 */
export function modelsFor(context: Context, device: Device, kept: boolean): readonly Model[] {
  const listed = context.lookup.alternativesOf(device.name);
  const [present] = listed;
  if (present === undefined || kept || device.existing) return listed.slice(0, 1);
  if (listed.length > 1) return listed;
  const others =
    present.class === 'display'
      ? displaysLike(context, device, present)
      : present.class === 'switch'
        ? switches(context)
        : [];
  return [present, ...others.filter((model) => model !== present)];
}

/** Every switch of the catalogues in use. */
export function switches({ vessel }: Context): readonly Model[] {
  return Object.values(vessel.models)
    .filter((model) => model.class === 'switch')
    .sort((a, b) => compareText(a.name, b.name));
}

export function candidateOf(
  prices: Prices,
  model: Model,
  at: { readonly device: Device | undefined; readonly present: boolean; readonly held: number },
): Candidate | undefined {
  const price = at.device?.existing === true ? 0 : prices.ofModel(model);
  // What the catalogue has no price for may stay, and is not offered.
  if (price === undefined && !at.present) return undefined;
  const quantity = (at.device?.series ?? 1) * (at.device?.parallel ?? 1);
  const ports = model.ports.filter((port) => port.medium === 'ethernet').length - at.held;
  const holds = bridgesEthernet(model) ? ports : Math.min(ports, 1 - Math.min(1, at.held));
  return {
    model,
    cost: (price ?? 0) * quantity + (at.device?.existing === true ? 0 : prices.mounting),
    holds: Math.max(0, holds),
    ports: Math.max(0, ports),
    present: at.present,
  };
}

function displaysLike(context: Context, device: Device, present: Model): readonly Model[] {
  const { vessel } = context;
  const size = present.screenMetres;
  if (size === undefined) return [];
  return Object.values(vessel.models)
    .filter(
      (model) =>
        model.class === 'display' &&
        model.screenMetres !== undefined &&
        model.screenMetres >= size &&
        model.families.some((family) => present.families.includes(family)) &&
        hasAll(model.shows, present.shows) &&
        hasAll(model.shares, present.shares) &&
        hasWhatIsUsed(context, device.name, present, model),
    )
    .sort((a, b) => compareText(a.name, b.name));
}

function hasAll(has: readonly string[], wanted: readonly string[]): boolean {
  return wanted.every((one) => has.includes(one));
}

/** Ports in use, bar those of the network, have to be there by their names, and be able to do what they do. */
function hasWhatIsUsed({ wiring }: Context, device: string, present: Model, other: Model): boolean {
  return present.ports.every((port) => {
    if (port.medium === 'ethernet' || wiring.useOf(device, port.name).length === 0) return true;
    const same = other.ports.find((one) => one.name === port.name);
    return (
      same?.medium === port.medium &&
      same.ownPlug === port.ownPlug &&
      (port.accepts !== 'hd' || same.accepts === 'hd') &&
      (port.sealed ? same.sealed : true) &&
      (port.dc === undefined || (same.dc !== undefined && dcDirection(port) === dcDirection(same)))
    );
  });
}
