import type { DeviceClass, Device, Zone } from '../../../vessel/model.js';
import type { Context } from '../../context.js';
import { rule, type Report } from '../../rule.js';
import { sitsAt, endsOf, terminalAt } from '../protection/net.js';
import { fittedOn, fittedSpot, fittedText } from './text.js';

/** What makes or breaks contacts, or has brushes. */
const SPARKS: ReadonlySet<DeviceClass> = new Set<DeviceClass>([
  'batteryswitch',
  'combiner',
  'charger',
  'converter',
  'inverter',
  'panel',
  'engine',
  'pilot',
  'load',
]);
/** What has no contact of its own. */
const CALM: ReadonlySet<DeviceClass> = new Set<DeviceClass>([
  'battery',
  'busbar',
  'joint',
  'teebox',
  'antenna',
  'antennasplitter',
  'compass',
  'transducer',
]);

/** `place/ignition`: a sparking device that is not ignition-protected where petrol vapour may collect (33 CFR 183.410). */
export const ignition = rule(
  {
    code: 'place/ignition',
    severities: ['error'],
    summary:
      'A fuse, switch, relay, charger or other sparking device in a petrol space is not ignition-protected.',
  },
  (context, report) => {
    const { vessel, lookup } = context;
    if (!vessel.zones.some((zone) => zone.fuel === 'petrol')) return;
    for (const device of vessel.devices) {
      const model = lookup.modelOf(device.name);
      const zone = petrol(lookup.zone(device.back), lookup.zone(device.zone));
      if (model === undefined || zone === undefined || device.leaving || CALM.has(model.class)) continue;
      if (model.ignitionProtected) continue;
      const at = { origin: device.origin, part: 'zone' };
      if (!SPARKS.has(model.class)) {
        if (model.ports.some((port) => port.medium === 'dc' || port.medium === 'ac'))
          report.unknown(at, `${model.name} does not say whether it is ignition protected`);
        continue;
      }
      report.find({
        message: `${device.name} is in zone ${zone.name}, where petrol vapour may collect, and ${model.name} is not ignition protected: a spark at its contacts lights the vapour. Move it to another zone, or use a model that says "ignition protected".`,
        at,
        related: [{ at: { origin: zone.origin }, message: `zone ${zone.name} is a petrol space` }],
      });
    }
    fuses(context, report);
  },
);

const petrol = (...zones: readonly (Zone | undefined)[]): Zone | undefined =>
  zones.find((zone) => zone?.fuel === 'petrol');

function fuses({ supply, lookup }: Context, report: Report): void {
  for (const fitted of fittedOn(supply.edges)) {
    const { edge, device } = fitted;
    const end = endsOf(edge).find((one) => sitsAt(device, one)) ?? 'from';
    const terminal = terminalAt(edge, end);
    const place = terminal === undefined ? undefined : supply.terminals.get(terminal);
    const at: Device | undefined = place?.kind === 'port' ? lookup.device(place.device) : undefined;
    const zone = petrol(lookup.zone(at?.back), lookup.zone(at?.zone));
    if (zone === undefined || at === undefined || device.type?.ignitionProtected === true) continue;
    // A panel that is ignition protected is so with its fuses.
    if (device.inWay && lookup.modelOf(at.name)?.ignitionProtected === true) continue;
    if (device.end === undefined || (device.type === undefined && device.protection.device === 'fuse')) {
      report.unknown(
        fittedSpot(fitted),
        `${fittedText(device)} on ${edge.text} does not say ${device.end === undefined ? 'where it sits' : 'its type'}, and ${at.name} is in a petrol space`,
      );
      continue;
    }
    if (device.type === undefined) {
      report.unknown(
        fittedSpot(fitted),
        `${fittedText(device)} at ${at.name} does not say whether it is ignition protected`,
      );
      continue;
    }
    report.find({
      message: `${fittedText(device)} sits at ${at.name} in zone ${zone.name}, where petrol vapour may collect, and its type is not ignition protected: it sparks when it opens. Use a type that is, such as mrbf or anl, or put it outside the zone.`,
      at: fittedSpot(fitted),
      related: [{ at: { origin: zone.origin }, message: `zone ${zone.name} is a petrol space` }],
    });
  }
}
