/** What a device wants: one thing that comes too seldom, and one that nothing aboard gives. */
import type { DataWant } from '../../src/checks/data/data.js';

export const WANTS: readonly DataWant[] = [
  {
    device: 'bow',
    class: 'display',
    origin: 'device bow',
    signal: 'heading',
    wantedHertz: 10,
    supplies: [{ source: 'compass', path: ['compass', 'bow'], hertz: 1 }],
    used: { source: 'compass', path: ['compass', 'bow'], hertz: 1 },
    settled: false,
    givenBy: ['compass'],
    verdict: 'slow',
    reason: 'compass brings it less often',
  },
  {
    device: 'bow',
    class: 'display',
    origin: 'device bow',
    signal: 'wind',
    wantedHertz: undefined,
    supplies: [],
    used: undefined,
    settled: false,
    givenBy: [],
    verdict: 'none',
    reason: 'nothing aboard gives wind',
  },
];
