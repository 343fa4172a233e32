/** Needs, panes and what nothing uses. Facts of the trade: common practice, no source. */
import { describe, expect, it } from 'vitest';
import { backbone, cable, model } from '../support/vessel.js';
import { look, twins, unknown } from '../support/twins.js';

describe('needs and views', () => {
  const devices = { a: 'Tern8', b: 'Tern8', p: 'PilotBrain', g: 'Gnss10' };
  twins(
    'need/not-met',
    'a pilot that hears nothing',
    { devices, needs: ['p hear position'] },
    [/need p hear position is not met: p does not hear position: g is on no bus/],
    { devices, needs: ['p hear position'], backbones: [backbone('nav', ['p', 'g'])] },
  );
  twins(
    'view/not-visible',
    'a pane of another network',
    { devices, views: ['Plan on a left: b.chart'] },
    [
      /^pane Plan\/left: a cannot show b.chart in pane left of view "Plan": b is on no ethernet network. To make it right: link it to a.net/,
    ],
    { devices, views: ['Plan on a left: b.chart'], links: ['a -- b'] },
  );
  it('are unknown where a name is', () => {
    expect(look({ devices, needs: ['a show ?'] }).needs[0]).toMatchObject({ met: null });
    expect(look({ devices: { ...devices, x: '?' }, needs: ['a show x'] }).needs[0]).toMatchObject({
      met: null,
      reason: 'the model of x is not declared',
    });
  });
});

describe('what lies unused', () => {
  const own = (name: string) => model(name, 'load', { origin: `model ${name}` });
  twins(
    'unused/device',
    'a device',
    { devices: { a: 'Tern8', pump: 'Pump' }, needs: ['a show chart'] },
    [/^device pump: pump is declared, and nothing links, feeds or needs it/],
    { devices: { a: 'Tern8', pump: 'Pump existing' }, needs: ['a show chart'] },
  );
  twins(
    'unused/model',
    "a model of the boat's own files",
    { models: [own('Horn')] },
    [/^model Horn: model Horn is declared, and nothing aboard uses it/],
    { models: [own('Horn')], devices: { h: 'Horn' } },
  );
  twins(
    'unused/cable',
    "a cable of the boat's own files",
    { cables: [cable('Own', 'ethernet', { origin: 'cable Own' })] },
    [/^cable Own/],
    {
      cables: [cable('Own', 'ethernet', { origin: 'cable Own' })],
      devices: { a: 'Tern8', b: 'Tern8' },
      links: ['a -- b using Own'],
    },
  );
  it('is not known while a name is not declared', () => {
    expect(
      unknown({ devices: { a: 'Tern8', pump: 'Pump' }, links: ['a -- ?.1'] }, 'unused/device'),
    ).toHaveLength(1);
  });
});
