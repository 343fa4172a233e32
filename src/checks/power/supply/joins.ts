/** What joins the terminals of one device. */
import type { Model, Port } from '../../../vessel/model.js';
import { dcDirection } from '../../wiring/fit.js';
import { terminalId } from './banks.js';
import type { Join } from './graph.js';

/** Everything inside a device that may join its dc ports. */
export function joinsIn(device: string, model: Model): readonly Join[] {
  const ports = model.ports.filter((port) => port.medium === 'dc');
  const join = (kind: Join['kind'], a: Port, b: Port, more: Partial<Join> = {}): Join => ({
    kind,
    device,
    model,
    a: terminalId(device, a.name),
    b: terminalId(device, b.name),
    positions: [],
    // Contacts have the resistance that their model states.
    ohms: model.class === 'converter' || model.class === 'panel' ? undefined : model.resistanceOhms,
    isolated: false,
    ...more,
  });
  const inputs = ports.filter((port) => dcDirection(port) === 'in');
  const outputs = ports.filter((port) => dcDirection(port) === 'out');
  switch (model.class) {
    case 'panel':
      return [
        ...chained(inputs).map(([a, b]) => join('solid', a, b)),
        ...inputs.slice(0, 1).flatMap((a) => outputs.map((b) => join('way', a, b))),
      ];
    case 'busbar':
    case 'joint':
    case 'shunt':
      return chained(ports).map(([a, b]) => join('solid', a, b));
    case 'combiner':
      return chained(ports).map(([a, b]) => join('combiner', a, b));
    case 'chargesplitter':
      return inputs.flatMap((a) => outputs.map((b) => join('diode', a, b)));
    case 'converter':
      return inputs.flatMap((a) =>
        outputs.map((b) => join('converter', a, b, { isolated: b.dc?.isolated === true })),
      );
    case 'batteryswitch':
      return switchJoins(model, ports).map(({ a, b, positions }) => join('switch', a, b, { positions }));
    default:
      return [];
  }
}

interface Contact {
  readonly a: Port;
  readonly b: Port;
  readonly positions: readonly string[];
}

/** Every pair of posts that some position joins. */
function switchJoins(model: Model, ports: readonly Port[]): readonly Contact[] {
  return ports.flatMap((a, index) =>
    ports.slice(index + 1).flatMap((b): Contact[] => {
      const positions = model.positions
        .filter(({ joins }) => joins.includes(a.name) && joins.includes(b.name))
        .map(({ name }) => name);
      return positions.length === 0 ? [] : [{ a, b, positions }];
    }),
  );
}

/** Each item with the next: enough to join them all. */
function chained<T>(items: readonly T[]): readonly (readonly [T, T])[] {
  return items.flatMap((item, index) => {
    const next = items[index + 1];
    return next === undefined ? [] : [[item, next] as const];
  });
}
