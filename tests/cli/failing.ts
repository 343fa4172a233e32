/** What fails on the boat that the terminal prints, by hand. */
import type { Failure, FailureReport } from '../../src/checks/analysis.js';

const BOW_FAILS: Failure = {
  kind: 'device',
  name: 'bow',
  what: 'display',
  spot: { origin: 'device bow' },
  needsLost: [],
  viewsLost: ['Drift/left'],
  devicesDark: ['cam'],
  enginesLost: [],
  otherPath: [],
};

export const FAILURES: FailureReport = {
  failures: [BOW_FAILS],
  needs: [
    {
      text: 'plotter show keel',
      spot: { origin: 'need 0' },
      costBy: [BOW_FAILS],
      otherPath: [],
    },
  ],
  voltages: () => [
    {
      device: 'bow',
      terminal: 'bow.power',
      spot: { origin: 'device bow' },
      floorVolts: 10.5,
      normalVolts: 11.3,
      lowestVolts: 10.2,
      mode: undefined,
      failure: 'house',
      collapsing: [],
      darkBy: ['panel'],
      reason: undefined,
    },
  ],
  notAnalysed: [
    {
      spot: { origin: 'need 1' },
      what: 'need bow show keel',
      why: 'it is not met with everything aboard',
    },
  ],
};
