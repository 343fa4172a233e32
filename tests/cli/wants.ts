/** What a device wants: one thing that comes too seldom, and one that nothing aboard gives. */
import type { DataWant } from '../../src/checks/data/data.js';

const COMPASS: DataWant['supplies'][number] = {
  source: 'compass',
  path: ['compass', 'bow'],
  hertz: 1,
  atLeast: false,
  answer: {
    screen: 'bow',
    source: 'compass',
    signal: 'heading',
    visible: true,
    verdict: 'reached',
    by: 'bus',
    path: ['compass', 'bow'],
    needsPowered: [],
    reason: null,
    nearest: null,
    hops: [],
  },
};

export const WANTS: readonly DataWant[] = [
  {
    device: 'bow',
    class: 'display',
    origin: 'device bow',
    signal: 'heading',
    wantedHertz: 10,
    supplies: [COMPASS],
    used: COMPASS,
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
