import type { Repair } from '../../finding.js';
import { rule } from '../../rule.js';
import type { BusNode, Stretch } from '../bus.js';
import type { BusAnalysis, FedStretch } from '../buses.js';
import { BUS_LEAST_VOLTS, LOAD_UNIT_AMPS } from '../units.js';
import { busText, voltsText } from './text.js';

/** `bus/voltage`: a device is left with less than 9 V, or more is lost on the way to it than may be. */
export const voltage = rule(
  {
    code: 'bus/voltage',
    severities: ['error', 'warning'],
    summary: 'A device on a backbone is left with too little voltage.',
  },
  ({ buses }, report) => {
    for (const one of buses)
      for (const fed of one.fed()) {
        const found = tooLow(one, fed, report.find) || tooMuchLost(one, fed, report.find);
        const missing = fed.drops.missing ?? fed.feeding.missing;
        if (!found && missing !== undefined) report.unknown({ origin: fed.feeding.tap.origin }, missing);
      }
  },
);

type Find = Parameters<Parameters<typeof rule>[1]>[1]['find'];

/** The device that is left with least; every other one there has more. */
function tooLow(one: BusAnalysis, fed: FedStretch, find: Find): boolean {
  const { worst } = fed.drops;
  const volts = worst === undefined ? undefined : fed.lowestAt(worst.node);
  if (worst === undefined || volts === undefined || volts >= BUS_LEAST_VOLTS) return false;
  const more = fed.stretch.nodes.filter(
    (node) => node !== worst.node && (fed.lowestAt(node) ?? BUS_LEAST_VOLTS) < BUS_LEAST_VOLTS,
  );
  find({
    message: `${worst.node.device} is left with ${voltsText(volts)} on ${busText(one.bus)} when ${fed.feeding.source} is down to ${voltsText(fed.feeding.lowestVolts ?? 0)}, and needs ${BUS_LEAST_VOLTS} V${more.length > 0 ? `; ${more.length} more there have too little` : ''}: it drops out or takes the bus down with it. ${remedy(fed)}`,
    at: worst.node.spot,
    related: [{ at: { origin: fed.feeding.tap.origin }, message: lossText(fed, worst.node) }],
    repairs: toTheMiddle(one, fed),
  });
  return true;
}

function tooMuchLost(one: BusAnalysis, fed: FedStretch, find: Find): boolean {
  const { worst } = fed.drops;
  const { limitVolts, isolated, tap } = fed.feeding;
  const lost = worst === undefined ? 0 : fed.lostAt(worst.node);
  if (worst === undefined || lost <= limitVolts + 1e-9) return false;
  find({
    message: `${voltsText(lost)} are lost on the way to ${worst.node.device} on ${busText(one.bus)}, and ${voltsText(limitVolts)} may be from ${isolated ? 'an isolated supply' : 'a battery'}: with a battery that is low, or a contact that has aged, the devices at the end drop out first. ${remedy(fed)}`,
    at: worst.node.spot,
    severity: 'warning',
    related: [{ at: { origin: tap.origin }, message: lossText(fed, worst.node) }],
    repairs: toTheMiddle(one, fed),
  });
  return true;
}

function lossText({ feeding, drops }: FedStretch, node: BusNode): string {
  const onBus = drops.nodes.get(node) ?? 0;
  const before = feeding.lostBefore;
  return `fed from ${feeding.tap.fromText}: ${voltsText(onBus)} lost on the bus${before > 0.005 ? ` and ${voltsText(before)} before the tap` : ''}`;
}

const remedy = (fed: FedStretch): string =>
  isNearMiddle(fed)
    ? 'Use a heavier cable, or feed a part of it by a second tap behind "isolate".'
    : 'Feed it nearer to its middle, use a heavier cable, or feed a part of it by a second tap behind "isolate".';

/** Whether no other point would feed the stretch with less loss. */
function isNearMiddle({ stretch, feeding }: FedStretch): boolean {
  return bestPoint(stretch) === feeding.tap.point;
}

/** The point from which the larger of the losses to both ends is least, drops left out: load units draw a constant current. */
function bestPoint(stretch: Stretch): number | undefined {
  const ohms = new Map(
    stretch.spans.map(({ point, piece }) => [
      point,
      (piece.lengthMetres ?? 0) * (piece.cable?.ohmsPerMetre ?? 0),
    ]),
  );
  const unitsAt = (point: number): number =>
    stretch.nodes.reduce((sum, node) => sum + (node.point === point ? (node.loadUnits ?? 0) : 0), 0);
  // Along one side: each span carries what hangs beyond it.
  const lossFrom = (point: number, step: 1 | -1): number => {
    const last = step > 0 ? stretch.lastPoint : stretch.firstPoint;
    let [units, loss] = [0, 0];
    for (let at = last; at !== point; at -= step) {
      units += unitsAt(at);
      loss += (ohms.get(step > 0 ? at - 1 : at) ?? 0) * units * LOAD_UNIT_AMPS * 2;
    }
    return loss;
  };
  let best: { readonly point: number; readonly loss: number } | undefined;
  for (let point = stretch.firstPoint; point <= stretch.lastPoint; point++) {
    const loss = Math.max(lossFrom(point, 1), lossFrom(point, -1));
    if (best === undefined || loss < best.loss - 1e-9) best = { point, loss };
  }
  return best?.point;
}

/** Moves the tap behind the tee or span at the point from which least is lost; none where it is there already. */
function toTheMiddle({ bus }: BusAnalysis, fed: FedStretch): readonly Repair[] {
  const { stretch, feeding } = fed;
  const point = bestPoint(stretch);
  if (point === undefined || point === feeding.tap.point) return [];
  const after =
    stretch.tees.find((tee) => tee.point === point)?.origin ??
    stretch.spans.find((span) => span.point === point - 1)?.piece.origin;
  if (after === undefined || bus.positions.get(after) === undefined) return [];
  return [
    {
      title: 'Move the tap to where least voltage is lost',
      preferred: true,
      change: { kind: 'move', at: { origin: feeding.tap.origin }, after: { origin: after } },
    },
  ];
}
