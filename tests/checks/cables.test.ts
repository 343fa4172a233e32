/** Cables, conduits and places. Facts of the trade: common practice, no source. */
import { describe, expect, it } from 'vitest';
import type { Analysis } from '../../src/checks/analysis.js';
import { backbone, cable, model, waiver, type BoatParts } from '../support/vessel.js';
import { look, twins, unknown } from '../support/twins.js';

describe('cables', () => {
  const zones = ['bow exposed', 'helm sheltered', 'cabin interior', 'mast exposed'];
  const runs = ['bow -- helm 5.5 conduit 32', 'helm -- cabin 2'];
  const devices = {
    a: 'Tern8 @ bow',
    b: 'Tern13 @ helm',
    hub: 'Switch5 @ cabin',
    radar: 'Radar18 @ bow',
    m: 'Tern8 @ mast',
    beam: 'BeamHd @ bow',
  };
  const base = { zones, runs, devices, slack: 0.5 };
  twins(
    'cable/not-sealed',
    'a patch cable in an exposed zone',
    { ...base, links: ['a -- hub using Patch'] },
    [
      /^link a -- hub\[cable\]: Patch has no sealed connectors, and a.net -- hub ends at a in zone bow, which is exposed: it works, and corrodes.*such as SealedNet/,
    ],
    { ...base, links: ['a -- hub using SealedNet', 'b.net1 -- hub using Patch'] },
  );
  twins(
    'cable/not-sealed',
    'an unsealed drop in an exposed zone',
    { ...base, backbones: [backbone('nav', ['a', 'b'], { cable: 'MicroTrunk' })] },
    [/^backbone nav\/tee a: MicroTrunk/],
    { ...base, backbones: [backbone('nav', ['b'], { cable: 'MicroTrunk' })] },
  );
  it('a waiver keeps the warning visible, and one on a sealed cable is unused', () => {
    const rule = 'cable/not-sealed';
    const waived = look({
      ...base,
      links: ['a -- hub using Patch'],
      waivers: [waiver('link a -- hub', rule, '2026-06-01')],
    });
    expect(
      waived.findings.filter((finding) => finding.rule === rule).map((finding) => finding.waived),
    ).toEqual(['bench test']);
    expect(waived.counts).toMatchObject({ waived: 1 });
    const sealed = look({
      ...base,
      links: ['a -- hub using SealedNet'],
      waivers: [waiver('link a -- hub', rule)],
    });
    expect(
      sealed.findings
        .filter((finding) => finding.rule === 'allow/unused')
        .map((finding) => finding.at.origin),
    ).toEqual([`link a -- hub/allow ${rule}`]);
  });
  twins(
    'cable/too-short',
    'a stated length',
    { ...base, links: ['a -- hub using Reel length 8'] },
    [
      /^link a -- hub\[length\]: a.net -- hub is said to be 8 m long, and the way bow -- helm -- cabin takes 8.5 m, with 0.5 m of slack/,
    ],
    { ...base, links: ['a -- hub using Reel length 8.5'] },
  );
  twins(
    'cable/too-short',
    'no stock length',
    {
      ...base,
      cables: [cable('Stub', 'ethernet', { sealed: true, stock: [{ lengthMetres: 2, price: undefined }] })],
      links: ['a -- hub using Stub'],
    },
    [
      /no length of Stub reaches: a.net -- hub needs 8.5 m, the longest sold is 2 m, and three joined make 6 m/,
    ],
    { ...base, links: ['a -- hub using SealedNet'] },
  );
  twins(
    'cable/too-short',
    'a captive tail',
    { ...base, runs: ['bow -- helm 9'], links: ['radar -- b.net1'] },
    [],
    { ...base, links: ['radar -- b.net1'] },
  );
  twins(
    'cable/too-short',
    'a captive tail that does not reach',
    { ...base, runs: ['bow -- helm 9.1'], links: ['beam -- b.sonar'] },
    [/the tail of beam is 9 m long, and b.sonar -- beam.plug needs 10.1 m: it is 1.1 m short/],
    { ...base, runs: ['bow -- helm 9.1'], links: ['beam -- b.sonar join Extension3 at bow'] },
  );
  twins(
    'cable/no-route',
    'zones without a run',
    { ...base, links: ['m -- hub'] },
    [/hub -- m.net goes from zone mast to zone cabin, and no run leads there/],
    { ...base, links: ['m -- hub length 8'] },
  );
  it('go the shortest way, or along named runs, and are bought in the shortest lengths that reach', () => {
    const round = {
      ...base,
      runs: ['short : bow -- helm 5', 'long : bow -- helm 8', 'helm -- cabin 2', 'bow -- mast 1'],
    };
    const runOf = (links: string): Analysis['cables'][number] | undefined =>
      look({ ...round, links: [links] }).cables[0];
    expect(runOf('a -- hub using SealedNet')).toMatchObject({
      id: 'a.net--hub',
      neededMetres: 8,
      zones: ['bow', 'helm', 'cabin'],
      pieces: [12],
    });
    expect(runOf('a -- hub using SealedNet by long')).toMatchObject({ neededMetres: 11, pieces: [12] });
    expect(runOf('hub -- a using Patch by long')).toMatchObject({ neededMetres: 11, pieces: [5, 5, 1] });
    expect(runOf('a -- b.net1 using SealedNet by long, short, long')).toMatchObject({
      neededMetres: 22,
      pieces: [12, 12],
    });
    expect(runOf('a -- hub')).toMatchObject({ neededMetres: 8, pieces: [], cable: undefined });
  });
  const fat = cable('Fat', 'ethernet', { sealed: true, odMetres: 0.015, headMetres: 0.02 });
  const four = { a: 'Tern8 @ bow', c: 'Tern8 @ bow', d: 'Tern8 @ bow', hub: 'Switch5 @ helm' };
  twins(
    'cable/fill',
    'a full conduit',
    {
      ...base,
      cables: [fat],
      devices: four,
      links: ['a -- hub using Fat', 'c -- hub using Fat', 'd -- hub using Fat'],
    },
    [/^run bow -- helm: conduit bow -- helm \(32 mm\) is filled to 66 % by 3 cables: over 40 %/],
    { ...base, cables: [fat], devices: four, links: ['a -- hub using Fat'] },
  );
  it('a conduit is a warning over 60 %, information over 40 %, over 53 % for one cable, and unknown where an od is missing', () => {
    const filled = (bore: number, links: readonly string[], cables = [fat]): readonly string[] =>
      look({ ...base, runs: [`bow -- helm 5.5 conduit ${String(bore)}`], cables, devices: four, links })
        .findings.filter((finding) => finding.rule === 'cable/fill')
        .map((finding) => finding.severity);
    expect(filled(20, ['a -- hub using Fat'])).toEqual(['information']);
    expect(filled(21, ['a -- hub using Fat'])).toEqual([]);
    expect(filled(33, ['a -- hub using Fat', 'c -- hub using Fat'])).toEqual(['information']);
    expect(filled(27, ['a -- hub using Fat', 'c -- hub using Fat'])).toEqual(['warning']);
    expect(unknown({ ...base, links: ['a -- hub'] }, 'cable/fill')).toEqual([
      'a.net -- hub in conduit bow -- helm: no od is known',
    ]);
  });
  twins(
    'cable/head',
    'a connector that does not pass',
    { ...base, runs: ['bow -- helm 5.5 conduit 20'], links: ['beam -- b.sonar'] },
    [
      /the moulded connector of b.sonar -- beam.plug is 22 mm across, and conduit bow -- helm has a bore of 20 mm/,
    ],
    { ...base, runs: ['bow -- helm 5.5 conduit 22'], links: ['beam -- b.sonar'] },
  );
});

describe('place/ingress', () => {
  const place = (ingress: readonly string[]): BoatParts => ({
    zones: ['bow exposed'],
    models: [model('Box', 'display', { ingress })],
    devices: { d: 'Box @ bow' },
  });
  twins(
    'place/ingress',
    'a code that is less',
    place(['IPX4']),
    [/d is IPX4, and zone bow is exposed, which asks IPX6 and IPX7/],
    place(['IPX6', 'IPX7']),
  );
  it('IPX7 alone is information, IP69 covers no immersion, and what declares nothing is left in peace', () => {
    const severities = (ingress: readonly string[]): readonly string[] =>
      look(place(ingress))
        .findings.filter((finding) => finding.rule === 'place/ingress')
        .map((finding) => finding.severity);
    expect([
      severities(['IPX7']),
      severities(['IPX8']),
      severities(['IP69']),
      severities([]),
      severities(['IP66', 'IP67']),
    ]).toEqual([['information'], ['information'], ['warning'], [], []]);
  });
});
