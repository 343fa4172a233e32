/**
 * How each medium is drawn: a colour that reaches 4.5:1 on white and is told apart by those who see fewer colours, and beside it a
 * weight and a dash that tell it apart in black and white. Line widths after ISO 128.
 */
import type { Medium } from '../vessel/model.js';
import { mediumText } from '../vessel/mediumText.js';
import type { Stroke } from './scene/scene.js';

export const BLUE = '#0b5cab';
export const GREEN = '#00705a';
const PURPLE = '#8a3a7d';
export const RED = '#b03a0a';
const BLACK = '#000000';
const SLATE = '#4a4a4a';

const MEDIUM_STROKES: Readonly<Record<Medium, Stroke>> = {
  ethernet: { colour: BLUE, width: 0.5 },
  transducer: { colour: GREEN, width: 0.5, dash: [6, 1.5] },
  nmea2000: { colour: BLACK, width: 1 },
  nmea0183: { colour: BLACK, width: 0.35, dash: [3, 1] },
  dc: { colour: RED, width: 0.7 },
  coax: { colour: PURPLE, width: 0.5, dash: [6, 1.2, 0.8, 1.2] },
  video: { colour: BLUE, width: 0.35, dash: [2, 1] },
  audio: { colour: GREEN, width: 0.35, dash: [1, 1] },
  usb: { colour: PURPLE, width: 0.35, dash: [4, 1, 1, 1] },
  wireless: { colour: SLATE, width: 0.35, dash: [0.8, 1.6] },
  trigger: { colour: SLATE, width: 0.35, dash: [1.6, 1.6] },
  ac: { colour: RED, width: 0.5, dash: [6, 1.2, 0.8, 1.2, 0.8, 1.2] },
  own: { colour: SLATE, width: 0.5, dash: [9, 1.5] },
};

const UNKNOWN_STROKE: Stroke = { colour: SLATE, width: 0.35, dash: [0.4, 2] };
/** What is found wrong. */
export const FINDING = '#a81414';
/** Background of a zone, and of a box; light enough for text and for print. */
export const ZONE_FILL = '#f3f5f7';
export const ZONE_EDGE: Stroke = { colour: '#9aa5b1', width: 0.25 };
export const BOX_FILL = '#ffffff';
export const BOX_HEAD = '#e4ebf2';

/** The stroke of a medium, or of one that is not settled. */
export function strokeOf(medium: Medium | undefined): Stroke {
  return medium === undefined ? UNKNOWN_STROKE : MEDIUM_STROKES[medium];
}

const TITLES: Readonly<Partial<Record<Medium, string>>> = {
  dc: 'direct current',
  ac: 'alternating current',
  coax: 'antenna cable',
  transducer: 'transducer cable',
  own: 'own plug of a maker',
};

/** What the legend calls a medium. */
export function mediumTitle(medium: Medium | undefined): string {
  return medium === undefined ? 'medium not settled' : (TITLES[medium] ?? mediumText(medium));
}

/** Letter that a cable's number begins with. */
export const MEDIUM_LETTERS: Readonly<Record<Medium, string>> = {
  ethernet: 'E',
  transducer: 'T',
  nmea2000: 'N',
  nmea0183: 'S',
  dc: 'P',
  coax: 'A',
  video: 'V',
  audio: 'L',
  usb: 'U',
  wireless: 'W',
  trigger: 'C',
  ac: 'M',
  own: 'H',
};
