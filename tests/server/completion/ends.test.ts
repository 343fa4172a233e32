import { describe } from 'vitest';
import { itOffers } from './cases.js';

describe('ports of a link', () => {
  itOffers([
    {
      text: 'link plotter.$0',
      only: ['net2', 'listen'],
      details: {
        net2: 'ethernet, sealed, free',
        listen: 'NMEA 0183, listens 4800, differential, free',
      },
    },
    { text: 'link plotter.$0 -- hub.3', only: ['net2'] },
    { text: 'link log.out -- plotter.$0', only: ['listen'] },
    { text: 'link log -- plotter.li$0', only: ['listen'], taken: ['listen', 'link log -- plotter.listen'] },
    { text: 'link hub.$0', only: ['3', '4', '5'] },
    { text: 'link vhf.$0 -- whip', only: ['antenna'], details: { antenna: 'coax, vhf, free' } },
    { text: 'link vhf.$0 -- whip using Coax8X', only: ['antenna'] },
    { text: 'link plotter.$0 -- skua using Coax8X', only: [] },
    { text: 'link plotter.$0 -- plotter', only: [] },
    // The host of the one transducer has no port left for the other.
    { text: 'link spareBeam -- plotter.$0', only: [] },
    // A port of its own is free for the link that has it.
    { text: 'link plotter.net2$0 -- hub.3', only: ['net2'] },
  ]);
});

describe('devices of a link', () => {
  itOffers([
    {
      text: 'link $0',
      only: ['plotter', 'bowScreen', 'skua', 'spareBeam', 'hub', 'log', 'vhf', 'whip'],
      details: { plotter: 'Tern13 at helm, net2, listen free', hub: 'Switch5 at cabin, 3, 4, 5 free' },
    },
    { text: 'link log -- $0', only: ['plotter', 'vhf'] },
    { text: 'link $0 -- log', only: ['plotter', 'vhf'] },
    { text: 'link vhf.antenna -- $0', only: ['whip'] },
    // The plotter has two network ports that differ, so that one has to be named.
    {
      text: 'link skua -- $0',
      only: ['plotter.net2', 'hub'],
      details: { 'plotter.net2': 'Tern13 at helm, ethernet, sealed, free' },
    },
    { text: 'link skua -- plo$0.net2', only: ['plotter', 'hub'] },
    {
      text: 'link skua -- h$0 using SealedNet',
      only: ['plotter.net2', 'hub'],
      taken: ['hub', 'link skua -- hub using SealedNet'],
    },
    // bowScreen hosts standard grade alone.
    { text: 'link spareBeam -- $0', lacks: ['bowScreen', 'plotter', 'keel'] },
    {
      text: 'device more : Tern16 at bow\nlink spareBeam -- $0',
      first: ['more'],
    },
  ]);
});

describe('ends of a feed', () => {
  itOffers([
    {
      text: 'feed panel.$0',
      only: ['2', '4', '5', '6', '7', '8'],
      details: { 4: 'dc, out, max 15 A, holds blade, free' },
    },
    { text: 'feed panel.$0 -> hub', offers: ['2'], lacks: ['in', '1', '3'] },
    {
      text: 'feed $0',
      first: ['panel', 'engine1'],
      offers: ['house', 'start', 'selector'],
      lacks: ['hub', 'pump', 'keel'],
    },
    {
      text: 'feed panel.2 -> $0',
      offers: ['bowScreen', 'hub', 'pump', 'house'],
      lacks: ['panel', 'plotter', 'keel', 'whip'],
    },
    { text: 'feed panel.2 -> sel$0', offers: ['selector.in1', 'selector.in2'], lacks: ['selector'] },
    { text: 'feed panel.2 -> engine1.$0', only: ['starter'] },
    { text: 'feed engine1.$0', only: ['charge'], details: { charge: 'dc, out, 14.2 V, free' } },
    { text: 'feed selector.$0', only: ['in1', 'in2', 'out'] },
    { text: 'feed panel.2 -> hub, $0', offers: ['pump'], lacks: ['panel'] },
  ]);
});

describe('what is teed onto a backbone', () => {
  itOffers([
    { text: 'backbone b { tee $0', only: ['bowScreen', 'compass', 'engine1', 'capped'] },
    { text: 'backbone b { tee bowScreen.$0', only: ['n2k'], details: { n2k: 'NMEA 2000, len 1, free' } },
    { text: 'backbone b { tap from $0', first: ['panel'], lacks: ['house', 'hub', 'start'] },
    { text: 'backbone b { tap from panel.$0', only: ['2', '4', '5', '6', '7', '8'] },
    { text: 'backbone b { terminator in $0', only: ['compass'] },
    { text: 'backbone b using $0', first: ['MicroTrunk'], lacks: ['SealedNet', 'PatchCord', 'Coax8X'] },
    { text: 'backbone b { span $0', offers: ['bow', 'helm', 'cabin'] },
  ]);
});

describe('inside an option', () => {
  itOffers([
    {
      text: 'option o {\n  add device r : Radar18 at helm\n  add link r -- $0\n}',
      only: ['plotter.net2', 'skua', 'hub'],
    },
    { text: 'option o {\n  add device r : Radar18 at helm\n  add link $0 -- hub.4\n}', first: ['r'] },
    { text: 'option o {\n  add link skua -- hub.3\n  add link plotter.net2 -- hub.$0\n}', only: ['4', '5'] },
    { text: 'option o {\n  remove bowScreen\n  add link skua -- hub.$0\n}', only: ['2', '3', '4', '5'] },
    {
      text: 'option o {\n  remove plotter -- hub.1\n  add link skua -- plotter.$0\n}',
      only: ['net1', 'net2'],
    },
    { text: 'option o {\n  change bowScreen : Tern16\n  add link spareBeam -- $0\n}', only: ['bowScreen'] },
    { text: 'option o {\n  remove $0\n}', offers: ['hub', 'plotter', 'keel'] },
    { text: 'option o {\n  remove plotter -- $0\n}', only: ['keel', 'hub'] },
    { text: 'option o {\n  remove plotter -- hub.$0\n}', only: ['1', '2'] },
    {
      text: 'option o {\n  change $0\n}',
      only: ['plotter', 'bowScreen'],
      details: { plotter: 'Tern13 at helm, 2 other models' },
    },
    { text: 'option o {\n  change plotter : $0\n}', only: ['Tern16', 'Tern7'] },
    { text: 'option o {\n  add tee compass drop 1 m to $0\n}', only: ['nav'] },
    { text: 'option o {\n  add tee compass drop 1 m to nav after $0\n}', only: ['plotter', 'gnss'] },
    { text: 'option o {\n  $0\n}', only: ['add', 'remove', 'change'] },
  ]);
});
