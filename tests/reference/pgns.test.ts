/** The table of messages against the open canboat table that it is made of, and against figures printed elsewhere. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { fastPacketFrames, worstBits } from '../../src/vessel/can.js';
import { messageBits, pgnOf, pgns, standingOf } from '../../src/vessel/pgns/pgns.js';

interface Definition {
  readonly PGN: number;
  readonly Type: string;
  readonly Fallback?: boolean;
  readonly Length?: number;
  readonly MinLength?: number;
  readonly TransmissionInterval?: number;
}

const path = join(import.meta.dirname, '..', '..', 'node_modules', '@canboat', 'pgns', 'canboat.json');
const { PGNs } = JSON.parse(readFileSync(path, 'utf8')) as { readonly PGNs: readonly Definition[] };
const periodic = PGNs.filter(
  ({ Fallback, TransmissionInterval }) => Fallback !== true && TransmissionInterval !== undefined,
);

describe('the open table', () => {
  it('has as many periodic messages as are looked at here', () => {
    expect(periodic.length).toBeGreaterThan(60);
  });

  it.each(periodic.map((one) => [one.PGN, one] as const))('gives a load for %i', (pgn, one) => {
    const entry = pgnOf(pgn);
    expect(entry?.intervalSeconds).toBeGreaterThan(0);
    expect(entry && messageBits(entry).worst / (entry.intervalSeconds ?? NaN)).toBeGreaterThan(0);
    if (one.Type !== 'Single') return;
    expect([entry?.bytes, entry?.fast]).toEqual([one.Length, false]);
    expect(entry?.intervalSeconds).toBeCloseTo((one.TransmissionInterval ?? NaN) / 1000, 9);
  });

  it('names every message that is not a maker’s own, and no maker', () => {
    const names = [...pgns().values()].map(({ name }) => name);
    expect(names.filter((name) => name === '')).toEqual([]);
    expect(new Set([...pgns().keys()]).size).toBe(names.length);
    expect(names.filter((name) => name.includes(':'))).toEqual([]);
  });
});

describe('messages', () => {
  // Bytes, frames and milliseconds as the canboat project prints them.
  it.each([
    [127245, 8, 1, 100],
    [127250, 8, 1, 100],
    [127251, 8, 1, 100],
    [127257, 8, 1, 1000],
    [127488, 8, 1, 100],
    [127489, 26, 4, 500],
    [127505, 8, 1, 2500],
    [127508, 8, 1, 1500],
    [128259, 8, 1, 1000],
    [128267, 8, 1, 1000],
    [129025, 8, 1, 100],
    [129026, 8, 1, 250],
    [129029, 43, 7, 1000],
    [130306, 8, 1, 100],
    [126996, 134, 20, undefined],
    [129038, 28, 5, undefined],
  ])('%i', (pgn, bytes, frames, milliseconds) => {
    const entry = pgnOf(pgn);
    expect(entry?.bytes).toBe(bytes);
    expect(entry && (entry.fast ? fastPacketFrames(entry.bytes) : 1)).toBe(frames);
    expect(entry?.intervalSeconds === undefined ? undefined : entry.intervalSeconds * 1000).toBe(
      milliseconds,
    );
    expect(entry && messageBits(entry).worst).toBe(frames * worstBits(8));
  });

  it('are reckoned with the satellites in view', () => {
    const satellites = pgnOf(129540);
    expect(satellites && messageBits(satellites).frames).toBe(fastPacketFrames(3 + 18 * 12));
  });

  it('are known, proprietary, not in the table or impossible', () => {
    expect([130306, 130900, 130000, 130305, 59905].map(standingOf)).toEqual([
      'known',
      'proprietary',
      'missing',
      'missing',
      'impossible',
    ]);
  });
});
