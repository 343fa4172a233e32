import { block, STATEMENT, type Construct, type Group } from '../construct.js';

const ethernet = 'cable Probe : ethernet {\n  HERE\n}';
const dc = 'cable Probe : dc {\n  HERE\n}';

/** A property with one quantity. */
const quantity = (
  key: string,
  value: string,
  wrong: readonly [value: string, wanted: string],
  doc: string,
  frame: string,
): Construct => {
  const [number = '', unit = ''] = value.split(' ');
  return {
    name: `\`${key}\``,
    frame,
    text: `${key} ${value}`,
    ugly: `${key}  ${number}${unit}`,
    wrong: [`${key} ${wrong[0]}`, 'type/dimension', `${key} wants ${wrong[1]}`],
    completes: [`${key} ${number} $0`, `${unit} -${wrong[0].split(' ')[1] ?? ''}`],
    hovers: [`${key.slice(0, 2)}$0${key.slice(2)} ${value}`, doc],
  };
};

const word = (key: string, value: string, doc: string): Construct => ({
  name: `\`${key}\``,
  frame: ethernet,
  text: `${key}${value}`,
  ugly: value === '' ? `    ${key}` : `${key}  ${value}`,
  wrong: [`${key}${value}  ${key}${value}`, 'type/duplicate', `${key} is given twice`],
  completes: [`${key.slice(0, 3)}$0`, `${key} -chemistry`],
  hovers: [`${key.slice(0, 2)}$0${key.slice(2)}${value}`, doc],
});

export const cables: Group = {
  title: 'Cables',
  frame: ethernet,
  constructs: [
    {
      name: '`cable` and its medium',
      frame: STATEMENT,
      text: 'cable Probe : ethernet { od 6 mm }',
      ugly: 'cable Probe:ethernet{od 6mm}',
      resolves: 'ethernet -> medium ethernet',
      wrong: ['cable Probe : ethernt { od 6 mm }', 'type/unknown-name', 'Did you mean ethernet?'],
      completes: ['cable Probe : $0', 'ethernet coax -display'],
      hovers: ['cable Pro$0be : ethernet { od 6 mm }', 'ethernet'],
    },
    {
      name: "a cable with a maker's own plug",
      frame: STATEMENT,
      text: 'cable Probe : own "handset" { longest 3 m }',
      ugly: 'cable Probe : own"handset" {longest 3m}',
      resolves: 'own -> medium own',
      wrong: ['cable SealedNet : own "handset" { od 6 mm }', 'type/duplicate', 'two cables named SealedNet'],
      completes: ['cable Probe : ow$0', 'own'],
      hovers: ['cable Probe : ow$0n "handset" { od 6 mm }', "maker's own plug"],
    },
    word('title', ' "Patch cord"', 'called on lists'),
    word('part', ' "PC-1"', 'Part number'),
    word('note', ' "blue"', 'remark'),
    word('sealed', '', 'connectors are sealed'),
    word('sheathed', '', 'sheath'),
    quantity('od', '6.5 mm', ['6.5 V', 'a length'], 'Outside diameter', ethernet),
    quantity('head', '24 mm', ['24 V', 'a length'], 'moulded connector', ethernet),
    quantity('longest', '100 m', ['100 A', 'a length'], 'Longest', ethernet),
    quantity('bend', '30 mm', ['30 A', 'a length'], 'bend radius', ethernet),
    quantity('carries', '3 A', ['3 V', 'a current'], 'Current it carries', dc),
    quantity('rated', '105 C', ['105 V', 'a temperature'], 'insulation is rated', dc),
    {
      name: '`stock`: lengths with prices',
      text: 'stock 2 m at 39 USD, 6 m',
      ugly: 'stock 2m at 39USD ,6m',
      wrong: ['stock 2 m at 39 V', 'type/dimension', 'a price wants a price'],
      completes: ['stock 2 m at 39 $0', 'USD EUR -m'],
      hovers: ['sto$0ck 2 m', 'Lengths it is sold in'],
    },
    {
      name: '`bulk`: a price by length',
      text: 'bulk 2 USD per m',
      ugly: 'bulk 2USD\nper m',
      wrong: ['bulk 2 V per m', 'type/dimension', 'bulk wants a price'],
      completes: ['bulk 2 USD $0', 'per'],
      hovers: ['bu$0lk 2 USD per m', 'Price by length'],
    },
    {
      name: '`size`',
      frame: dc,
      text: 'size 14 AWG',
      ugly: 'size 14AWG',
      wrong: ['size 14 V', 'type/dimension', 'conductor size, this is a voltage'],
      completes: ['size 14 $0', 'AWG mm2 -m'],
      hovers: ['si$0ze 14 AWG', 'Conductor size'],
    },
    {
      name: '`size` of large conductors',
      frame: dc,
      text: 'size 2/0 AWG',
      ugly: 'size 2/0AWG',
      wrong: ['size 2/0 mm', 'type/dimension', 'conductor size, this is a length'],
      completes: ['size 2/0 $0', 'AWG'],
      hovers: ['si$0ze 2/0 AWG', 'Conductor size'],
    },
    {
      name: '`resistance` per length, of one conductor',
      frame: block('cable Probe : nmea2000', 'od 6 mm'),
      text: 'resistance 57 ohm per km per conductor',
      ugly: 'resistance 57ohm per km\nper conductor',
      wrong: ['resistance 57 V per km', 'type/dimension', 'resistance wants a resistance'],
      completes: ['resistance 57 ohm per km per $0', 'conductor'],
      hovers: ['resis$0tance 57 ohm per km', 'Resistance of a conductor'],
    },
    {
      name: '`loss` per length, at a frequency',
      frame: block('cable Probe : coax', 'od 6 mm'),
      text: 'loss 15.2 dB per 100 m at 156.8 MHz',
      ugly: 'loss 15.2dB per 100m at 156.8MHz',
      wrong: ['loss 15.2 dB per 100 m at 156 V', 'type/dimension', 'at wants a frequency'],
      completes: ['loss 15.2 dB per 100 m at 156.8 $0', 'MHz -V'],
      hovers: ['lo$0ss 15.2 dB', 'Signal loss'],
    },
  ],
};
