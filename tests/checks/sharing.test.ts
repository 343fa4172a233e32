/** Which screens can view which sources. The boats are facts of the trade: common practice, no source. */
import { describe, expect, it } from 'vitest';
import { analyse } from '../../src/checks/analyse.js';
import type { Analysis } from '../../src/checks/analysis.js';
import { CABLES, MODELS } from '../support/fleet.js';
import { backbone, boat, type BoatParts } from '../support/vessel.js';

const TODAY = '2026-06-01';

function look(parts: BoatParts): Analysis {
  return analyse(boat({ models: MODELS, cables: CABLES, ...parts }), { today: TODAY });
}

function verdict(
  analysis: Analysis,
  screen: string,
  source: string,
  signal: string,
  ...off: string[]
): string {
  const answer = analysis.answer(screen, source, signal, new Set(off));
  return `${answer.verdict}${answer.by === null ? '' : ` by ${answer.by}: ${answer.path.join(' ')}`}`;
}

const CHAIN = {
  devices: { bow: 'Tern8', mid: 'Tern13', aft: 'Tern8', beam: 'BeamHd' },
  links: ['bow.net -- mid.net1', 'mid.net2 -- aft.net', 'beam -- aft.sonar'],
};

describe('a transducer', () => {
  it('is seen by the screen it is plugged into, and by every display of the network', () => {
    const analysis = look(CHAIN);
    expect(verdict(analysis, 'aft', 'beam', 'sonar.side')).toBe('reached by own: beam aft');
    expect(verdict(analysis, 'bow', 'beam', 'sonar.side')).toBe('reached by network: beam aft mid bow');
    expect(analysis.answer('bow', 'beam', 'sonar.side').needsPowered).toEqual(['aft', 'mid']);
    expect(analysis.answer('bow', 'beam', 'sonar.side').hops.map((hop) => hop.device)).toEqual([
      'beam',
      'aft',
      'aft',
      'aft',
      'mid',
      'bow',
      'bow',
      'bow',
    ]);
  });
  it('is lost behind a display that is off, and the answer names it', () => {
    const answer = look(CHAIN).answer('bow', 'beam', 'sonar.side', new Set(['mid']));
    expect(answer).toMatchObject({
      visible: false,
      verdict: 'not-powered',
      reason: 'mid is off, and the only way is aft -> mid -> bow',
    });
  });
  it('of high definition is refused by a standard-grade display, whose screen still shows one that a capable display hosts', () => {
    const devices = { good: 'Tern8', plain: 'Tern7', hub: 'Switch5', beam: 'BeamHd' };
    const nets = ['good.net -- hub', 'plain.net -- hub'];
    const wrong = look({ devices, links: [...nets, 'beam -- plain.sonar'] });
    expect(wrong.answer('good', 'beam', 'sonar.side')).toMatchObject({
      verdict: 'grade-refused',
      nearest: 'link it to good.sonar, which accepts hd',
    });
    const right = look({ devices, links: [...nets, 'beam -- good.sonar'] });
    expect(verdict(right, 'plain', 'beam', 'sonar.side')).toBe('reached by network: beam good hub plain');
  });
  it('that is linked to nothing is not seen', () => {
    const analysis = look({ devices: { bow: 'Tern8', beam: 'BeamHd' } });
    expect(analysis.answer('bow', 'beam', 'sonar.side')).toMatchObject({
      verdict: 'not-linked',
      nearest: 'link it to bow.sonar, which accepts hd',
    });
  });
  it('may be seen where its link has an end that is not declared', () => {
    const analysis = look({ devices: { bow: 'Tern8', beam: 'BeamHd' }, links: ['beam -- ?.sonar'] });
    expect(analysis.answer('bow', 'beam', 'sonar.side')).toMatchObject({ visible: null, verdict: 'unknown' });
  });
});

