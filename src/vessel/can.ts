/**
 * Frames of the controller area network under NMEA 2000 (ISO 11783-3, IEC 61162-3): 250 kbit/s, 29-bit identifiers, and
 * fast packets for what does not fit into one frame. Lengths in bytes, times in bits.
 */

/** Bits a second on an NMEA 2000 bus. */
export const BUS_BITS_PER_SECOND = 250_000;
/** Bytes that one frame carries at most. */
const FRAME_BYTES = 8;
/** Bytes that a fast packet carries at most: 6 + 31 * 7. */
export const FAST_PACKET_BYTES = 223;

/** Bits between start of frame and the end of the checksum, data left out: these and the data are stuffed. */
const STUFFED_OVERHEAD = 54;
/** Delimiters, acknowledgement, end of frame and the three bits of interframe space: never stuffed. */
const PLAIN_OVERHEAD = 13;
/** Of random bits one in thirty is followed by a stuffed one; derived from the mean wait for five alike. */
const RANDOM_STUFFING = 1 / 30;

/** Bits of a frame before stuffing, interframe space included: 67 + 8 s. */
export function plainBits(dataBytes: number): number {
  return STUFFED_OVERHEAD + PLAIN_OVERHEAD + 8 * dataBytes;
}

/**
 * The most bits that a frame can have: after the first five alike every four may bring a stuffed one, 80 + 10 s.
 * Davis, Burns, Bril, Lukkien: "Controller Area Network (CAN) schedulability analysis", 2007, equation for 29-bit identifiers.
 */
export function worstBits(dataBytes: number): number {
  return plainBits(dataBytes) + Math.floor((STUFFED_OVERHEAD + 8 * dataBytes - 1) / 4);
}

/** Bits of a frame of random data on average. Identifiers are not random, so this is an estimate. */
export function typicalBits(dataBytes: number): number {
  return plainBits(dataBytes) + (STUFFED_OVERHEAD + 8 * dataBytes) * RANDOM_STUFFING;
}

/** Data bytes of each frame of a message: one frame, or a fast packet, whose frames are always filled up to eight. */
export function framesOf(messageBytes: number, fast: boolean): readonly number[] {
  if (!fast) return [Math.min(messageBytes, FRAME_BYTES)];
  return Array.from({ length: fastPacketFrames(messageBytes) }, () => FRAME_BYTES);
}

/** Frames of a fast packet: six bytes in the first, seven in each of the others. */
export function fastPacketFrames(messageBytes: number): number {
  return messageBytes <= 6 ? 1 : 1 + Math.ceil((Math.min(messageBytes, FAST_PACKET_BYTES) - 6) / 7);
}

/** What a 29-bit identifier says. */
export interface Identifier {
  /** 0, the most urgent, to 7. */
  readonly priority: number;
  readonly pgn: number;
  readonly source: number;
  /** The address it goes to, of messages that are addressed; undefined for those that go to all. */
  readonly destination: number | undefined;
}

/** Below this, the byte after the format holds a destination (PDU1); from here on it belongs to the number (PDU2). */
const FIRST_BROADCAST_FORMAT = 240;
/** The highest number: data page bits and two bytes. */
const MOST_PGN = 0x3ffff;

/** Whether messages of this number are addressed to one device. */
export function isAddressed(pgn: number): boolean {
  return ((pgn >> 8) & 0xff) < FIRST_BROADCAST_FORMAT;
}

/** Whether there can be such a number: an addressed one ends in a byte of nought. */
export function isPossiblePgn(pgn: number): boolean {
  return Number.isInteger(pgn) && pgn >= 0 && pgn <= MOST_PGN && !(isAddressed(pgn) && (pgn & 0xff) !== 0);
}

/** Reads an identifier. */
export function readIdentifier(identifier: number): Identifier {
  const group = (identifier >>> 8) & MOST_PGN;
  const addressed = isAddressed(group);
  return {
    priority: (identifier >>> 26) & 7,
    pgn: addressed ? group & ~0xff : group,
    source: identifier & 0xff,
    destination: addressed ? group & 0xff : undefined,
  };
}

/** Writes an identifier; what is addressed and names no destination goes to all (255). */
export function writeIdentifier({ priority, pgn, source, destination }: Identifier): number {
  const group = isAddressed(pgn) ? pgn | (destination ?? 0xff) : pgn;
  return (((priority & 7) << 26) | ((group & MOST_PGN) << 8) | (source & 0xff)) >>> 0;
}
