/** What is sent on backbones: what gateways forward and hold back, and the reports of other vessels by the number of targets. */
import { describe, expect, it } from 'vitest';
import type { Carried, Traffic } from '../../../src/checks/buses/traffic.js';
import { opened } from '../../support/opened.js';

const GEAR = `
model Vane : instrument { port n2k : nmea2000 len 1  gives wind at 10 Hz }
model Log  : instrument { port n2k : nmea2000 len 1  gives depth at 1 Hz, speed at 1 Hz }
model Hdg  : heading    { port n2k : nmea2000 len 1  gives heading at 10 Hz }
model Old  : heading    { port talk : nmea0183 talks 4800 differential drives 4 sends HDT at 1 Hz  gives heading at 1 Hz }
model Ais  : transponder { port antenna : coax ais  port n2k : nmea2000 len 1  gives ais }
model Gate : gateway { port a, b : nmea2000 len 1  passes a -> b with 130306, 127250  passes b -> a without 128259 }
model In   : gateway { port line : nmea0183 listens 4800 isolated  port n2k : nmea2000 len 1  passes line -> n2k }
zone cabin interior
`;

const busOf = (name: string, ...tees: readonly string[]): string =>
  `backbone ${name} {\n  terminator\n${tees.map((tee) => `  tee ${tee} drop 1 m\n`).join('')}  terminator\n}\n`;

async function trafficOf(text: string, head = ''): Promise<(bus: string) => Traffic> {
  const { analysis } = await opened(`vessel Boat { slack 0.5 m ${head} }\n${GEAR}${text}`);
  return (name) => {
    const found = analysis?.buses.find(({ bus }) => bus.name === name);
    if (found === undefined) throw new Error(`no backbone ${name}`);
    return found.traffic();
  };
}

const texts = ({ messages }: Traffic): readonly string[] =>
  messages
    .map(
      ({ pgn, device, by, hertz }: Carried) => `${pgn ?? 'targets'} of ${device} by ${by} at ${hertz ?? '?'}`,
    )
    .sort();

/** A frame of eight bytes with the most stuffing (Davis, Burns, Bril, Lukkien 2007). */
const FRAME_BITS = 160;

describe('a gateway between two backbones', () => {
  const TWO = `
device vane : Vane at cabin
device log  : Log  at cabin
device hdg  : Hdg  at cabin
device far  : Log  at cabin
device gate : Gate at cabin
${busOf('one', 'vane', 'log', 'gate.a')}${busOf('two', 'hdg', 'far', 'gate.b')}`;

  it('forwards what it passes each way, and holds back the rest', async () => {
    const traffic = await trafficOf(TWO);
    expect(texts(traffic('one'))).toEqual([
      '127250 of hdg by gate at 10',
      '128259 of log by log at 1',
      '128267 of far by gate at 1',
      '128267 of log by log at 1',
      '130306 of vane by vane at 10',
    ]);
    expect(texts(traffic('two'))).toEqual([
      '127250 of hdg by hdg at 10',
      '128259 of far by far at 1',
      '128267 of far by far at 1',
      '130306 of vane by gate at 10',
    ]);
  });

  it('loads the other backbone by what it forwards, and is named among those who talk most', async () => {
    const traffic = await trafficOf(TWO);
    // Single frames: 10 + 10 + 1 + 1 + 1 and 10 + 10 + 1 + 1 a second.
    expect(traffic('one').worst).toBeCloseTo(23 * FRAME_BITS, 6);
    expect(traffic('two').worst).toBeCloseTo(22 * FRAME_BITS, 6);
    expect(traffic('one').worstShare).toBeCloseTo((23 * FRAME_BITS) / 250_000, 9);
    expect(traffic('one').talkers.map(({ device }) => device)).toEqual(['gate', 'vane', 'log']);
    expect(traffic('one').talkers[0]?.share).toBeCloseTo((11 * FRAME_BITS) / 250_000, 9);
    // Typically a bit in thirty is stuffed, and not one in four.
    expect(traffic('one').typical).toBeLessThan(traffic('one').worst * 0.9);
    expect(traffic('one').typical).toBeGreaterThan(traffic('one').worst * 0.8);
  });

  it('beside a second one makes nothing go round for ever', async () => {
    const traffic = await trafficOf(
      TWO.replace('device gate ', 'device again : Gate at cabin\ndevice gate ')
        .replace('  tee gate.a drop', '  tee again.a drop 1 m\n  tee gate.a drop')
        .replace('  tee gate.b drop', '  tee again.b drop 1 m\n  tee gate.b drop'),
    );
    // Each message once on each backbone.
    const [one, two] = [texts(traffic('one')), texts(traffic('two'))];
    expect(one.map((text) => text.replace('again', 'gate'))).toHaveLength(5);
    expect(two).toHaveLength(4);
    expect(Number.isFinite(traffic('one').worst)).toBe(true);
  });

  it('from a line brings what the line says, as often as it says it', async () => {
    const traffic = await trafficOf(`
device old : Old at cabin
device inlet : In at cabin
device log : Log at cabin
link old.talk -- inlet.line
${busOf('one', 'inlet', 'log')}`);
    expect(texts(traffic('one'))).toContain('127250 of old by inlet at 1');
    expect(traffic('one').worst).toBeCloseTo(3 * FRAME_BITS, 6);
  });
});

describe('the reports of other vessels', () => {
  const text = `device ais : Ais at cabin\ndevice log : Log at cabin\n${busOf('one', 'ais', 'log')}`;
  const own = async (targets: number | undefined): Promise<Traffic> =>
    (await trafficOf(text, targets === undefined ? '' : `targets ${targets}`))('one');
  const reports = (traffic: Traffic): Carried | undefined =>
    traffic.messages.find(({ pgn }) => pgn === undefined);

  // At worst class A under way every 10 s and its name every 6 min (ITU-R M.1371): 129038 in 5 frames, 129794 in 11 or 12.
  it('grow with their number', async () => {
    for (const targets of [0, 10, 100, 500]) {
      const found = reports(await own(targets));
      const perSecond = targets / 10 + targets / 360;
      expect(found?.hertz ?? 0).toBeCloseTo(perSecond, 9);
      const frames = [11, 12].map((names) => (targets / 10) * 5 + (targets / 360) * names);
      expect(found?.worst ?? 0).toBeGreaterThanOrEqual((frames[0] ?? NaN) * FRAME_BITS - 1e-6);
      expect(found?.worst ?? 0).toBeLessThanOrEqual((frames[1] ?? NaN) * FRAME_BITS + 1e-6);
      expect(found?.typical ?? 0).toBeLessThanOrEqual(found?.worst ?? 0);
    }
  });

  it('are at most as many as two channels of 2250 slots a minute hold', async () => {
    const [many, more] = [reports(await own(1000)), reports(await own(5000))];
    expect(many?.hertz).toBeCloseTo(75, 9);
    expect(more?.hertz).toBeCloseTo(75, 9);
    expect(more?.worst).toBeCloseTo(many?.worst ?? NaN, 6);
  });

  it('are not made up where the vessel does not say how many there are', async () => {
    const traffic = await own(undefined);
    expect(reports(traffic)).toBeUndefined();
    expect(traffic.missing.map(({ text: missing }) => missing)).toEqual([
      'the vessel does not say how many AIS targets to reckon with ("targets")',
    ]);
  });
});
