/** Which ports a connection may use. Facts of the trade: common practice, no source. */
import { describe, expect, it } from 'vitest';
import { backbone, tap } from '../support/vessel.js';
import { look, said, twins } from '../support/twins.js';

describe('type/medium', () => {
  const devices = { a: 'Tern8', b: 'Tern13', hub: 'Switch5' };
  twins(
    'type/medium',
    'ports of two media',
    { devices, links: ['a.net -- b.sonar'] },
    [
      'link a.net -- b.sonar: a.net is ethernet and b.sonar is transducer: their plugs do not meet. Link ports of one medium.',
    ],
    { devices, links: ['a.net -- b.net1'] },
  );
  twins(
    'type/medium',
    'a device that has no fitting port',
    { devices, links: ['hub -- b.sonar'] },
    [/hub and b.sonar have no ports that go together: hub has ethernet, b.sonar has transducer/],
    { devices, links: ['hub -- b.net1'] },
  );
  twins(
    'type/medium',
    'a cable of another medium',
    { devices, links: ['a.net -- b.net1 using MicroTrunk'] },
    [/^link a.net -- b.net1\[cable\]: cable MicroTrunk is NMEA 2000, and a.net -- b.net1 is ethernet/],
    { devices, links: ['a.net -- b.net1 using Patch'] },
  );
  twins(
    'type/medium',
    'NMEA 2000 by a link',
    { devices, links: ['a.n2k -- b.n2k'] },
    [/each takes a tee on a backbone/],
    { devices, backbones: [backbone('nav', ['a.n2k', 'b.n2k'])] },
  );
  twins(
    'type/medium',
    'a feed to what has no dc port',
    { devices: { p: 'Panel8', c: 'Camera2' }, feeds: ['p -> c'] },
    [/c has no dc port/],
    { devices: { p: 'Panel8', c: 'Pump' }, feeds: ['p -> c'] },
  );
  twins(
    'type/medium',
    'a tee for what is not NMEA 2000',
    { devices: { c: 'Camera2' }, backbones: [backbone('nav', ['c'])] },
    [/c has no NMEA 2000 port/],
    { devices: { c: 'Gnss10' }, backbones: [backbone('nav', ['c'])] },
  );
  twins(
    'type/medium',
    'an alternative that lacks the port',
    { devices: { a: 'Tern8 or Gnss10', hub: 'Switch5' }, links: ['a -- hub.1'] },
    [/a may also be a Gnss10, which has no ethernet port/],
    { devices: { a: 'Tern8 or Tern7', hub: 'Switch5' }, links: ['a -- hub.1'] },
  );
});

describe('type/direction', () => {
  const devices = {
    log: 'OldLog',
    log2: 'OldLog',
    a: 'Tern8',
    b: 'Tern8',
    p: 'Panel8',
    x: 'BeamHd',
    y: 'BeamHd',
  };
  twins(
    'type/direction',
    'two talkers',
    { devices, links: ['log.out -- log2.out'] },
    [/both talk and neither listens/],
    { devices, links: ['log.out -- a.listen'] },
  );
  twins(
    'type/direction',
    'two listeners',
    { devices, links: ['a.listen -- b.listen'] },
    [/both listen and neither talks/],
    { devices, links: ['log -- b.listen', 'log -- a.listen'] },
  );
  twins('type/direction', 'two transducers', { devices, links: ['x -- y'] }, [/both transducers/], {
    devices,
    links: ['x -- a.sonar'],
  });
  twins(
    'type/direction',
    'two sounders',
    { devices, links: ['a.sonar -- b.sonar'] },
    [/both sounder ports/],
    { devices, links: ['a.net -- b.net'] },
  );
  twins(
    'type/direction',
    'a feed out of an input',
    { devices, feeds: ['a.power -> b.power'] },
    [/feed a.power -> b.power\[from\]: a.power is an input/],
    { devices, feeds: ['p.1 -> b.power'] },
  );
  twins('type/direction', 'a feed into an output', { devices, feeds: ['p.1 -> p.2'] }, [/p.2 is an output/], {
    devices,
    feeds: ['p.1 -> a'],
  });
});

