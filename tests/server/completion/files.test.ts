import { describe } from 'vitest';
import { itOffers } from './cases.js';
import { GEAR } from './offered.js';

const ABOARD = [
  'zone',
  'run',
  'device',
  'link',
  'backbone',
  'feed',
  'negative',
  'prefer',
  'need',
  'mode',
  'day',
  'view',
  'option',
];
const GOODS = ['family', 'model', 'cable', 'signal'];
const LIBRARY = ['class', 'medium', 'exposure', 'fusetype'];

describe("declarations of a vessel's file", () => {
  itOffers([
    { text: '$0', only: ['use', ...GOODS, ...ABOARD], details: { device: 'A piece of gear aboard' } },
    { text: 'dev$0', taken: ['device', 'device ${1:name} : ${2:Model} at ${3:zone}'] },
    { text: 'dev$0\nlink skua -- hub.3', offers: ['device'] },
    {
      text: 'option o { add $0',
      first: ['zone', 'run', 'device'],
      offers: ['tee'],
      lacks: ['model', 'option', 'vessel'],
    },
  ]);
});

describe('declarations of a catalogue that a boat uses', () => {
  itOffers([{ text: `${GEAR}\n$0`, only: ['use', ...GOODS], lacks: [...ABOARD, ...LIBRARY] }], 'gear.loft', {
    'gear.loft': GEAR,
  });
});

describe('declarations of an empty file', () => {
  itOffers([{ text: '$0', only: ['use', 'aboard', 'vessel', ...GOODS] }], 'new.loft', { 'new.loft': '' });
});

describe('declarations of a fragment', () => {
  itOffers(
    [
      { text: 'aboard $0', only: ['Kittiwake'], details: { Kittiwake: '9.4 m charter catamaran' } },
      { text: 'aboard Kittiwake\n\n$0', only: ['use', ...GOODS, ...ABOARD] },
    ],
    'part.loft',
    { 'part.loft': 'aboard Kittiwake\n' },
  );
});

const more = {
  'sub/more.loft': 'family Plover "Small displays"\nmodel P : joint { }',
  'part.loft': 'aboard Kittiwake\n',
  'other.loft': 'vessel Other',
  'others.loft': 'aboard Other\n',
};

describe('paths of a use', () => {
  itOffers(
    [
      {
        text: 'use "$0"',
        only: ['"part.loft"', '"sub/more.loft"'],
        details: {
          '"part.loft"': 'fragment aboard Kittiwake',
          '"sub/more.loft"': 'catalogue of 1 models and cables, family Plover',
        },
        taken: ['"sub/more.loft"', 'use "sub/more.loft"'],
      },
      { text: 'use "$0', taken: ['"part.loft"', 'use "part.loft"'] },
      { text: 'use $0', taken: ['"part.loft"', 'use "part.loft"'] },
      { text: 'use "part.loft"\nuse "$0"', only: ['"sub/more.loft"'] },
    ],
    undefined,
    more,
  );
});

describe('paths from a folder', () => {
  itOffers([{ text: 'use "$0"', only: ['"../gear.loft"'] }], 'sub/more.loft', more);
});
