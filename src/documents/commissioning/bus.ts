/** Tests of the NMEA 2000 backbones, and what a reading that is off means. */
import type { Analysis } from '../../checks/analysis.js';
import type { BusAnalysis, FedStretch } from '../../checks/buses/buses.js';
import type { Bus, BusNode, Span, Stretch } from '../../checks/buses/bus.js';
import { count, listOf, number } from '../../vessel/words.js';
import { numberCables } from '../numbering.js';
import type { Test } from './steps.js';

/** Of a terminator, one at each end. NMEA 2000. */
const TERMINATOR_OHMS = 120;
/** What a meter shows between the data wires with so many terminators; the devices' own resistance is high. */
const acrossPair = (terminators: number): string => `${number(TERMINATOR_OHMS / terminators, 0)} ohm`;

/** Resistance and earth with power off, and the voltage of each device with power on. */
export function busTests({ buses }: Analysis): readonly Test[] {
  return buses.flatMap((analysed) => {
    const { bus } = analysed;
    return [resistance(bus), earth(bus), ...voltages(analysed)];
  });
}

function resistance(bus: Bus): Test {
  const fitted = bus.terminators.length;
  return {
    stage: 'power off',
    test: 'resistance between the data wires, CAN H to CAN L',
    at: `backbone ${bus.name}`,
    expected: acrossPair(2),
    note:
      fitted === 2
        ? null
        : `the spec has ${count(fitted, 'terminator')}: it would read ${fitted === 0 ? 'open' : acrossPair(fitted)}`,
  };
}

function earth(bus: Bus): Test {
  const { length } = bus.grounds;
  return {
    stage: 'power off',
    test: 'earth of the drain wire: lift it there, and no path to negative may be left',
    at: `backbone ${bus.name}`,
    expected: length === 0 ? null : 'one place only',
    note:
      length === 0
        ? 'the spec does not say where it is grounded'
        : length > 1
          ? `the spec grounds it in ${length} places`
          : null,
  };
}

/** Volts at a device with the battery at its lowest; undefined where not all of it is known. */
function voltsAt(bus: Bus, stretch: FedStretch | undefined, node: BusNode): number | undefined {
  if (stretch === undefined || bus.open || stretch.drops.missing !== undefined) return undefined;
  return stretch.lowestAt(node);
}

function voltages({ bus, fed }: BusAnalysis): readonly Test[] {
  const stretches = new Map(fed().map((one) => [one.stretch.number, one]));
  return bus.nodes.map((node): Test => {
    const stretch = stretches.get(node.stretch);
    const expected = voltsAt(bus, stretch, node);
    const missing =
      stretch === undefined
        ? 'nothing feeds it as specified'
        : (stretch.drops.missing ?? stretch.feeding.missing ?? 'something on the bus is not declared');
    const lost = stretch?.drops.nodes.get(node);
    return {
      stage: 'power on',
      test: 'voltage on the bus, NET-S to NET-C',
      at: `${node.device} on ${bus.name}`,
      expected:
        expected === undefined ? null : `${number(expected)} V or more with the battery at its lowest`,
      note:
        expected === undefined
          ? missing
          : lost === undefined
            ? null
            : `${number(lost)} V under the tap at the most`,
    };
  });
}

/** What a reading says and where to look. */
export interface FaultRow {
  readonly bus: string;
  readonly reading: string;
  readonly means: string;
  readonly look: string;
}

/** The fault finder, from the figures of the commissioning sheet. */
export function faultFinder(analysis: Analysis): readonly FaultRow[] {
  const { of } = numberCables(analysis);
  return analysis.buses.flatMap(({ bus, fed }) => [
    ...resistances(bus),
    ...bus.stretches.flatMap((stretch) =>
      stretch.spans.map((span) => spanFault(bus, stretch, span, fed(), of(span.piece.origin))),
    ),
  ]);
}

function resistances(bus: Bus): readonly FaultRow[] {
  const row = (reading: string, means: string, look: string): FaultRow => ({
    bus: bus.name,
    reading,
    means,
    look,
  });
  return [
    row(
      acrossPair(1),
      'a terminator is missing, or the data pair is broken',
      'both ends, then the plugs between',
    ),
    row(acrossPair(3), 'three terminators are fitted', 'tees and devices that should have none'),
    row('open', 'no terminator is fitted, or the pair is broken where you measure', 'both ends'),
    row(
      'a few ohm or less',
      'the data wires touch',
      'plugs made off by hand, then half of the backbone at a time',
    ),
  ];
}

function spanFault(
  bus: Bus,
  stretch: Stretch,
  span: Span,
  fed: readonly FedStretch[],
  cable: string | undefined,
): FaultRow {
  const name = `span ${bus.spans.indexOf(span) + 1}${cable === undefined ? '' : ` (${cable})`} and its plugs`;
  const before = (point: number): boolean => point <= span.point;
  const sides = new Set(stretch.taps.map(({ point }) => before(point)));
  const row = (reading: string, means: string): FaultRow => ({ bus: bus.name, reading, means, look: name });
  if (sides.size !== 1)
    return row(
      `less than expected on one side of span ${bus.spans.indexOf(span) + 1}`,
      sides.size === 0
        ? 'unknown: nothing feeds this stretch as specified'
        : 'it is fed from both sides, and one is lost',
    );
  const fedBefore = sides.has(true);
  const beyond = stretch.tees.filter(({ point }) => before(point) !== fedBefore);
  const nearest = fedBefore ? beyond[0] : beyond[beyond.length - 1];
  const nodes = beyond.flatMap((one) => one.nodes);
  const node = fedBefore ? nodes[0] : nodes[nodes.length - 1];
  if (nearest === undefined || node === undefined)
    return row(
      'no voltage tells',
      `no device is beyond it; a break there shows as ${acrossPair(1)} with power off`,
    );
  const tee = bus.tees.indexOf(nearest) + 1;
  const volts = voltsAt(
    bus,
    fed.find((one) => one.stretch === stretch),
    node,
  );
  const expected =
    volts === undefined
      ? 'unknown what is expected there'
      : `expected ${number(volts)} V or more at ${node.device}`;
  const teeName = nearest.device === undefined ? `tee ${tee}` : `tee ${tee} (${nearest.device})`;
  return row(
    `less than expected from ${teeName} on, away from the tap; ${expected}`,
    `too much is lost before ${listOf([...new Set(nodes.map(({ device }) => device))])}`,
  );
}
