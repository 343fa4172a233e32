/** Batteries as banks, and what else gives current. */
import type { Device, DeviceClass, Model } from '../../../vessel/model.js';
import { dcDirection } from '../../wiring/fit.js';
import type { Bank, Output } from './graph.js';

/** The bank that a battery device is. `series` and `parallel` are one where they are not said. */
export function bankOf(device: Device, model: Model): Bank {
  const series = device.series ?? 1;
  const parallel = device.parallel ?? 1;
  const times = (value: number | undefined, factor: number): number | undefined =>
    value === undefined ? undefined : value * factor;
  return {
    device: device.name,
    model,
    terminals: model.ports.flatMap((port) =>
      port.medium === 'dc' ? [terminalId(device.name, port.name)] : [],
    ),
    series,
    parallel,
    nominalVolts: times(model.volts, series),
    lowestVolts: times(model.lowestVolts, series),
    chargesVolts: times(model.chargesVolts, series),
    sagsVolts: times(model.sagsVolts, series),
    ampHours: times(model.capacity?.ampHours, parallel),
    ratedHours: model.capacity?.atHours,
    ohms: times(model.resistanceOhms, series / parallel),
    shortCircuitAmps: times(model.shortCircuitAmps, parallel),
    ccaAmps: times(model.ccaAmps, parallel),
    chemistry: model.chemistry,
  };
}

/** A bank's resistance in ohms: from its stated short-circuit current, which is a test's result, else as stated. */
export function insideOhms({ shortCircuitAmps, nominalVolts, ohms }: Bank): number | undefined {
  return shortCircuitAmps !== undefined && shortCircuitAmps > 0 && nominalVolts !== undefined
    ? nominalVolts / shortCircuitAmps
    : ohms;
}

const KINDS: Readonly<Partial<Record<DeviceClass, Output['kind']>>> = {
  charger: 'charger',
  inverter: 'charger',
  engine: 'alternator',
  solar: 'solar',
  converter: 'converter',
};
/** They pass on what comes in, and give nothing of their own. */
const PASSIVE: ReadonlySet<DeviceClass> = new Set<DeviceClass>([
  'battery',
  'panel',
  'busbar',
  'shunt',
  'joint',
  'batteryswitch',
  'combiner',
  'chargesplitter',
]);

/** Whether a class only passes current on. */
export function passesOn(kind: DeviceClass): boolean {
  return PASSIVE.has(kind) && kind !== 'battery';
}

/** The outputs of a device. A starter that also charges is one: it states what it gives. */
export function outputsOf(device: string, model: Model): readonly Output[] {
  if (PASSIVE.has(model.class)) return [];
  return model.ports.flatMap((port): Output[] => {
    if (port.dc === undefined) return [];
    const gives = dcDirection(port) === 'out' || port.dc.outVolts !== undefined;
    if (!gives) return [];
    return [
      {
        device,
        model,
        terminal: terminalId(device, port.name),
        kind: KINDS[model.class] ?? 'other',
        volts: port.dc.outVolts,
        limitsAmps: port.dc.limitsAmps,
      },
    ];
  });
}

/** The name of a terminal: `panel.1`. */
export function terminalId(device: string, port: string): string {
  return `${device}.${port}`;
}

/** The voltage class of a figure: 12 for 14.4 V, 24 for 28.8 V; undefined under 7 V. */
export function classOf(volts: number): number | undefined {
  const cells = Math.round(volts / 13.2);
  return cells >= 1 ? cells * 12 : undefined;
}
