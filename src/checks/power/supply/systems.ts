/** Which terminals share a voltage, and what that voltage is. */
import { createUnionFind } from '../../../vessel/unionFind.js';
import { compareText } from '../../../vessel/words.js';
import { classOf } from './banks.js';
import type { Bank, Join, Output, SupplyEdge, System, Terminal } from './graph.js';

interface Parts {
  readonly terminals: ReadonlyMap<string, Terminal>;
  readonly joins: readonly Join[];
  readonly edges: readonly SupplyEdge[];
  readonly banks: readonly Bank[];
  readonly outputs: readonly Output[];
}

interface Group {
  readonly id: string;
  readonly terminals: string[];
  readonly banks: Bank[];
  readonly outputs: Output[];
  readonly before: Set<Group>;
  /** What the diodes on the way in cost at most; undefined where not stated. */
  forward: number | undefined;
}

/** The systems of a boat: terminals joined in any position of the switches, but not through converters or diodes. */
export function systemsOf({ terminals, joins, edges, banks, outputs }: Parts): readonly System[] {
  const sets = createUnionFind<string>();
  for (const join of joins) if (join.kind !== 'diode' && join.kind !== 'converter') sets.join(join.a, join.b);
  for (const edge of edges) {
    const ends = [edge.from, ...edge.legs.map((leg) => leg.to)].flatMap((end) => end ?? []);
    for (const end of ends.slice(1)) sets.join(ends[0] ?? end, end);
  }
  for (const bank of banks)
    for (const terminal of bank.terminals) sets.join(bank.terminals[0] ?? terminal, terminal);

  const groups = new Map<string, Group>();
  const groupOf = (terminal: string): Group => {
    const root = sets.find(terminal);
    let group = groups.get(root);
    if (group === undefined) {
      group = { id: root, terminals: [], banks: [], outputs: [], before: new Set(), forward: 0 };
      groups.set(root, group);
    }
    return group;
  };
  for (const terminal of terminals.keys()) groupOf(terminal).terminals.push(terminal);
  for (const bank of banks) {
    const [first] = bank.terminals;
    if (first !== undefined) groupOf(first).banks.push(bank);
  }
  for (const output of outputs) groupOf(output.terminal).outputs.push(output);
  for (const join of joins) {
    if (join.kind !== 'diode') continue;
    const after = groupOf(join.b);
    const before = groupOf(join.a);
    if (before !== after) after.before.add(before);
    const { forwardVolts } = join.model;
    after.forward =
      forwardVolts === undefined || after.forward === undefined
        ? undefined
        : Math.max(after.forward, forwardVolts);
  }
  const ids = new Map([...groups.values()].map((group) => [group, idOf(group)]));
  return [...groups.values()].map((group) => systemOf(group, ids));
}

function idOf(group: Group): string {
  const names = group.banks.length > 0 ? group.banks.map((bank) => bank.device) : group.terminals;
  return [...names].sort(compareText)[0] ?? group.id;
}

function systemOf(group: Group, ids: ReadonlyMap<Group, string>): System {
  const id = ids.get(group) ?? group.id;
  const base = {
    id,
    terminals: group.terminals,
    banks: group.banks,
    outputs: group.outputs,
    fedThroughDiodes: [...group.before].map((before) => ids.get(before) ?? before.id).sort(compareText),
  };
  if (group.banks.length > 0) return { ...base, ...ofBanks(group.banks) };
  return { ...base, ...ofOutputs(group) };
}

type Volts = Pick<System, 'nominalVolts' | 'volts' | 'missing'>;

function ofBanks(banks: readonly Bank[]): Volts {
  const nominal = new Set(banks.map((bank) => bank.nominalVolts));
  const [only] = nominal;
  const nominalVolts = nominal.size === 1 ? only : undefined;
  const bare = [...banks]
    .sort((x, y) => compareText(x.device, y.device))
    .find(
      (bank) =>
        bank.nominalVolts === undefined || bank.lowestVolts === undefined || bank.chargesVolts === undefined,
    );
  const lacking =
    bare === undefined
      ? undefined
      : bare.nominalVolts === undefined
        ? 'voltage'
        : bare.lowestVolts === undefined
          ? 'lowest'
          : 'charges';
  const lows = banks.flatMap((bank) => bank.lowestVolts ?? []);
  const highs = banks.flatMap((bank) => bank.chargesVolts ?? []);
  return {
    nominalVolts,
    volts: bare === undefined ? { low: Math.min(...lows), high: Math.max(...highs) } : undefined,
    missing: bare === undefined ? undefined : `${bare.model.name} does not say its ${lacking ?? 'voltage'}`,
  };
}

/** Without a bank: what outputs give, here or through diodes. A bank behind a diode counts with its own range. */
function ofOutputs(group: Group): Volts {
  const seen = new Set<Group>([group]);
  const queue: { readonly at: Group; readonly drop: number | undefined }[] = [{ at: group, drop: 0 }];
  const lows: number[] = [];
  const highs: number[] = [];
  const classes = new Set<number | undefined>();
  let missing: string | undefined;
  for (const { at, drop } of queue) {
    for (const output of at.outputs) {
      const volts = output.volts;
      if (volts === undefined || drop === undefined) {
        missing ??=
          volts === undefined
            ? `${output.model.name} does not say what its output gives`
            : 'a charge splitter does not say its forward voltage';
        continue;
      }
      lows.push(volts - drop);
      highs.push(volts);
      classes.add(classOf(volts));
    }
    if (at.banks.length > 0) {
      const banks = ofBanks(at.banks);
      classes.add(banks.nominalVolts);
      missing ??=
        banks.missing ??
        (drop === undefined ? 'a charge splitter does not say its forward voltage' : undefined);
      if (banks.volts !== undefined && drop !== undefined) {
        lows.push(banks.volts.low - drop);
        highs.push(banks.volts.high);
      }
    }
    for (const before of at.before) {
      if (seen.has(before)) continue;
      seen.add(before);
      queue.push({
        at: before,
        drop: drop === undefined || at.forward === undefined ? undefined : drop + at.forward,
      });
    }
  }
  const [only] = classes;
  const known = missing === undefined && lows.length > 0;
  return {
    nominalVolts: classes.size === 1 ? only : undefined,
    volts: known ? { low: Math.min(...lows), high: Math.max(...highs) } : undefined,
    missing: missing ?? (lows.length === 0 ? 'nothing feeds it' : undefined),
  };
}
