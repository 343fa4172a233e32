import { describe } from 'vitest';
import { itOffers } from './cases.js';

describe('needs', () => {
  itOffers([
    {
      text: 'need $0',
      only: ['plotter', 'bowScreen', 'skua', 'house', 'start', 'vhf', 'spare', 'cost'],
      details: { house: 'Agm105 at cabin, a bank', vhf: 'Vhf25 at helm, wants position' },
    },
    { text: 'need $0 show keel', only: ['plotter', 'bowScreen', 'skua'] },
    { text: 'need plotter, $0 show keel', only: ['bowScreen', 'skua'] },
    { text: 'need $0 last 5 h', only: ['house', 'start'] },
    { text: 'need plotter $0', only: ['show', 'hear'] },
    { text: 'need house $0', only: ['last'] },
    {
      text: 'need skua show $0',
      first: ['keel', 'spareBeam', 'gnss'],
      offers: ['plotter', 'sonar', 'chart'],
      lacks: ['skua', 'hub'],
    },
    {
      text: 'need plotter show keel.$0',
      only: ['side', 'down'],
      details: { side: 'sonar.side, Side-looking sonar, hd' },
    },
    { text: 'need plotter show sonar.$0', offers: ['side', 'down', 'live'], lacks: ['sonar', 'radar'] },
    {
      text: 'need plotter show keel without $0',
      offers: ['hub', 'gnss'],
      lacks: ['plotter', 'keel', 'house'],
    },
    { text: 'need vhf hear $0', offers: ['position', 'heading', 'depth'], lacks: ['sonar', 'chart', 'wind'] },
    { text: 'need house last 6 $0', first: ['h', 's', 'ms', 'min', 'd'], lacks: ['m', 'A'] },
    { text: 'need house last 6 h in $0', only: ['drifting', 'underWay'] },
    { text: 'need house last 6 h and crank $0', only: ['engine1'] },
    { text: 'need spare 1 $0', offers: ['ethernet', 'nmea2000', 'dc'], lacks: ['usb', 'ac'] },
    {
      text: 'need spare 1 ethernet on $0',
      only: ['plotter', 'skua', 'hub', 'bowScreen'],
      details: { hub: 'Switch5 at cabin, 3 of 5 ethernet ports free' },
    },
    { text: 'need cost under 5000 $0', first: ['USD'], offers: ['EUR'], lacks: ['A', 'm'] },
  ]);
});

describe('views', () => {
  itOffers([
    { text: 'view "Drift" on $0', only: ['plotter', 'bowScreen', 'skua'] },
    {
      text: 'view "Drift" on plotter { $0',
      only: ['left', 'right', 'top', 'bottom', 'whole'],
      taken: ['left', 'view "Drift" on plotter { left: '],
    },
    {
      text: 'view "Drift" on plotter { left: chart $0 }',
      offers: ['over', 'right'],
      lacks: ['left', 'whole'],
    },
    // What the screen cannot show is not offered: spareBeam is linked to nothing, skua is on no network.
    {
      text: 'view "Drift" on plotter { left: $0',
      first: ['keel'],
      offers: ['sonar', 'chart'],
      lacks: ['spareBeam', 'plotter', 'log', 'radar'],
    },
    { text: 'view "Drift" on skua { left: $0', only: [] },
    { text: 'view "Drift" on plotter { left: keel.$0  right: chart }', only: ['side', 'down'] },
    { text: 'view "Drift" on plotter { left: chart over $0', offers: ['keel'] },
  ]);
});

describe('modes, days and the rest', () => {
  itOffers([
    { text: 'mode x { $0', only: ['on', 'set', 'charge'] },
    {
      text: 'mode x { on $0',
      first: ['plotter'],
      offers: ['hub', 'vhf', 'pump', 'others'],
      lacks: ['house', 'keel', 'whip'],
    },
    { text: 'mode x { on plotter, $0', offers: ['hub'], lacks: ['plotter'] },
    { text: 'mode x { on plotter 80 $0', first: ['%'], lacks: ['A'] },
    { text: 'mode x { set $0', only: ['selector'] },
    { text: 'mode x { set selector $0', only: ['off', '1', '2', 'both'], details: { 1: 'joins in1 + out' } },
    { text: 'mode x { charge $0', only: ['engine1'] },
    { text: 'day d { in $0', only: ['drifting', 'underWay'] },
    { text: 'day d { in drifting 6 $0', first: ['h'] },
    { text: 'negative house, $0', only: ['start'] },
    { text: 'negative house, start $0', first: ['joined', 'apart'] },
    { text: 'prefer $0', offers: ['heading', 'sonar.side'], lacks: ['wind', 'video'] },
    { text: 'prefer heading from $0', only: ['compass'] },
  ]);
});

describe('devices, zones and runs', () => {
  itOffers([
    {
      text: 'device x : $0',
      first: ['Tern13', 'Tern16'],
      offers: ['BeamHD', 'Panel8', 'Coupler'],
      lacks: ['SealedNet', 'Tern', 'plotter'],
      details: { Tern13: 'display, 13-inch display, 1899 USD' },
    },
    { text: 'device x :$0', offers: ['Tern13'], taken: ['Tern13', 'device x : Tern13'] },
    { text: 'device x : Tern13 or $0', only: ['Tern16', 'Tern7', 'Skua9'] },
    { text: 'device x : Tern13 $0', only: ['or', 'at', 'back', 'existing', 'leaving', 'allow'] },
    {
      text: 'device x : Tern13 at $0',
      only: ['bow', 'helm', 'cabin'],
      details: { bow: 'exposed, aft 0.8 m' },
    },
    { text: 'device x : Tern13 at helm back $0', only: ['bow', 'cabin'] },
    { text: 'device x : Tern13 at $0 back helm', only: ['bow', 'cabin'] },
    { text: 'device x : Agm105 { $0', only: ['series', 'parallel', 'instance', 'note', 'offset'] },
    { text: 'device x : Agm105 { series 2 $0 }', only: ['parallel', 'instance', 'note', 'offset'] },
    { text: 'device x : Selector { $0', only: ['instance', 'note', 'offset', 'normally'] },
    { text: 'device x : Selector { normally $0', only: ['off', '1', '2', 'both'] },
    { text: 'device x : BeamHD { synced with $0', offers: ['keel', 'spareBeam'], lacks: ['hub', 'x'] },
    { text: 'zone z $0', only: ['exposed', 'aloft', 'sheltered', 'interior', 'machinery'] },
    { text: 'zone z exposed $0', only: ['aft', 'height', 'side', 'deck', 'petrol', 'diesel', 'allow'] },
    { text: 'zone z exposed petrol aft 2 m $0', only: ['height', 'side', 'deck', 'allow'] },
    { text: 'zone z exposed side $0', only: ['port', 'starboard', 'centre'] },
    { text: 'run $0', only: ['bow', 'helm', 'cabin'] },
    { text: 'run bow -- $0', only: ['helm', 'cabin'] },
    { text: 'run gangway : $0', only: ['bow', 'helm', 'cabin'] },
    { text: 'run bow -- helm 2 m $0', offers: ['conduit', 'loom'] },
  ]);
});
