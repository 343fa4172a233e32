/** `need BANK last TIME in MODE and crank ENGINE`: whether it does. */
import type { Interval, Need, Vessel } from '../../../vessel/model.js';
import { listOf, number } from '../../../vessel/words.js';
import type { NeedResult } from '../../analysis.js';
import type { Starter } from '../loads/loads.js';
import type { SupplyGraph } from '../supply/graph.js';
import type { BankFlow } from './flow.js';
import { startAmpHours } from './cranks.js';
import type { Store } from './store.js';

type Judgement = Pick<NeedResult, 'met' | 'reason'>;
type Lasting = Need & { readonly kind: 'last' };

interface Ground {
  readonly vessel: Vessel;
  readonly graph: SupplyGraph;
  readonly starters: readonly Starter[];
  readonly flowOf: (bank: string, mode: string | undefined) => BankFlow | undefined;
}

const unknown = (reason: string): Judgement => ({ met: null, reason });

/** Judges the need; the reason names the figures where it is not met, and the missing fact where it can't be told. */
export function judgeLasting(need: Lasting, ground: Ground): Judgement {
  const { bank, seconds, mode } = need;
  if (bank === undefined || seconds === undefined) return unknown('some name in it is not declared');
  if (mode === undefined && ground.vessel.modes.length > 0) return unknown('it does not say in which mode');
  const flow = ground.flowOf(bank, mode);
  if (flow === undefined) return unknown(`${bank} is not a battery whose model is declared`);
  // A boat that is being written down: nothing drawn is not little drawn.
  if (flow.bank.terminals.every((terminal) => ground.graph.edgesAt(terminal).length === 0))
    return unknown(`no feed is declared at ${bank}`);
  if (flow.missing !== undefined) return unknown(flow.missing);
  const { store } = flow;
  if (store === undefined || flow.hours === undefined) return unknown(`it is not known what ${bank} holds`);
  const cranking = crankingOf(need, flow, store, ground);
  if ('met' in cranking) return cranking;

  const wanted = seconds / 3600;
  const hours = lessCranking(store, flow.hours, cranking.ampHours);
  // A load that is not known can only shorten it, a source that is not known only lengthen it.
  if (hours.low >= wanted && flow.atMost === undefined) return { met: true, reason: null };
  if (hours.high < wanted && flow.atLeast === undefined)
    return { met: false, reason: figures(flow, store, hours, cranking) };
  if (hours.low >= wanted) return unknown(flow.atMost ?? '');
  if (hours.high < wanted) return unknown(flow.atLeast ?? '');
  return unknown(
    flow.atMost ??
      flow.atLeast ??
      `${flow.bank.model.name} does not say its Peukert exponent, and by its chemistry it lasts ${rangeText(hours)}`,
  );
}

interface Cranking {
  readonly ampHours: Interval;
  readonly engines: readonly string[];
}

/** What the engines' starts take of the bank, each once; or why that can't be. */
function crankingOf(
  { cranks }: Lasting,
  { bank }: BankFlow,
  store: Store,
  { graph, starters }: Ground,
): Cranking | Judgement {
  const [terminal] = bank.terminals;
  const system = terminal === undefined ? undefined : graph.systemOf(terminal);
  let low = 0;
  let high = 0;
  for (const engine of cranks) {
    const own = starters.filter(({ device }) => device === engine);
    if (own.length === 0) return unknown(`the model of ${engine} does not say what it cranks with`);
    const starter = own.find((one) => graph.systemOf(one.terminal) === system);
    if (starter === undefined) {
      const others = own.flatMap(
        (one) => graph.systemOf(one.terminal)?.banks.map(({ device }) => device) ?? [],
      );
      if (others.length === 0) return unknown(`no battery is declared that ${engine} is cranked from`);
      return {
        met: false,
        reason: `${engine} cannot be cranked from ${bank.device} however the switches stand: its starter hangs on ${listOf([...new Set(others)])}`,
      };
    }
    const taken = startAmpHours(store, starter);
    if (taken === undefined) return unknown(`the model of ${engine} does not say for how long it cranks`);
    low += taken.low;
    high += taken.high;
  }
  return { ampHours: { low, high }, engines: cranks };
}

/** The hours that are left when as much of the usable charge is kept for cranking. */
function lessCranking(store: Store, hours: Interval, kept: Interval): Interval {
  const usable = store.ampHours * store.depth;
  const left = (time: number, ampHours: number): number => {
    const share = usable > 0 ? Math.max(0, 1 - ampHours / usable) : 0;
    return share === 0 ? 0 : time * share;
  };
  return { low: left(hours.low, kept.high), high: left(hours.high, kept.low) };
}

function figures(flow: BankFlow, store: Store, hours: Interval, { ampHours, engines }: Cranking): string {
  const { mode, carries, netAmps, beside } = flow;
  const most = carries.slice(0, 3).filter(({ amps }) => amps > 0);
  const by =
    most.length === 0
      ? ''
      : ` (most of it ${listOf(most.map(({ load, amps }) => `${load.device} ${number(amps, 1)} A`))})`;
  const shared = beside.length === 0 ? '' : `, which it shares with ${listOf(beside)}`;
  const kept =
    engines.length === 0
      ? ''
      : `, of which ${number(ampHours.high, 1)} Ah are kept to crank ${listOf(engines)}`;
  const inMode = mode === undefined ? '' : ` in ${mode.name}`;
  return `it lasts ${rangeText(hours)}${inMode}: it gives ${number(netAmps, 1)} A on average${by}${shared}, and of ${number(store.ampHours, 0)} Ah ${number(store.depth * 100, 0)} % may be used${store.depthStated ? '' : ' (common practice)'}${kept}`;
}

/** `5.2 h`, `5.1 to 5.6 h` */
export function rangeText({ low, high }: Interval): string {
  const text = (hours: number): string => (Number.isFinite(hours) ? number(hours, 1) : 'any number of');
  return text(low) === text(high) ? `${text(low)} h` : `${text(low)} to ${text(high)} h`;
}
