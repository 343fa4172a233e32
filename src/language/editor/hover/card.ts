/** A hover card in Markdown: a heading, lines under it, and the documentation comment. */
import type { Money, Port } from '../../../vessel/model.js';
import { inUnit } from '../../../vessel/units.js';

export interface Card {
  /** In bold: "**plotter** : Tern13". */
  readonly heading: string;
  readonly lines: readonly string[];
  /** The `///` text. */
  readonly doc?: string | undefined;
}

/** Most rows of one list; what is over is counted. */
const MOST_ROWS = 12;

export function markdown(card: Card): string {
  const parts = [card.heading];
  if (card.doc !== undefined && card.doc !== '') parts.push(card.doc);
  const lines = card.lines.filter((line) => line !== '');
  if (lines.length > 0) parts.push(lines.join('  \n'));
  return parts.join('\n\n');
}

/** At most a dozen rows as a list, with the count of the rest. */
export function rows(list: readonly string[], most = MOST_ROWS): string[] {
  if (list.length === 0) return [];
  const shown = list.slice(0, most).map((row) => `- ${row}`);
  if (list.length > most) shown.push(`- and ${list.length - most} more`);
  // A list is a block of its own, or the lines above would run into it.
  return [`\n${shown.join('\n')}\n`];
}

export const code = (text: string): string => `\`${text}\``;
export const bold = (text: string): string => `**${escape(text)}**`;

/**
 * Text from a spec inside Markdown: nothing in it may become mark-up. Only what could is escaped, since some clients show the
 * text as it is.
 */
export function escape(text: string): string {
  return text
    .replace(/[\\`*_[\]<>|~&]/g, '\\$&')
    .replace(/^(\s*)([#+=-])/gm, '$1\\$2')
    .replace(/^(\s*\d+)([.)]\s)/gm, '$1\\$2');
}

export const metres = (value: number): string => inUnit(value, 'm');

export const price = (money: Money | undefined): string | undefined =>
  money && `${money.amount} ${money.currency}`;

/** What a port is and can do, in a line: "ethernet, sealed". */
export function portFacts(port: Port): string {
  const facts: string[] = [port.medium === 'own' ? `own "${port.ownPlug ?? ''}"` : port.medium];
  if (port.sealed) facts.push('sealed');
  if (port.accepts) facts.push(port.accepts === 'hd' ? 'accepts hd and standard' : 'accepts standard');
  if (port.outputWatts !== undefined) facts.push(`output ${inUnit(port.outputWatts, 'W')}`);
  if (port.captive)
    facts.push(
      port.captive.lengthMetres === undefined
        ? 'captive tail'
        : `captive tail of ${metres(port.captive.lengthMetres)}`,
    );
  if (port.len !== undefined) facts.push(`${port.len} LEN (${inUnit(port.len * 0.05, 'A')})`);
  if (port.terminates) facts.push('terminator built in');
  if (port.serial?.talksBaud !== undefined)
    facts.push(port.serial.talksBaud ? `talks at ${port.serial.talksBaud} bit/s` : 'talks');
  if (port.serial?.listensBaud !== undefined)
    facts.push(port.serial.listensBaud ? `listens at ${port.serial.listensBaud} bit/s` : 'listens');
  if (port.serial?.signalling)
    facts.push(port.serial.signalling === 'single' ? 'single-ended' : 'differential');
  if (port.serial?.isolated) facts.push('isolated');
  if (port.dc) facts.push(...dcFacts(port.dc));
  if (port.poe)
    facts.push(
      `power over ethernet: ${port.poe.role} ${port.poe.poeClass === undefined ? 'passive power' : `class ${port.poe.poeClass}`}`,
    );
  if (port.withPower) facts.push('carries power as well');
  if (port.service !== undefined) facts.push(port.service);
  return facts.join(', ');
}

function dcFacts(dc: NonNullable<Port['dc']>): string[] {
  const facts: string[] = [];
  if (dc.inVolts) facts.push(`in ${dc.inVolts.low}..${dc.inVolts.high} V`);
  else if (dc.direction === 'in') facts.push('in');
  if (dc.outVolts !== undefined) facts.push(`out ${dc.outVolts} V`);
  else if (dc.direction === 'out') facts.push('out');
  if (dc.draws) facts.push(`draws ${dc.draws.amount} ${dc.draws.unit}`);
  if (dc.max) facts.push(`max ${dc.max.amount} ${dc.max.unit}`);
  if (dc.standby) facts.push(`standby ${dc.standby.amount} ${dc.standby.unit}`);
  if (dc.fuseAmps !== undefined) facts.push(`maker's fuse ${dc.fuseAmps} A`);
  if (dc.holds.length > 0) facts.push(`holds ${dc.holds.join(', ')}`);
  if (dc.limitsAmps !== undefined) facts.push(`limits itself to ${dc.limitsAmps} A`);
  if (dc.cranks) facts.push(`cranks ${dc.cranks.amps} A`);
  return facts;
}
