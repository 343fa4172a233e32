/** How long one `check` of 200 boats with two backbones each takes in one thread and in two. Milliseconds, the quickest of each. */
import { spawnSync } from 'node:child_process';
import { mkdtempSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { generateBoat } from '../boats/boat.js';

const BOATS = 200;
/** Two stations, each with its backbone. */
const DEVICES = 50;
const ROUNDS = 3;

export interface FleetFigures {
  readonly boats: number;
  readonly one: number;
  readonly two: number;
}

/** @throws Error if the program fails, or if two threads print something else than one */
export function measureFleet(program: string): FleetFigures {
  const folder = mkdtempSync(join(tmpdir(), 'wireloft-fleet-'));
  try {
    for (let boat = 1; boat <= BOATS; boat++) {
      const own = join(folder, `boat-${String(boat).padStart(3, '0')}`);
      mkdirSync(own);
      for (const { path, text } of generateBoat(DEVICES, 'one file', boat).files)
        writeFileSync(join(own, path), text);
    }
    const times: Record<'1' | '2', number[]> = { '1': [], '2': [] };
    const outputs = new Set<string>();
    // By turns, so that a busy moment of the machine falls on both.
    for (let round = 0; round < ROUNDS; round++)
      for (const jobs of ['1', '2'] as const) {
        const start = performance.now();
        const { status, stdout, stderr } = spawnSync(
          process.execPath,
          [program, 'check', '--jobs', jobs, folder],
          { encoding: 'utf8', maxBuffer: 1 << 28 },
        );
        times[jobs].push(performance.now() - start);
        if (status !== 0) throw new Error(`check of ${BOATS} boats ended with ${String(status)}: ${stderr}`);
        outputs.add(stdout);
      }
    if (outputs.size !== 1) throw new Error('Two threads print something else than one.');
    return { boats: BOATS, one: Math.min(...times['1']), two: Math.min(...times['2']) };
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
