/** What the properties mean that only declarations of the bundled library, and signals, have; and the two grades of sonar. */
import type { Property } from './properties.js';
import type { WordList } from './words.js';

const p = (doc: string): Property => ({ doc });

export const LIBRARY_PROPERTIES: Readonly<Record<string, Property>> = {
  pgn: p('NMEA 2000 parameter group number of the message that carries the signal, with its usual rate.'),
  sentence: p('NMEA 0183 sentence that carries the signal, with its usual rate.'),
  connects: p('How many ends a connection has, and which may meet.'),
  must: p('What has to be stated, because nothing could be said without it.'),
  may: p('What else makes sense to state.'),
  symbol: p('How it is drawn.'),
  asks: p('IP codes (IEC 60529) that the face of a device has to hold here, each of them.'),
  wet: p('An open connector takes harm here.'),
  hot: p('The ambient of an engine space holds here.'),
  ratings: p('Ratings in which the fuse is sold, in ascending order.'),
  rated: p('Highest voltage of the circuit.'),
  ignition: p('Ignition protected: may stand where petrol vapour may collect (33 CFR 183.410).'),
  interrupts: p('Greatest fault current that the fuse is sure to break, at a voltage.'),
};

export const GRADES: WordList = {
  standard: 'the standard grade of sonar',
  hd: 'the high-definition grade of sonar; a port that accepts it accepts the standard grade too',
};