describe('ports', () => {
  const three = { one: 'Tern8', two: 'Tern8', zed: 'Tern8', hub: 'Switch5', b1: 'BeamHd', b2: 'BeamHd' };
  const sonar = ['b1 -- one.sonar', 'b2 -- two.sonar'];
  twins(
    'type/no-free-port',
    'three one-port displays need a switch',
    { devices: three, links: [...sonar, 'one -- two', 'two -- zed'] },
    [
      'link two -- zed[a]: two has no free port for this: it has 1 ethernet port, taken by one. Free ethernet ports elsewhere: hub.1, hub.2, hub.3 and hub.4. A switch (Switch5), or a display with two ethernet ports (Tern13) in place of two, would add one.',
    ],
    { devices: three, links: [...sonar, 'one -- hub', 'two -- hub', 'zed -- hub'] },
  );
  it('and with one they are clean: two switch ports are free, every screen shows both transducers', () => {
    const analysis = look({
      devices: three,
      links: [...sonar, 'one -- hub', 'two -- hub', 'zed -- hub'],
      needs: ['one, two, zed show b1, b2', 'spare 2 ethernet on hub', 'spare 3 ethernet on hub'],
    });
    expect(
      analysis.findings
        .filter((finding) => finding.severity !== 'information')
        .map((finding) => finding.rule),
    ).toEqual(['sonar/same-band', 'need/not-met']);
    expect(analysis.needs.map((need) => need.met)).toEqual([true, true, false]);
    expect(analysis.needs[2]?.reason).toBe('only 2 are free (hub.4 and hub.5) on hub');
  });
  it('two one-port displays and a black box need a switch, and with a two-port display they do not', () => {
    const links = ['a.net -- box.net', 'b -- a', 'head -- box.head'];
    const devices = { a: 'Tern8', b: 'Tern8', box: 'LiveBox', head: 'LiveHead' };
    expect(said({ devices, links }, 'type/no-free-port')).toHaveLength(1);
    const chained = {
      devices: { ...devices, a: 'Tern13' },
      links: ['a.net1 -- box.net', 'b -- a.net2', 'head -- box.head'],
      needs: ['a, b show box'],
    };
    const analysis = look(chained);
    expect(analysis.findings.filter((finding) => finding.severity === 'error')).toEqual([]);
    expect(analysis.needs[0]?.met).toBe(true);
  });
  twins(
    'type/port-taken',
    'a port that has its connection',
    { devices: three, links: ['one.net -- hub.1', 'two.net -- hub.1'] },
    [
      /^link hub.1 -- two.net\[b\]: hub.1 already has one.net on it, so this connection cannot be made. Free on hub: hub.2, hub.3/,
    ],
    { devices: three, links: ['one.net -- hub.1', 'two.net -- hub.2'] },
  );
  twins(
    'serial/two-talkers',
    'a listener with two talkers',
    { devices: { l: 'OldLog', m: 'OldLog', a: 'Tern8' }, links: ['l.out -- a.listen', 'm.out -- a.listen'] },
    [/one talker a line/],
    { devices: { l: 'OldLog', a: 'Tern8', b: 'Tern8' }, links: ['l.out -- a.listen', 'l.out -- b.listen'] },
  );
  twins(
    'type/port-taken',
    'an input fed twice',
    { devices: { p: 'Panel8', a: 'Pump' }, feeds: ['p.1 -> a.power', 'p.2 -> a.power'] },
    [/a.power already has p.1 on it/],
    { devices: { p: 'Panel8', a: 'Pump', b: 'Pump' }, feeds: ['p.1 -> a, b'] },
  );
  twins(
    'type/which-port',
    'a display with two ports',
    { devices: { ...three, wide: 'Tern13' }, links: ['wide -- hub'] },
    [/^link hub -- wide\[a\]: wide has several ports that fit here: wide.net1 or wide.net2.*as in wide.net1/],
    { devices: { ...three, wide: 'Tern13' }, links: ['wide.net2 -- hub'] },
  );
  twins(
    'type/which-port',
    'an alternative with two ports',
    { devices: { a: 'Tern8 or Tern13', hub: 'Switch5' }, links: ['a -- hub'] },
    [/a as a Tern13 has several/],
    { devices: { a: 'Tern8 or Tern7', hub: 'Switch5' }, links: ['a -- hub'] },
  );
  it('of a cut-off switch are taken one for each side, and of a selector the common one for what leaves', () => {
    const analysis = look({
      devices: {
        house: 'Battery',
        start: 'Battery',
        cut: 'Cutoff',
        sel: 'Selector',
        p: 'Panel8',
        q: 'Panel8',
      },
      feeds: ['house -> cut', 'cut -> p', 'house -> sel.in1', 'start -> sel.in2', 'sel -> q'],
    });
    expect(analysis.findings.filter((finding) => finding.rule.startsWith('type/'))).toEqual([]);
    expect(
      analysis.feeds.map((one) => `${one.from?.port.name ?? '?'} ${one.to[0]?.port.name ?? '?'}`),
    ).toEqual(['post a', 'b in', 'post in1', 'post in2', 'out in']);
  });
  it('of a link to itself are taken, and odd vessels are judged without a fault', () => {
    const analysis = look({
      devices: { a: 'Tern8', hub: 'Switch5' },
      links: ['a.net -- a.net', 'hub -- hub'],
    });
    const rules = analysis.findings.map((finding) => finding.rule);
    expect(rules).toContain('type/port-taken');
    expect(rules).toContain('net/loop');
    expect(look({}).findings).toEqual([]);
    const odd = look({
      devices: { constructor: 'toString', a: '?', b: 'Tern8 @ nowhere' },
      links: ['? -- ?', 'constructor -- a.?', 'b -- b', 'b.net -- nobody.x'],
      feeds: ['? -> ?'],
      backbones: [backbone('nav', ['?', 'a', 'b', 'b'])],
      needs: ['nobody show constructor', 'a hear nothing', 'spare 3 dc on nobody'],
    });
    expect(odd.counts.unknown).toBeGreaterThan(0);
    expect(odd.coverage().device).toHaveLength(3);
  });
  it('that are left out go round those that are written, and a tap takes its way', () => {
    const analysis = look({
      devices: { ...three, p: 'Panel8' },
      links: ['one -- hub', 'two -- hub.1'],
      feeds: ['p -> hub'],
      backbones: [backbone('nav', [tap('nav', 'p.1')])],
    });
    const on = (name: string): string =>
      analysis.ports
        .filter((use) => use.device === name && use.on.length > 0)
        .map((use) => `${use.port.name}: ${use.on.map((one) => one.what).join(', ')}`)
        .join('; ');
    expect(on('hub')).toBe('1: two.net; 2: one.net; power: p.2');
    expect(on('p')).toBe('1: backbone nav; 2: hub.power');
  });
});
