/**
 * What is drawn where in each mode: by devices, by converters for what hangs on them, and by backbones for what they power.
 * Without a mode everything is on.
 */
import type { Draw, Mode, Vessel } from '../../../vessel/model.js';
import type { Lookup } from '../../../vessel/lookup.js';
import type { SupplyGraph, Terminal } from '../supply/graph.js';
import { busTakers, type BusTaker } from './bus.js';
import { consumerAt, type Consumer } from './consumers.js';
import { converterLoads } from './converters.js';
import { dutiesOf, type RunningOf } from './duties.js';
import { runs, type TerminalLoad } from './load.js';

/** A starter motor: it draws for seconds, and no mode counts it. */
export interface Starter {
  readonly terminal: string;
  readonly device: string;
  readonly amps: number;
  readonly seconds: number | undefined;
}

export interface ModeLoads {
  readonly mode: Mode | undefined;
  /** In the order of the terminals; every consumer, also those that are off; what comes out of the boat is none. */
  readonly all: readonly TerminalLoad[];
  readonly at: (terminal: string) => TerminalLoad | undefined;
}

export interface Loads {
  /** The modes of the boat; one that has no name where none is declared. */
  readonly modes: readonly (Mode | undefined)[];
  /** What each terminal draws in a mode; with everything on where none is given. Remembered. */
  readonly loadsIn: (mode?: Mode) => ModeLoads;
  readonly starters: readonly Starter[];
}

/** Prepare the loads of a boat. Nothing is worked out until it is asked for. */
export function createLoads(vessel: Vessel, lookup: Lookup, graph: SupplyGraph): Loads {
  const known = new Map<Mode | undefined, ModeLoads>();
  let takers: ReadonlyMap<string, readonly BusTaker[]> | undefined;
  const work = (mode: Mode | undefined): ModeLoads => {
    takers ??= busTakers(vessel, lookup);
    const running = dutiesOf(mode);
    const plain: TerminalLoad[] = [];
    for (const terminal of graph.terminals.values()) {
      const load = loadAt(lookup, graph, terminal, running, takers);
      if (load !== undefined) plain.push(load);
    }
    const all = [...plain, ...converterLoads(graph, graph.stateIn(mode), plain)];
    const byTerminal = new Map(all.map((load) => [load.terminal, load]));
    return { mode, all, at: (terminal) => byTerminal.get(terminal) };
  };
  return {
    modes: vessel.modes.length > 0 ? vessel.modes : [undefined],
    loadsIn: (mode) => {
      let found = known.get(mode);
      if (found === undefined) {
        found = work(mode);
        known.set(mode, found);
      }
      return found;
    },
    starters: [...graph.terminals.values()].flatMap((terminal): Starter[] => {
      const cranks = terminal.kind === 'port' ? terminal.port.dc?.cranks : undefined;
      return terminal.kind !== 'port' || cranks === undefined
        ? []
        : [{ terminal: terminal.id, device: terminal.device, ...cranks }];
    }),
  };
}

function loadAt(
  lookup: Lookup,
  graph: SupplyGraph,
  terminal: Terminal,
  running: RunningOf,
  takers: ReadonlyMap<string, readonly BusTaker[]>,
): TerminalLoad | undefined {
  if (terminal.kind === 'bus')
    return busLoad(terminal.id, terminal.backbone.name, takers.get(terminal.id) ?? [], running);
  const consumer = consumerAt(graph, terminal.id);
  if (consumer === undefined || consumer.model.class === 'converter') return undefined;
  const dc = consumer.port.dc;
  // A starter's seconds are no load of a mode; what an engine draws besides has a port of its own, or is said.
  if (dc?.cranks !== undefined && dc.draws === undefined && dc.max === undefined) return undefined;
  return lookup.device(consumer.device)?.leaving === true ? undefined : deviceLoad(consumer, running);
}

function deviceLoad({ id, device, port, model }: Consumer, running: RunningOf): TerminalLoad {
  const { draws, max, standby } = port.dc ?? {};
  const on = running(device);
  const state = on !== undefined ? 'on' : standby !== undefined ? 'standby' : 'off';
  const capable = { typical: draws ?? max, maximum: max ?? draws, standby };
  const duty = on ?? { duty: 0, maxDuty: 0 };
  return {
    terminal: id,
    kind: 'device',
    device,
    state,
    ...capable,
    ...duty,
    ...runs(state, capable, duty),
    missing:
      state === 'on' && capable.typical === undefined
        ? `${model.name} does not say what it draws`
        : undefined,
  };
}

/** What is powered through a bus can't be switched off by itself: while one is on, all are. */
function busLoad(
  id: string,
  backbone: string,
  takers: readonly BusTaker[],
  running: RunningOf,
): TerminalLoad {
  const state = takers.some(({ device }) => running(device) !== undefined) ? 'on' : 'off';
  const draw: Draw = { amount: takers.reduce((total, { amps }) => total + (amps ?? 0), 0), unit: 'A' };
  const capable = { typical: draw, maximum: draw, standby: undefined };
  const duty = { duty: state === 'on' ? 1 : 0, maxDuty: 0 };
  return {
    terminal: id,
    kind: 'bus',
    device: backbone,
    state,
    ...capable,
    ...duty,
    ...runs(state, capable, duty),
    missing: state === 'on' ? takers.find(({ missing }) => missing !== undefined)?.missing : undefined,
  };
}
