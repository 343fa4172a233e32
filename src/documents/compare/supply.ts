/**
 * What changes at a conductor or on a backbone, whether its own text changed or not: wire, fuse, current and the voltage that
 * arrives. A longer feeder or one more pump is felt by what was not touched.
 */
import type { Analysis } from '../../checks/analysis.js';
import { compareText, number } from '../../vessel/words.js';
import type { SupplyChange } from './model.js';
import type { Renamed } from './objects.js';

/** What is less is rounding to whoever measures it. */
const LEAST_VOLTS = 0.05;
const LEAST_AMPS = 0.1;

interface Figures {
  readonly wire: string | null;
  readonly protection: string | null;
  readonly amps: number | null;
  readonly volts: number | null;
}

/** Of what both revisions have; what is new or gone is told of as a feed. */
export function supplyChanges(before: Analysis, after: Analysis, renamed: Renamed): readonly SupplyChange[] {
  const [olds, news] = [figuresOf(before, renamed), figuresOf(after, (name) => name)];
  return [...news]
    .sort(([a], [b]) => compareText(a, b))
    .flatMap(([at, now]): readonly SupplyChange[] => {
      const old = olds.get(at);
      if (old === undefined) return [];
      const wire = old.wire === now.wire ? null : { before: old.wire, after: now.wire };
      const protection =
        old.protection === now.protection ? null : { before: old.protection, after: now.protection };
      const amps = felt(old.amps, now.amps, LEAST_AMPS);
      const volts = felt(old.volts, now.volts, LEAST_VOLTS);
      return wire || protection || amps || volts ? [{ at, wire, protection, amps, volts }] : [];
    });
}

function felt(before: number | null, after: number | null, least: number): SupplyChange['volts'] {
  if (before === after) return null;
  if (before !== null && after !== null && Math.abs(after - before) < least) return null;
  return { before, after };
}

/** Each leg of each feed and tap, and each device on a backbone. */
function figuresOf(analysis: Analysis, renamed: Renamed): ReadonlyMap<string, Figures> {
  const found = new Map<string, Figures>();
  const put = (name: string, figures: Figures): void => {
    let unique = name;
    for (let count = 2; found.has(unique); count++) unique = `${name} (${count})`;
    found.set(unique, figures);
  };
  const end = (text: string): string => {
    const [device = '', ...port] = text.split('.');
    return [renamed(device), ...port].join('.');
  };
  for (const { from, to, wire, protection, maxAmps, loadVolts } of analysis.power.feeds()) {
    const fuses = protection.map(
      ({ device, amps, type, at }) =>
        `${device} ${amps === undefined ? 'of unknown rating' : `${number(amps)} A`}${type === undefined ? '' : ` ${type}`}${at === undefined ? '' : ` at ${renamed(at)}`}`,
    );
    put(`${end(from)} -> ${end(to)}`, {
      wire: wire.size ?? null,
      protection: fuses.length === 0 ? null : fuses.sort(compareText).join(', '),
      amps: maxAmps === undefined ? null : rounded(maxAmps),
      volts: loadVolts === undefined ? null : rounded(loadVolts),
    });
  }
  for (const { bus, fed } of analysis.buses)
    for (const { stretch, lowestAt } of fed())
      for (const node of stretch.nodes) {
        const volts = lowestAt(node);
        put(`${renamed(node.device)} on backbone ${bus.name}`, {
          wire: null,
          protection: null,
          amps: null,
          volts: volts === undefined ? null : rounded(volts),
        });
      }
  return found;
}

const rounded = (value: number): number => Math.round(value * 1000) / 1000;
