/** Closed lists of words, each with what a completion or a hover says of it. */

export type WordList = Readonly<Record<string, string>>;

export const PRACTICES: WordList = {
  abyc: 'wires and fuses by ABYC E-11 (with 33 CFR 183)',
  iso: 'wires and fuses by ISO 13297 (formerly ISO 10133)',
};

export const HULLS: WordList = {
  grp: 'glass-reinforced plastic',
  wood: 'wood',
  steel: 'steel',
  aluminium: 'aluminium',
  carbon: 'carbon fibre',
};

export const STATUSES: WordList = {
  preliminary: 'a drawing to talk about',
  installation: 'a drawing to install from',
  built: 'a drawing of what was built',
};

export const SIDES: WordList = {
  port: 'left, looking forward',
  starboard: 'right, looking forward',
  centre: 'on the centre line',
};

export const CHEMISTRIES: WordList = {
  flooded: 'lead-acid, flooded',
  agm: 'lead-acid, absorbed glass mat',
  gel: 'lead-acid, gel',
  lfp: 'lithium iron phosphate',
  nmc: 'lithium nickel manganese cobalt',
};

export const LOAD_KINDS: WordList = {
  bilgepump: 'a bilge pump; safety gear, and never behind the battery switch when automatic',
  blower: 'a bilge blower; its circuit is held to 3 % voltage drop',
  navlight: 'a navigation light; its circuit is held to 3 % voltage drop',
  motor: 'a motor that is no other kind; disturbs cables beside it',
  thruster: 'a thruster; disturbs cables beside it',
  pilotdrive: "a pilot's drive unit; disturbs cables beside it",
  alarm: 'an alarm; may stay on behind no switch',
  memory: 'memory of a radio or display; may stay on behind no switch',
  trolling: 'a trolling motor with its bank',
  light: 'a light below or on deck',
};

export const SERVICES: WordList = {
  vhf: 'marine VHF radio, 156.8 MHz',
  ais: 'AIS, 162 MHz',
  gnss: 'satellite positions, about 1.6 GHz',
  hf: 'HF radio, 2 to 30 MHz',
  wifi: 'wireless network',
  cellular: 'mobile telephone',
  broadcast: 'broadcast radio and television',
  satcom: 'satellite communication',
};

export const CONNECTIONS: WordList = {
  pair: 'two ends, one connection a port',
  line: 'one talker and its listeners',
  net: 'everything teed onto one backbone',
  tree: 'from what supplies to what is supplied',
  none: 'nothing to plug in',
};

/** The rates of NMEA 0183 (IEC 61162-1 and -2), and those in between that makers offer. */
export const BAUD_RATES: readonly number[] = [4800, 9600, 19200, 38400, 57600, 115200];
