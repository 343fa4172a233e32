/** NMEA 0183: sentence lengths and the budget of a line. */
import { describe, expect, it } from 'vitest';
import { capacity, charactersOf, kindOf, LONGEST_SENTENCE, share, SPEEDS } from '../../src/vessel/serial.js';
import { SENTENCES } from '../../src/vessel/sentences.js';

describe('sentences', () => {
  // Usual field widths of IEC 61162-1, carriage return and line feed counted (derived).
  it.each([
    ['GGA', 67],
    ['RMC', 70],
    ['VTG', 43],
    ['HDT', 19],
    ['DPT', 24],
    ['MWV', 29],
    ['VHW', 32],
  ])('%s takes %i characters', (formatter, characters) => {
    expect(charactersOf(formatter)).toBe(characters);
  });

  it('are at most 82 characters long, as IEC 61162-1 has it, and formed as it has it', () => {
    for (const [formatter, { shape }] of Object.entries(SENTENCES)) {
      expect(shape.length + 2, formatter).toBeLessThanOrEqual(LONGEST_SENTENCE);
      expect(shape, formatter).toMatch(new RegExp(`^[$!]--${formatter},.*\\*hh$`));
    }
  });

  it('are told from what cannot be one', () => {
    expect(kindOf('HDT')).toBe('known');
    expect(kindOf('PABCX')).toBe('proprietary');
    expect(kindOf('QQQ')).toBe('unlisted');
    expect(kindOf('Heading')).toBe('malformed');
    expect(kindOf('constructor')).toBe('malformed');
    expect(kindOf('P'.repeat(83))).toBe('malformed');
  });
});

describe('the budget of a line', () => {
  it('is 484 characters a second in the worked example: 100.8 % of 4800 bit/s, 12.6 % of 38400', () => {
    const sent = { GGA: 1, RMC: 1, VTG: 1, HDT: 10, DPT: 1, MWV: 2, VHW: 1 };
    const characters = Object.entries(sent).reduce(
      (total, [formatter, hertz]) => total + (charactersOf(formatter) ?? NaN) * hertz,
      0,
    );
    expect(characters).toBe(484);
    expect(((share(characters, SPEEDS.standard) ?? 0) * 100).toFixed(1)).toBe('100.8');
    expect(((share(characters, SPEEDS.high) ?? 0) * 100).toFixed(1)).toBe('12.6');
  });

  it('is ten bits a character, and nothing for a line without a speed', () => {
    expect(capacity(4800)).toBe(480);
    expect(share(100, 0)).toBeUndefined();
  });
});
