/** How a sheet lies in its window: pure, so that it can be tested without one. Lengths in CSS pixels. */

export interface View {
  /** Pixels to the millimetre. */
  readonly scale: number;
  /** Where the sheet's upper left corner is. */
  readonly x: number;
  readonly y: number;
}

export interface Size {
  readonly width: number;
  readonly height: number;
}

/** From a sheet of A3 as wide as a thumb to a letter as high as a hand. */
const LEAST = 0.2;
const MOST = 40;
const MARGIN = 8;
/** So much of a sheet stays in sight, wherever it is pushed. */
const KEPT = 40;

const between = (low: number, value: number, high: number): number => Math.min(high, Math.max(low, value));
const finite = (value: number, other: number): number => (Number.isFinite(value) ? value : other);

/** The whole sheet in the middle of the window. */
export function fit(sheet: Size, room: Size): View {
  const wanted = Math.min((room.width - 2 * MARGIN) / sheet.width, (room.height - 2 * MARGIN) / sheet.height);
  const scale = between(LEAST, finite(wanted, 1), MOST);
  return {
    scale,
    x: (room.width - sheet.width * scale) / 2,
    y: (room.height - sheet.height * scale) / 2,
  };
}

/** Enlarged by a factor about a point of the window, which stays over the same point of the sheet. */
export function zoomAt(view: View, factor: number, x: number, y: number): View {
  const scale = between(LEAST, view.scale * finite(factor, 1), MOST);
  const by = scale / view.scale;
  return { scale, x: x - (x - view.x) * by, y: y - (y - view.y) * by };
}

/** Pushed, but not out of the window. */
export function pan(view: View, dx: number, dy: number, sheet: Size, room: Size): View {
  const { scale } = view;
  return {
    scale,
    x: between(KEPT - sheet.width * scale, view.x + finite(dx, 0), Math.max(KEPT, room.width - KEPT)),
    y: between(KEPT - sheet.height * scale, view.y + finite(dy, 0), Math.max(KEPT, room.height - KEPT)),
  };
}

/** A point of the window on the sheet, in mm. */
export function onSheet(view: View, x: number, y: number): { readonly x: number; readonly y: number } {
  return { x: (x - view.x) / view.scale, y: (y - view.y) / view.scale };
}

/** The port at a point in a box, in mm: at its dot, or at its name, which stands on the same line. */
export function portAt<P extends { readonly x: number; readonly y: number }>(
  ports: readonly P[],
  x: number,
  y: number,
): P | undefined {
  let best: P | undefined;
  let least = Infinity;
  for (const port of ports) {
    const [across, down] = [Math.abs(port.x - x), Math.abs(port.y - y)];
    if (across > 8 || down > 1.2) continue;
    const far = across + down;
    if (far < least) [best, least] = [port, far];
  }
  return best;
}

/** How far a stretch has to be pushed to lie between two bounds; one that is longer than that begins at the first. */
export function pushInto(from: number, to: number, low: number, high: number): number {
  if (from < low || to - from > high - low) return low - from;
  return to > high ? high - to : 0;
}

/** A view as it was kept; undefined where it is none. */
export function readView(value: unknown): View | undefined {
  if (typeof value !== 'object' || value === null) return undefined;
  const { scale, x, y } = value as Readonly<Record<string, unknown>>;
  if (![scale, x, y].every((one) => typeof one === 'number' && Number.isFinite(one))) return undefined;
  if (typeof scale !== 'number' || typeof x !== 'number' || typeof y !== 'number') return undefined;
  return scale >= LEAST && scale <= MOST ? { scale, x, y } : undefined;
}
