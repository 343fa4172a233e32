import { describe } from 'vitest';
import { itOffers } from './cases.js';
import { BOAT } from './offered.js';

describe('clauses of a link', () => {
  itOffers([
    { text: 'link skua -- hub.3 $0', only: ['using', 'join', 'by', 'length', 'label', 'existing', 'allow'] },
    {
      text: 'link skua -- hub.3 using SealedNet $0 label "T1"',
      only: ['join', 'by', 'length', 'existing', 'allow'],
    },
    { text: 'link skua $0', only: ['--'] },
    {
      text: 'link skua -- hub.3 using $0',
      first: ['SealedNet', 'PatchCord'],
      lacks: ['MicroTrunk', 'Coax8X'],
      details: { SealedNet: 'ethernet, sealed, 2 m to 12 m, od 6.5 mm' },
    },
    // An end in a wet zone: sealed cables first, and in a dry one as the catalogue has them.
    {
      text: 'cable Early : ethernet { stock 3 m }\ndevice x : Switch5 at bow\nlink x.1 -- hub.3 using $0',
      first: ['SealedNet'],
    },
    { text: 'link vhf.antenna -- whip using $0', first: ['Coax8X'], lacks: ['SealedNet', 'MicroTrunk'] },
    { text: 'link skua -- hub.3 by $0', only: ['gunwale'], details: { gunwale: 'bow -- cabin, 8 m' } },
    { text: 'link skua -- hub.3 join $0', only: ['Coupler'] },
    { text: 'link skua -- hub.3 join Coupler at $0', only: ['bow', 'helm', 'cabin'] },
    { text: 'link skua -- hub.3 length 5 $0', first: ['m', 'mm', 'cm', 'ft', 'in'], lacks: ['A', 'V'] },
    {
      text: 'link skua -- hub.3 allow $0',
      offers: ['cable/not-sealed', 'net/family-mix'],
      lacks: ['syntax', 'type/duplicate', 'allow/unused'],
      details: {
        'cable/too-short': 'No length that is offered or stated reaches along the route plus slack.',
      },
    },
    {
      text: 'link skua -- hub.3 allow cable/no$0',
      offers: ['cable/not-sealed'],
      taken: ['cable/not-sealed', 'link skua -- hub.3 allow cable/not-sealed because "${1:reason}"'],
    },
    {
      text: 'link skua -- hub.3 allow cable/no$0 because "bench test"',
      taken: ['cable/not-sealed', 'link skua -- hub.3 allow cable/not-sealed because "bench test"'],
    },
    {
      text: 'link skua -- hub.3 allow cable/not-sealed because "x" allow $0',
      lacks: ['cable/not-sealed'],
      offers: ['cable/fill'],
    },
  ]);
});

describe('clauses of a feed', () => {
  itOffers([
    {
      text: 'feed panel.2 -> hub $0',
      first: ['fuse', 'breaker', 'protected', 'cranking', 'sheathed', 'wire'],
    },
    {
      text: 'feed panel.2 -> hub fuse 2 A $0',
      offers: ['blade', 'at', 'wire'],
      lacks: ['fuse', 'breaker', 'protected', 'cranking'],
    },
    {
      text: 'feed panel.2 -> hub fuse $0',
      only: ['2 A', '1 A'],
      details: { '2 A': 'blade; what the device states' },
    },
    {
      text: 'feed house -> selector.in2 fuse $0',
      offers: ['80 A', '400 A'],
      details: { '80 A': 'largeblade, mrbf, anl' },
    },
    {
      text: 'feed house -> selector.in2 breaker $0',
      offers: ['60 A'],
      details: { '60 A': 'a usual rating' },
    },
    {
      text: 'feed house -> selector.in2 breaker $0',
      offers: ['1 A', '63 A', '400 A'],
      lacks: ['600 A'],
    },
    {
      text: 'feed house -> selector.in2 fuse 80$0',
      offers: ['80 A', 'A'],
      taken: ['A', 'feed house -> selector.in2 fuse 80 A'],
    },
    { text: 'feed house -> selector.in2 fuse 80 $0', first: ['A', 'mA', 'blade'], lacks: ['V', 'm', 'USD'] },
    {
      text: 'feed house -> selector.in2 fuse 80 A $0',
      first: ['largeblade', 'mrbf', 'anl'],
      details: { mrbf: 'Terminal fuse, 30 A to 300 A' },
    },
    { text: 'feed house -> selector.in2 fuse 80 A mrbf at $0', only: ['house', 'selector'] },
    { text: 'feed house -> selector.in2 fuse 80 A mrbf at house after 150 $0', first: ['m', 'mm'] },
    { text: 'feed panel.2 -> hub wire $0', first: ['22 AWG', '20 AWG'], offers: ['2/0 AWG', '2.5 mm2'] },
    { text: 'feed panel.2 -> hub wire 2/$0', taken: ['2/0 AWG', 'feed panel.2 -> hub wire 2/0 AWG'] },
    { text: 'feed panel.2 -> hub wire 2.5 $0', first: ['mm2', 'AWG'] },
    { text: 'feed panel.2 -> hub wire 14 AWG rated 105 $0', first: ['C'], lacks: ['V', 'A'] },
    { text: 'feed panel.2 -> hub join $0', only: ['DeckPlug50'] },
    { text: 'feed panel.2 -> hub using $0', lacks: ['SealedNet', 'MicroTrunk'] },
    { text: 'feed panel.2 $0', only: ['->'] },
  ]);
});

describe('what is worked out for a feed', () => {
  const RATED = `${BOAT.replace('slack 0.5 m }', 'slack 0.5 m  wiring 105 C }')}\nfeed selector -> panel protected\n`;
  itOffers(
    [
      {
        text: `${RATED}feed panel.2 -> hub wire $0`,
        first: ['18 AWG', '22 AWG', '20 AWG', '16 AWG'],
        details: { '18 AWG': 'worked out: decided by the least that the standard allows' },
      },
      // The hub states 2 A and draws 0.3 A; the pump draws 2 A and states 3 A.
      {
        text: `${RATED}feed panel.2 -> hub fuse $0`,
        first: ['2 A', '1 A'],
        details: { '2 A': 'worked out: blade' },
      },
      {
        text: `${RATED}feed panel.4 -> pump breaker $0`,
        first: ['3 A', '1 A', '2 A'],
        details: { '3 A': 'worked out' },
      },
      // As one who changes what is written has it: nothing is worked out for a size that is said.
      { text: `${RATED}feed panel.2 -> hub wire 14$0`, lacks: ['18 AWG x'], offers: ['14 AWG'] },
    ],
    'boat.loft',
  );
});

describe('items of a backbone', () => {
  itOffers([
    { text: 'backbone b {\n  $0\n}', only: ['terminator', 'tee', 'span', 'tap', 'isolate', 'ground'] },
    { text: 'backbone b { span 2 $0', first: ['m'], offers: ['in', 'ft'] },
    { text: 'backbone b { tee compass $0', offers: ['drop', 'using', 'at'] },
    { text: 'backbone b { tee compass at $0', only: ['bow', 'helm', 'cabin'] },
    { text: 'backbone b { tap from panel.2 fuse $0', offers: ['3 A'], lacks: ['20 A'] },
  ]);
});
