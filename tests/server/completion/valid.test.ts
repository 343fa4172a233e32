/** Whatever is offered can be taken: the line has no error then. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { Asking } from './offered.js';

/** Texts that are whole once the word at the cursor is there. */
const texts = [
  'link skua -- $0',
  'link $0 -- skua',
  'link log -- $0',
  'link vhf.$0 -- whip',
  'link plotter.$0 -- hub.4',
  'link plotter.net2 -- hub.$0',
  'link skua -- hub.3 using $0',
  'link skua -- hub.3 by $0',
  'feed panel.2 -> $0',
  'feed panel.$0 -> hub',
  'feed selector.$0 -> panel',
  'feed panel.2 -> hub fuse $0',
  'feed house -> selector.in2 fuse 80 A $0',
  'feed house -> selector.in2 fuse 80 A at $0',
  'feed panel.2 -> hub wire $0',
  'backbone b { terminator  tee $0  terminator }',
  'backbone b { terminator  tap from panel.$0  terminator }',
  'backbone b using $0 { terminator  terminator }',
  'device x : $0',
  'device x : Tern13 or $0',
  'device x : Tern13 at $0',
  'device x : Selector { normally $0 }',
  'zone z $0',
  'zone z exposed aft 3 $0',
  'zone z exposed side $0',
  'need plotter hear $0',
  'need house last 6 h in $0',
  'need spare 1 ethernet on $0',
  'view "Drift" on plotter { left: $0 }',
  'view "Drift" on plotter { left: keel.$0 }',
  'mode x { on $0 }',
  'mode x { set selector $0 }',
  'mode x { charge $0 }',
  'prefer heading from $0',
  'option o { change plotter : $0 }',
  'option o { remove $0 }',
  'model M : load { port power : dc in  kind $0 }',
  'model M : transducer { port plug : transducer  gives $0 }',
  'model M : gateway { port i : nmea0183 listens 4800  port o : nmea0183 talks 4800  passes i -> $0 }',
  'model M : instrument { port o : nmea0183 sends $0 }',
  'model M : battery { port post : dc  voltage 12 $0 }',
  'cable C : $0 { }',
];

/**
 * A need may ask for what is not so yet, a new device is joined to others and fed by what is written next, and a fuse at
 * either end may be the first of two. A backbone gets its tap next, and a terminator built in takes the place of one written.
 */
const YET = [
  'need/not-met',
  'sonar/no-host',
  'power/no-feed',
  'power/unprotected',
  'bus/power',
  'bus/terminators',
];

let asking: Asking;
beforeAll(async () => {
  asking = await Asking.start();
});
afterAll(() => asking.stop());

describe('what is offered can be taken', () => {
  it.each(texts)('%s', async (text) => {
    const { taken, errors } = await asking.errorsOfTaken(text, YET);
    expect(taken).toBeGreaterThan(0);
    expect(errors).toEqual([]);
  });
});
