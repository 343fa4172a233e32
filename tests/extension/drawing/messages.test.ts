/** What passes between the extension and its page: whatever is not exactly a message is dropped. */
import { describe, expect, it } from 'vitest';
import fc from 'fast-check';
import { readFromPage, readPageState, readToPage } from '../../../src/extension/drawing/messages.js';

const picture = {
  width: 420,
  height: 297,
  svg: '<svg/>',
  ports: [{ x: 1, y: 2, origin: 'link a -- b', end: 'a' }],
  references: [{ id: 'network-1-w1-a', to: 'network-2-w1-b' }],
};
const shown = { id: 'network-1', key: '1a', origins: ['device live'], picture };
const pictured = (change: object): object => ({ ...shown, picture: { ...picture, ...change } });
const reach = { origin: 'device live', name: 'live', lit: [], seen: [], blind: ['mate'], unknown: [] };
const drawing = {
  type: 'drawing',
  vessel: 'Gull',
  sheets: [{ id: 'network-1', title: 'Gull: Network' }],
  shown,
  optional: true,
  chosen: ['bigScreen'],
  note: '',
};

describe('a message from the page', () => {
  it.each([
    { type: 'ready', sheet: null },
    { type: 'ready', sheet: 'power-2' },
    { type: 'sheet', sheet: 'power-2' },
    { type: 'options' },
    { type: 'anew' },
    { type: 'export', sheet: null },
    { type: 'export', sheet: 'network-1' },
    { type: 'reach', origin: 'device live' },
    { type: 'select', origin: 'device plotter', end: null },
    { type: 'select', origin: 'link a -- b', end: 'b' },
  ])('is read: %j', (message) => {
    expect(readFromPage(message)).toEqual(message);
  });

  it.each([
    null,
    'ready',
    ['ready'],
    { type: 'run' },
    { type: 'ready' },
    { type: 'sheet', sheet: null },
    { type: 'select' },
    { type: 'export' },
    { type: 'export', sheet: 1 },
    { type: 'reach' },
    { type: 'select', origin: 3, end: null },
    { type: 'select', origin: 'device plotter', end: 'c' },
    { type: 'select', origin: 'device plotter' },
    { type: 'select', origin: 'x'.repeat(10_001), end: null },
  ])('is dropped: %j', (message) => {
    expect(readFromPage(message)).toBeUndefined();
  });

  it('brings nothing along that nobody asked for', () => {
    expect(readFromPage({ type: 'anew', command: 'workbench.action.quit' })).toEqual({ type: 'anew' });
  });
});

describe('a message to the page', () => {
  it.each([
    drawing,
    { type: 'drift', drifts: [] },
    { type: 'drift', drifts: [{ diagram: 'power', sheets: 4, anew: 3 }] },
    { ...drawing, sheets: [], shown: null },
    { ...drawing, shown: { ...shown, picture: undefined } },
    { type: 'sheet', shown },
    { type: 'busy', busy: true },
    { type: 'none', reason: 'No vessel.' },
    { type: 'cursor', origin: null, sheets: [] },
    { type: 'reach', origin: 'device live', reach },
    { type: 'reach', origin: 'device hub', reach: null },
    { type: 'cursor', origin: 'device plotter', sheets: ['network-1'] },
  ])('is read: %j', (message) => {
    expect(readToPage(message)).toEqual(message);
  });

  it.each([
    undefined,
    { ...drawing, sheets: undefined },
    { ...drawing, sheets: [{ id: 'network-1' }] },
    { ...drawing, shown: undefined },
    { ...drawing, shown: { ...shown, key: 1 } },
    { ...drawing, shown: { ...shown, origins: 'device live' } },
    { ...drawing, shown: pictured({ width: NaN }) },
    { ...drawing, shown: pictured({ height: 0 }) },
    { ...drawing, shown: pictured({ svg: 4 }) },
    { ...drawing, shown: pictured({ ports: [{ x: 1, y: 2, origin: 'a', end: 'c' }] }) },
    { ...drawing, shown: pictured({ references: [{ id: 'network-1-w1-a' }] }) },
    { type: 'sheet', shown: null },
    { type: 'busy' },
    { type: 'reach', origin: 'device live', reach: { ...reach, blind: [1] } },
    { type: 'reach', origin: 'device live' },
    { ...drawing, chosen: [1] },
    { ...drawing, optional: 'yes' },
    { type: 'cursor' },
    { type: 'cursor', origin: 'device live' },
    { type: 'drift' },
    { type: 'drift', drifts: [{ diagram: 'power', sheets: '4', anew: 3 }] },
    { type: 'none' },
  ])('is dropped: %j', (message) => {
    expect(readToPage(message)).toBeUndefined();
  });
});

it('no value at all makes a reader fail', () => {
  fc.assert(
    fc.property(fc.anything(), (value) => {
      readFromPage(value);
      readToPage(value);
      readPageState(value);
    }),
  );
});

it('the state of a page is its file', () => {
  expect(readPageState({ uri: 'file:///a.loft', sheet: 'x' })).toEqual({
    uri: 'file:///a.loft',
    options: [],
  });
  expect(readPageState({ uri: 'file:///a.loft', options: ['a', 'b'] })?.options).toEqual(['a', 'b']);
  expect(readPageState({ uri: 'file:///a.loft', options: [1] })?.options).toEqual([]);
  expect(readPageState({ uri: 1 })).toBeUndefined();
});
