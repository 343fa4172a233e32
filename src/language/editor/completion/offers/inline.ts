/** What the words inside a declaration mean, and where one of them is out of place. */
import type { Boat } from '../boat.js';
import { around, type Place } from '../place.js';
import { partOf, textOf, textsOf } from '../reading/parts.js';
import { isScreen } from './devices.js';

/** By the type of the part and the word. */
export const ITEMS: Readonly<Record<string, string>> = {
  'TerminatorItem terminator': 'The resistor at an end of the cable.',
  'TerminatorItem in': 'A device with the terminator built in.',
  'TeeItem tee': 'A tee, with the device on its drop.',
  'TeeItem capped': 'A tee that is kept for later.',
  'TeeItem at': 'The zone that the tee is in.',
  'TapItem tap': 'Where the bus is fed from.',
  'TapItem at': 'The zone that the tap is in.',
  'MarkItem isolate': 'The power pair is parted here; data goes on.',
  'MarkItem ground': 'Where the shield is joined to ground, once.',
  'OnDuty on': 'Devices that are on.',
  'SetDuty set': 'The position of a switch.',
  'ChargeDuty charge': 'What charges the batteries.',
  'OnItem max': 'At its highest draw, for this share of the time.',
  'DayPart in': 'A mode, and how long it lasts.',
  'AddEdit add': 'Something that the option brings aboard.',
  'AddEdit to': 'The backbone that the tee is on.',
  'AddEdit after': 'Behind the tee of a device.',
  'AddEdit before': 'Before the tee of a device.',
  'RemoveEdit remove': 'A device with all that is joined to it, or one link.',
  'ChangeEdit change': 'Another model in place of one aboard.',
  'DeviceDecl at': 'The zone that it is in.',
  'JoinClause at': 'The zone that it is in.',
  'Protection at': 'The device at whose end it sits.',
  'StockItem at': 'The price of that length.',
  'SignalItem at': 'The rate.',
  'MessageItem at': 'The rate.',
  'PgnProperty at': 'The usual rate.',
  'SentenceProperty at': 'The usual rate.',
  'CapacityProperty at': 'The discharge time it is rated for.',
  'LossProperty at': 'The frequency it holds at.',
  'InterruptItem at': 'The voltage it holds at.',
  'SagsProperty to': 'The lowest voltage while cranking.',
  'SpareGoal spare': 'Ports that stay free.',
  'SpareGoal on': 'The devices whose ports count.',
  'CostGoal cost': 'What all of it may cost.',
  'ShowAbility without': 'Devices that are off meanwhile.',
  'LastAbility in': 'The mode it is in meanwhile.',
  'LabourProperty device': 'The time that a device takes.',
  'PoeFeature class': 'A class of IEEE 802.3.',
  'PoeFeature passive': 'Passive power: a voltage and a power.',
  'PoeFeature gives': 'Supplies power to what is plugged in.',
  'PoeFeature wants': 'Is fed through the plug.',
  'PassesProperty with': 'These messages alone.',
  'PassesProperty without': 'All but these messages.',
  'SignalDecl pgn': 'The NMEA 2000 message that carries it.',
};

/** By the word alone. */
export const INLINE: Readonly<Record<string, string>> = {
  '--': 'to the other end',
  '->': 'to what is supplied',
  or: 'Another model to choose from.',
  show: 'What the screens must be able to show.',
  hear: 'Signals that must come to the devices.',
  last: 'How long the bank must last.',
  and: 'And then still do this.',
  crank: 'Engines that must still start.',
  others: 'Everything that the mode does not name.',
  over: 'A layer below this one.',
  because: 'The reason, for whoever reads the waiver.',
  until: 'The last day on which it holds: 2027-04-01.',
  on: 'The screen.',
  from: 'What it comes from.',
  to: 'What it goes to.',
  joined: 'One negative for all.',
  apart: 'Each bank has a negative of its own.',
  joins: 'The ports that are joined in this position.',
  per: 'For each.',
  conductor: 'Of one conductor.',
  od: 'Outside diameter of the tail.',
  head: 'Diameter of its moulded plug, which has to pass a conduit.',
  for: 'For how long.',
  hd: 'High definition.',
  standard: 'Standard definition.',
  total: 'Power of all its ports together.',
  power: 'The cable carries power as well.',
  protected: 'Ignition protected (33 CFR 183.410).',
  under: 'The limit.',
  end: 'The time that a cable end takes.',
  pgn: 'The NMEA 2000 message that carries it.',
  sentence: 'The NMEA 0183 sentence that carries it.',
  symbol: 'How it is drawn.',
  connects: 'How many ends a connection has.',
  must: 'What has to be said.',
  may: 'What can be said.',
  asks: 'IP codes (IEC 60529), each of which must hold.',
  wet: 'An open connector takes harm there.',
  hot: 'The ambient of an engine space holds there.',
  ratings: 'Ratings in which it is sold.',
  ignition: 'May stand where petrol vapour may collect (33 CFR 183.410).',
};

/** Whether a word inside a declaration makes sense with what was said before it. */
export function isInlineFitting(place: Place, boat: Boat): boolean {
  const { word, part } = place;
  switch (part.type) {
    case 'SignalItem':
      return !isGrade(word) || (textOf(part, 'signal') ?? '').startsWith('sonar');
    case 'SpareGoal':
    case 'CostGoal':
      return part.first !== undefined || !goesOn(place);
    case 'ShowAbility':
    case 'HearAbility':
    case 'LastAbility':
      return part.first !== undefined || canDo(place, boat);
    default:
      return true;
  }
}

const isGrade = (word: string): boolean => word === 'hd' || word === 'standard';

/** What is written behind the cursor says what somebody must be able to do. */
function goesOn(place: Place): boolean {
  const need = around(place, 'NeedDecl');
  const goal = need && partOf(place.whole(need), 'goal');
  return goal !== undefined && partOf(goal, 'ability') !== undefined;
}

/** Screens show, banks last, and what wants signals hears them. */
function canDo(place: Place, boat: Boat): boolean {
  const goal = around(place, 'NamedGoal');
  const models = (goal ? textsOf(goal, 'subjects') : []).flatMap((name) => boat.device(name)?.model ?? []);
  switch (place.part.type) {
    case 'ShowAbility':
      return models.every(isScreen);
    case 'LastAbility':
      return models.length <= 1 && models.every((model) => model.class === 'battery');
    default:
      return models.every((model) => model.class !== 'battery');
  }
}
