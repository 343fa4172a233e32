/** What is known of an NMEA 2000 message by its number: from the open canboat table, read when first asked for. */
import { FAST_PACKET_BYTES, framesOf, isPossiblePgn, typicalBits, worstBits } from '../can.js';
import { PGN_TABLE } from './table.js';

export interface Pgn {
  readonly pgn: number;
  readonly name: string;
  /** Bytes of data; of a message with repeated fields those without them. */
  readonly bytes: number;
  /** Bytes that each repetition adds; nought where there is none. */
  readonly repeatedBytes: number;
  readonly fast: boolean;
  /** Its usual interval; undefined for one that is sent on request or when something happens. */
  readonly intervalSeconds: number | undefined;
  /** 0, the most urgent, to 7. */
  readonly priority: number | undefined;
}

let known: ReadonlyMap<number, Pgn> | undefined;

/** Every message of the table, by number. */
export function pgns(): ReadonlyMap<number, Pgn> {
  return (known ??= new Map(
    PGN_TABLE.split('\n').map((line): [number, Pgn] => {
      const [pgn, name = '', bytes, repeated, type, interval, priority] = line.split('\t');
      const entry = {
        pgn: Number(pgn),
        name,
        bytes: Number(bytes),
        repeatedBytes: Number(repeated),
        fast: type === 'F',
        intervalSeconds: interval === '' ? undefined : Number(interval) / 1000,
        priority: priority === '' ? undefined : Number(priority),
      };
      return [entry.pgn, entry];
    }),
  ));
}

/** A message by its number, as a spec writes it; undefined where the table has none. */
export function pgnOf(text: string | number): Pgn | undefined {
  return pgns().get(Number(text));
}

/** Numbers that makers fill as they like: no table can know them. ISO 11783-3, IEC 61162-3. */
export function isProprietary(pgn: number): boolean {
  return (
    pgn === 61184 || pgn === 126720 || (pgn >= 65280 && pgn <= 65535) || (pgn >= 130816 && pgn <= 131071)
  );
}

/** How a number stands to the table: `impossible` is one that no message can have. */
export function standingOf(pgn: number): 'known' | 'proprietary' | 'missing' | 'impossible' {
  if (!isPossiblePgn(pgn)) return 'impossible';
  if (pgns().has(pgn)) return 'known';
  return isProprietary(pgn) ? 'proprietary' : 'missing';
}

/** Repetitions to reckon with, typically and at worst. Satellites: common practice, no source. Phases of alternating current. */
const REPEATS: ReadonlyMap<number, readonly [typical: number, worst: number]> = new Map([
  [129540, [12, 18]],
  [127503, [1, 3]],
  [127504, [1, 3]],
]);

/** Bits that one message takes on the bus. */
export interface MessageBits {
  readonly typical: number;
  readonly worst: number;
  /** Frames at worst. */
  readonly frames: number;
}

const bitsOf = new Map<Pgn, MessageBits>();

/** Bits of a message: its frames with stuffing on average, and with the most stuffing and the most repetitions. */
export function messageBits(entry: Pgn): MessageBits {
  const found = bitsOf.get(entry) ?? count(entry);
  bitsOf.set(entry, found);
  return found;
}

function count({ pgn, bytes, repeatedBytes, fast }: Pgn): MessageBits {
  const [few, many] = REPEATS.get(pgn) ?? [0, 0];
  const frames = (repeats: number): readonly number[] =>
    framesOf(Math.min(bytes + repeats * repeatedBytes, FAST_PACKET_BYTES), fast);
  const sum = (list: readonly number[], bits: (data: number) => number): number =>
    list.reduce((total, data) => total + bits(data), 0);
  return {
    typical: sum(frames(few), typicalBits),
    worst: sum(frames(many), worstBits),
    frames: frames(many).length,
  };
}
