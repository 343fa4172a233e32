/** Frames of the bus against printed figures, and against an encoder of frames written here. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  fastPacketFrames,
  framesOf,
  isPossiblePgn,
  plainBits,
  readIdentifier,
  typicalBits,
  worstBits,
  writeIdentifier,
} from '../../src/vessel/can.js';

/** Start of frame to checksum of a data frame with a 29-bit identifier (ISO 11898-1), bit by bit. */
function frameBits(identifier: number, data: readonly number[]): number[] {
  const bits: number[] = [];
  const put = (value: number, width: number): void => {
    for (let bit = width - 1; bit >= 0; bit--) bits.push((value >>> bit) & 1);
  };
  put(0, 1); // start of frame
  put(identifier >>> 18, 11);
  put(3, 2); // substitute remote request, identifier extension
  put(identifier & 0x3ffff, 18);
  put(0, 3); // remote request and two reserved bits
  put(data.length, 4);
  for (const byte of data) put(byte, 8);
  let crc = 0;
  for (const bit of bits) {
    const flip = bit ^ ((crc >>> 14) & 1);
    crc = (crc << 1) & 0x7fff;
    if (flip === 1) crc ^= 0x4599;
  }
  put(crc, 15);
  return bits;
}

/** Bits that a transmitter puts in: after five alike, one of the other kind, which counts as the first of the next run. */
function stuffed(bits: readonly number[]): number {
  let count = 0;
  let run = 0;
  let last = -1;
  for (const bit of bits) {
    run = bit === last ? run + 1 : 1;
    last = bit;
    if (run < 5) continue;
    count++;
    last = 1 - bit;
    run = 1;
  }
  return count;
}

/** Checksum delimiter, acknowledgement and its delimiter, end of frame, interframe space. */
const TAIL = 1 + 1 + 1 + 7 + 3;

const frame = fc.record({
  identifier: fc.oneof(fc.integer({ min: 0, max: 0x1fffffff }), fc.constantFrom(0, 0x1fffffff, 0x01f07c1f)),
  data: fc.oneof(
    fc.array(fc.integer({ min: 0, max: 255 }), { maxLength: 8 }),
    // Four alike by turns, as the worst case has them, wherever in the byte they begin.
    fc
      .tuple(
        fc.constantFrom(0x00, 0xff, 0x0f, 0xf0, 0x1e, 0x78, 0x87, 0xe1, 0xc3, 0x3c),
        fc.integer({ min: 0, max: 8 }),
      )
      .map(([byte, length]) => Array<number>(length).fill(byte)),
  ),
});

describe('bits of a frame', () => {
  // Davis, Burns, Bril, Lukkien 2007; include/linux/can/length.h of the Linux kernel gives the same totals.
  it('at worst are 80 to 160 for nought to eight bytes', () => {
    expect([0, 1, 2, 3, 4, 5, 6, 7, 8].map(worstBits)).toEqual([80, 90, 100, 110, 120, 130, 140, 150, 160]);
  });

  it('before stuffing are 67 and eight a byte', () => {
    expect([0, 1, 2, 3, 4, 5, 6, 7, 8].map(plainBits)).toEqual([67, 75, 83, 91, 99, 107, 115, 123, 131]);
  });

  it('of eight bytes take 640 us at worst and 524 us unstuffed at 250 kbit/s', () => {
    expect((worstBits(8) / 250_000) * 1e6).toBeCloseTo(640, 9);
    expect((plainBits(8) / 250_000) * 1e6).toBeCloseTo(524, 9);
  });

  it('never pass the worst case, whatever the identifier and the data', () => {
    let most = 0;
    let runs = 0;
    fc.assert(
      fc.property(frame, ({ identifier, data }) => {
        const bits = frameBits(identifier, data);
        expect(bits.length + TAIL).toBe(plainBits(data.length));
        const extra = stuffed(bits);
        most = Math.max(most, extra);
        runs++;
        expect(bits.length + TAIL + extra).toBeLessThanOrEqual(worstBits(data.length));
      }),
      { numRuns: 20_000 },
    );
    console.log(`${runs} frames, at most ${most} bits stuffed`);
    // Were hardly anything stuffed, the property would say nothing.
    expect(most).toBeGreaterThan(18);
  });

  it('of random data come to the typical number on average', () => {
    // A generator of Lehmer's kind: fast-check's own prefers small numbers.
    let state = 20_261_125;
    const random = (below: number): number => {
      state = (state * 48_271) % 2_147_483_647;
      return Math.floor((state / 2_147_483_647) * below);
    };
    const frames = Array.from(
      { length: 4000 },
      () => [random(2 ** 29), Array.from({ length: 8 }, () => random(256))] as const,
    );
    const total = frames.reduce((sum, [identifier, data]) => {
      const bits = frameBits(identifier, data);
      return sum + bits.length + TAIL + stuffed(bits);
    }, 0);
    expect(Math.abs(total / frames.length - typicalBits(8))).toBeLessThan(0.5);
  });
});

describe('fast packets', () => {
  // The first frame carries six bytes and later ones seven; at most 32 frames (IEC 61162-3). Counted here byte by byte.
  it.each(Array.from({ length: 224 }, (_, bytes) => bytes))('of %i bytes', (bytes) => {
    let [frames, room] = [1, 6];
    for (let byte = 0; byte < bytes; byte++) {
      if (room === 0) [frames, room] = [frames + 1, 7];
      room--;
    }
    expect(fastPacketFrames(bytes)).toBe(frames);
    expect(framesOf(bytes, true)).toEqual(Array.from({ length: frames }, () => 8));
  });

  it('have 32 frames at most', () => {
    expect(fastPacketFrames(223)).toBe(32);
    expect(fastPacketFrames(1e6)).toBe(32);
  });

  // Frames as the open canboat table gives them: 127489, 129029, 126996.
  it.each([
    [26, 4],
    [43, 7],
    [134, 20],
    [27, 4],
    [28, 5],
  ])('of %i bytes take %i frames', (bytes, frames) => {
    expect(fastPacketFrames(bytes)).toBe(frames);
  });
});

describe('identifiers', () => {
  // Samples of the canboat project: wind from 0x23, rate of turn from 0x24.
  it.each([
    [0x09fd0223, { priority: 2, pgn: 130306, source: 0x23, destination: undefined }],
    [0x09f11324, { priority: 2, pgn: 127251, source: 0x24, destination: undefined }],
  ])('%i', (identifier, said) => {
    expect(readIdentifier(identifier)).toEqual(said);
    expect(writeIdentifier(said)).toBe(identifier);
  });

  it('of an addressed message hold its destination, and no number that ends in one', () => {
    expect(readIdentifier(0x18ea2301)).toEqual({ priority: 6, pgn: 59904, source: 1, destination: 0x23 });
    expect([59904, 59905, 130306, 0x3ffff, 0x40000, -1, 1.5].map(isPossiblePgn)).toEqual([
      true,
      false,
      true,
      true,
      false,
      false,
      false,
    ]);
  });

  it('read back as they were written', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 0x1fffffff }), (identifier) => {
        expect(writeIdentifier(readIdentifier(identifier))).toBe(identifier);
      }),
    );
  });
});
