import { describe } from 'vitest';
import { itOffers } from './cases.js';

describe('models', () => {
  itOffers([
    {
      text: 'model M : $0',
      offers: ['display', 'batteryswitch', 'joint'],
      lacks: ['Tern13', 'ethernet'],
      details: { gnss: 'GNSS receiver' },
    },
    {
      text: 'model M : display {\n  $0\n}',
      first: ['port', 'shows'],
      offers: ['families', 'screen', 'title', 'price'],
      lacks: ['capacity', 'positions', 'sealed', 'chemistry', 'takes'],
    },
    {
      text: 'model M : display {\n  pr$0\n  port net : ethernet\n  shows chart\n  title "x"\n}',
      offers: ['price', 'port'],
      lacks: ['shows', 'title'],
      taken: ['price', '  price'],
    },
    {
      text: 'model M : battery { $0',
      first: ['port', 'voltage'],
      offers: ['capacity', 'chemistry', 'peukert'],
      lacks: ['shows', 'screen'],
    },
    { text: 'model M : joint {\n  $0\n}', offers: ['sealed', 'length'], lacks: ['voltage'] },
    {
      text: 'model M : load { kind $0',
      only: [
        'bilgepump',
        'blower',
        'navlight',
        'motor',
        'thruster',
        'pilotdrive',
        'alarm',
        'memory',
        'trolling',
        'light',
      ],
    },
    { text: 'model M : battery { chemistry $0', only: ['flooded', 'agm', 'gel', 'lfp', 'nmc'] },
    {
      text: 'model M : display { families $0',
      only: ['Tern', 'Skua'],
      details: { Tern: 'Coastal displays' },
    },
    { text: 'model M : display { families Tern, $0', only: ['Skua'] },
    { text: 'model M : display { shows $0', offers: ['chart', 'sonar', 'sonar.side'], lacks: ['plotter'] },
    { text: 'model M : display { shows chart, $0', offers: ['sonar'], lacks: ['chart'] },
    {
      text: 'model M : transducer { gives sonar.si$0',
      taken: ['sonar.side', 'model M : transducer { gives sonar.side'],
    },
    { text: 'model M : transducer { gives sonar.side $0', first: ['hd', 'standard', 'at'] },
    { text: 'model M : transducer { gives depth $0', first: ['at'], lacks: ['hd', 'standard'] },
    { text: 'model M : display { wants heading at 10 $0', first: ['Hz'], lacks: ['m', 'V'] },
    { text: 'model M : display { ingress $0', offers: ['IPX6', 'IPX7'] },
    { text: 'model M : display { ingress IPX6, $0', offers: ['IPX7'], lacks: ['IPX6'] },
    { text: 'model M : switch { port 1..4 : ethernet  bridges $0', only: ['ethernet'] },
    { text: 'model M : batteryswitch { port a, b : dc  positions off, on joins a + $0', only: ['b'] },
    {
      text: 'model M : gateway { port i : nmea0183 listens 4800  port o : nmea0183 talks 4800  passes $0',
      only: ['i'],
    },
    {
      text: 'model M : gateway { port i : nmea0183 listens 4800  port o : nmea0183 talks 4800  passes i -> $0',
      only: ['o'],
    },
    {
      text: 'model M : gateway { port i : nmea0183 listens 4800  port o : nmea0183 talks 4800  passes i -> o without $0',
      offers: ['GGA', 'VHW'],
      lacks: ['129025'],
    },
    { text: 'model M : display { price 5 $0', first: ['USD', 'EUR'], lacks: ['V', 'm'] },
    { text: 'model M : display { screen 9 $0', first: ['m'], offers: ['in'] },
    { text: 'model M : battery { voltage 12 $0', first: ['V', 'mV'], lacks: ['kV', 'in', 'A'] },
    { text: 'model M : battery { capacity 105 $0', first: ['Ah', 'mAh'], lacks: ['A', 'in'] },
  ]);
});