describe('families', () => {
  it('keep displays apart on one segment, and each sees its own', () => {
    const analysis = look({
      devices: { tern: 'Tern8', skua: 'Skua9', hub: 'Switch5', beam: 'BeamHd', camera: 'Camera2' },
      links: ['tern.net -- hub', 'skua.net -- hub', 'beam -- tern.sonar', 'camera -- hub'],
    });
    expect(verdict(analysis, 'skua', 'beam', 'sonar.side')).toBe('family-differs');
    expect(verdict(analysis, 'skua', 'tern', 'chart')).toBe('family-differs');
    expect(verdict(analysis, 'skua', 'camera', 'video')).toBe('reached by network: camera hub skua');
  });
  it('share charts and waypoints both ways, and not with a display off the segment', () => {
    const analysis = look({ devices: { a: 'Tern8', b: 'Tern8', c: 'Tern8' }, links: ['a.net -- b.net'] });
    expect(verdict(analysis, 'a', 'b', 'chart')).toBe('reached by network: b a');
    expect(verdict(analysis, 'b', 'a', 'waypoints')).toBe('reached by network: a b');
    expect(verdict(analysis, 'c', 'a', 'chart')).toBe('no-path');
    expect(verdict(analysis, 'c', 'c', 'chart')).toBe('reached by own: c');
  });
});

describe('a black box', () => {
  const devices = { box: 'LiveBox', head: 'LiveHead', a: 'Tern8', b: 'Tern8', hub: 'Switch5' };
  it('hosts what is plugged into it, and stands for it', () => {
    const analysis = look({
      devices,
      links: ['head -- box.head', 'box.net -- hub', 'a.net -- hub', 'b.net -- hub'],
      needs: ['a, b show box'],
    });
    expect(verdict(analysis, 'a', 'head', 'sonar.live')).toBe('reached by network: head box hub a');
    expect(verdict(analysis, 'a', 'box', 'sonar.live')).toBe('reached by network: head box hub a');
    expect(analysis.needs[0]).toMatchObject({ met: true });
  });
  it('with nothing plugged in shows nothing', () => {
    const analysis = look({ devices, links: ['box.net -- hub', 'a.net -- hub'], needs: ['a show box'] });
    expect(analysis.needs[0]).toMatchObject({
      met: false,
      reason: 'a does not show box: nothing is plugged into box, and it gives nothing of itself',
    });
  });
});

describe('a bus', () => {
  it('brings what travels on it, and nothing else', () => {
    const analysis = look({
      devices: { gnss: 'Gnss10', a: 'Tern8', b: 'Tern8', radar: 'Radar18' },
      backbones: [backbone('nav', ['gnss', 'a'])],
    });
    expect(verdict(analysis, 'a', 'gnss', 'position')).toBe('reached by bus: gnss a');
    expect(verdict(analysis, 'b', 'gnss', 'position')).toBe('no-path');
    expect(verdict(analysis, 'a', 'radar', 'radar')).toBe('not-linked');
  });
  it('is joined to lines by a gateway that passes the sentence', () => {
    const analysis = look({
      devices: { log: 'OldLog', mux: 'Mux', a: 'Tern8' },
      links: ['log.out -- mux.in'],
      backbones: [backbone('nav', ['mux', 'a'])],
    });
    expect(verdict(analysis, 'a', 'log', 'depth')).toBe('reached by bus: log mux a');
    expect(verdict(analysis, 'a', 'log', 'depth', 'mux')).toBe('not-powered');
    expect(verdict(analysis, 'a', 'log', 'speed')).toBe('no-path');
  });
});

describe('needs and panes', () => {
  it('fail with the reason that the analysis gives', () => {
    const analysis = look({
      ...CHAIN,
      needs: ['bow show beam', 'bow show beam without mid', 'bow show radar'],
    });
    expect(analysis.needs.map((need) => need.met)).toEqual([true, false, false]);
    expect(
      analysis.findings
        .filter((finding) => finding.rule === 'need/not-met')
        .map((finding) => finding.message),
    ).toEqual([
      'need bow show beam without mid is not met: bow does not show beam: mid is off, and the only way is aft -> mid -> bow. To make it right: it would be seen with mid on.',
      'need bow show radar is not met: bow does not show radar: nothing aboard gives radar.',
    ]);
  });
  it('take a source each', () => {
    const analysis = look({
      ...CHAIN,
      views: ['Drift on bow left: chart right: beam.side', 'Hunt on mid left: beam.down right: radar'],
    });
    expect(
      analysis.findings
        .filter((finding) => finding.rule === 'view/not-visible')
        .map((finding) => finding.at.origin),
    ).toEqual(['pane Hunt/right']);
  });
});
