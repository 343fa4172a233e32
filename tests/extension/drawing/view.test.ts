/** How a sheet lies in its window. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  fit,
  onSheet,
  pan,
  portAt,
  pushInto,
  readView,
  zoomAt,
} from '../../../src/extension/drawing/view.js';

const sheet = { width: 420, height: 297 };
const room = { width: 800, height: 500 };
const at = fc.double({ min: -2000, max: 2000, noNaN: true });

describe('a view', () => {
  it('fits the whole sheet, in the middle', () => {
    const { scale, x, y } = fit(sheet, room);
    expect(sheet.width * scale).toBeLessThanOrEqual(room.width);
    expect(sheet.height * scale).toBeLessThanOrEqual(room.height);
    expect(x * 2 + sheet.width * scale).toBeCloseTo(room.width);
    expect(y * 2 + sheet.height * scale).toBeCloseTo(room.height);
  });

  it('is a number even in a window without room', () => {
    expect(Object.values(fit(sheet, { width: 0, height: 0 })).every(Number.isFinite)).toBe(true);
    expect(Object.values(fit({ width: 0, height: 0 }, room)).every(Number.isFinite)).toBe(true);
  });

  it('zooms about the pointer: what is under it stays there', () => {
    fc.assert(
      fc.property(at, at, fc.double({ min: 0.01, max: 100, noNaN: true }), (x, y, factor) => {
        const before = fit(sheet, room);
        const [a, b] = [onSheet(before, x, y), onSheet(zoomAt(before, factor, x, y), x, y)];
        expect(b.x).toBeCloseTo(a.x, 6);
        expect(b.y).toBeCloseTo(a.y, 6);
      }),
    );
  });

  it('never loses the sheet, however it is pushed', () => {
    fc.assert(
      fc.property(fc.double(), fc.double(), (dx, dy) => {
        const view = pan(fit(sheet, room), dx, dy, sheet, room);
        expect(view.x).toBeLessThanOrEqual(room.width - 40);
        expect(view.x + sheet.width * view.scale).toBeGreaterThanOrEqual(40 - 1e-9);
        expect(view.y).toBeLessThanOrEqual(room.height - 40);
        expect(view.y + sheet.height * view.scale).toBeGreaterThanOrEqual(40 - 1e-9);
      }),
    );
  });

  it('is read as it was kept, and nothing else is', () => {
    expect(readView({ scale: 2, x: 1, y: -3 })).toEqual({ scale: 2, x: 1, y: -3 });
    for (const bad of [
      null,
      1,
      {},
      { scale: 0, x: 0, y: 0 },
      { scale: 1e9, x: 0, y: 0 },
      { scale: 1, x: NaN, y: 0 },
    ])
      expect(readView(bad)).toBeUndefined();
  });
});

describe('the port at a point', () => {
  const ports = [
    { x: 10, y: 10, name: 'one' },
    { x: 10, y: 15, name: 'two' },
  ];
  it('is that on its line, the nearest first', () => {
    expect(portAt(ports, 10.5, 10.4)?.name).toBe('one');
    expect(portAt(ports, 15, 15)?.name).toBe('two');
  });
  it('is none between lines, far off, or without a place', () => {
    expect(portAt(ports, 10, 12.5)).toBeUndefined();
    expect(portAt(ports, 30, 10)).toBeUndefined();
    expect(portAt(ports, NaN, NaN)).toBeUndefined();
  });
});

describe('a push into sight', () => {
  it('is no longer than it has to be', () => {
    expect(pushInto(20, 40, 10, 100)).toBe(0);
    expect(pushInto(0, 20, 10, 100)).toBe(10);
    expect(pushInto(95, 120, 10, 100)).toBe(-20);
    expect(pushInto(50, 500, 10, 100)).toBe(-40);
  });
});