describe('ports', () => {
  itOffers([
    {
      text: 'model M : display { port net : $0',
      offers: ['ethernet', 'nmea2000', 'own'],
      lacks: ['display'],
    },
    {
      text: 'model M : display { port net : ethernet $0',
      first: ['sealed', 'powered', 'captive', 'with', 'poe'],
      lacks: ['in', 'len', 'talks', 'accepts'],
    },
    {
      text: 'model M : display {\n  port net : ethernet sealed\n  $0\n}',
      first: ['shows'],
      lacks: ['sealed', 'captive', 'poe'],
    },
    { text: 'model M : display { port net : ethernet sealed $0', offers: ['captive'], lacks: ['sealed'] },
    {
      text: 'model M : display { port p : dc in 10..32 V $0',
      offers: ['draws', 'max', 'fuse'],
      lacks: ['in', 'out', 'len'],
    },
    { text: 'model M : display { port p : dc in 10..32 $0', first: ['V'], lacks: ['A', 'in'] },
    { text: 'model M : display { port p : dc draws 5 $0', first: ['A'], offers: ['W'], lacks: ['V'] },
    { text: 'model M : display { port s : transducer accepts $0', only: ['hd', 'standard'] },
    { text: 'model M : instrument { port o : nmea0183 talks $0', first: ['4800', '9600'] },
    {
      text: 'model M : instrument { port o : nmea0183 single $0',
      offers: ['talks'],
      lacks: ['differential', 'single'],
    },
    { text: 'model M : instrument { port o : nmea0183 sends $0', offers: ['MWV'], lacks: ['130306'] },
    { text: 'model M : instrument { port o : nmea2000 sends $0', offers: ['130306'], lacks: ['MWV'] },
    { text: 'model M : antenna { port p : coax $0', first: ['vhf', 'ais', 'gnss'] },
    { text: 'model M : antenna { port p : coax vhf $0', lacks: ['vhf', 'ais'], offers: ['captive'] },
    { text: 'model M : panel { port 1..4 : dc out holds $0', offers: ['blade', 'largeblade'] },
    { text: 'model M : switch { port 1 : ethernet poe $0', first: ['gives', 'wants'] },
    { text: 'model M : switch { port 1 : ethernet poe gives $0', first: ['class', 'passive'] },
  ]);
});

describe('messages', () => {
  itOffers([
    {
      text: 'model M : instrument { port o : nmea0183 sends G$0',
      offers: ['GGA', 'DTM'],
      // No signal of the library travels as the second: it is known by the table of sentences alone.
      details: { GGA: 'Position and its quality, position, position.quality', DTM: 'Datum' },
    },
    {
      text: 'model M : instrument { port o : nmea2000 sends $0',
      offers: ['127250', '126996'],
      details: { 127250: 'Vessel Heading, heading, heading.magnetic', 126996: 'Product Information' },
    },
  ]);
});

describe('cables and the vessel', () => {
  itOffers([
    { text: 'cable C : $0', offers: ['ethernet', 'nmea2000', 'coax'] },
    {
      text: 'cable C : ethernet { od 5 mm $0 }',
      offers: ['title', 'stock', 'sealed'],
      lacks: ['od', 'port', 'price'],
    },
    { text: 'cable C : ethernet { sealed stock 2 m at 5 $0', first: ['USD'] },
    { text: 'cable C : nmea2000 { resistance 57 ohm per $0', only: ['m', 'km', 'ft'] },
    { text: 'cable C : dc { size $0', offers: ['14 AWG', '2.5 mm2'] },
  ]);
});

describe('the head of a vessel', () => {
  itOffers(
    [
      {
        text: 'vessel V {\n  $0\n}',
        first: ['practice', 'currency', 'hull', 'status'],
        offers: ['slack', 'labour'],
      },
      {
        text: 'vessel V {\n  practice abyc\n  $0\n  hull grp\n}',
        lacks: ['practice', 'hull'],
        offers: ['slack'],
      },
      { text: 'vessel V { practice $0', only: ['abyc', 'iso'] },
      { text: 'vessel V { hull $0', only: ['grp', 'wood', 'steel', 'aluminium', 'carbon'] },
      { text: 'vessel V { status $0', only: ['preliminary', 'installation', 'built'] },
      { text: 'vessel V { currency $0', first: ['USD', 'EUR'] },
      { text: 'vessel V { slack 0.5 $0', first: ['m'] },
      { text: 'vessel V { wiring 105 $0', first: ['C'] },
      { text: 'vessel V { labour 80 USD per $0', only: ['h'] },
    ],
    'other.loft',
    { 'other.loft': '' },
  );
});
