import { block, STATEMENT, type Group } from '../construct.js';

const model = block('model Probe : display', 'port p : ethernet  shows chart');

export const quantities: Group = {
  title: 'Quantities',
  frame: STATEMENT,
  constructs: [
    {
      name: 'a number and its unit',
      text: 'run bow -- cabin  5.5 m',
      ugly: 'run bow -- cabin 5.5m',
      resolves: 'bow -> zone bow',
      wrong: ['run bow -- cabin 5.5 meters', 'type/unit', 'There is no unit "meters"'],
      completes: ['run bow -- cabin 5.5 $0', 'm ft in cm -V -USD'],
      hovers: ['run bow -- cabin 5$0.5 m', '5.5 m'],
    },
    {
      name: 'inches',
      frame: model,
      text: 'screen 13 in',
      ugly: 'screen 13in',
      wrong: ['screen 13', 'type/unit', 'this number has no unit'],
      completes: ['screen 13 $0', 'in mm -V'],
      hovers: ['screen 13 i$0n', '33.02 cm'],
    },
    {
      name: 'a range',
      frame: 'model Probe : load {\n  HERE\n}',
      text: 'port power : dc in 10..32 V',
      ugly: 'port power : dc in 10 .. 32V',
      resolves: 'dc -> medium dc',
      wrong: ['port power : dc in 32..10 V', 'type/value-range', 'upside down'],
      completes: ['port power : dc in 10..32 $0', 'V -A'],
      hovers: ['port power : dc i$0n 10..32 V', 'within this range'],
    },
    {
      name: 'an absurd value',
      text: 'run bow -- cabin  100 m',
      ugly: 'run bow--cabin 100m',
      resolves: 'bow -> zone bow',
      wrong: ['run bow -- cabin 100 km', 'type/value-range', 'no value for run that a boat has'],
      completes: ['run bow -- cabin 100 $0', 'm -A'],
      hovers: ['run bow -- cabin 100 $0m', '100 m'],
    },
  ],
};
