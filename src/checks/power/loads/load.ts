/** What one terminal draws in a mode. Plain data; amounts in amperes or watts as they were declared. */
import type { Draw } from '../../../vessel/model.js';
import { drawAmps } from './consumers.js';

export interface TerminalLoad {
  /** A dc port of a device (`plotter.power`), or a stretch of a backbone (`backbone nav`). */
  readonly terminal: string;
  /** A converter's input draws for what hangs on its output; a bus, for what is powered through it. */
  readonly kind: 'device' | 'converter' | 'bus';
  /** The device, or the backbone. */
  readonly device: string;
  /** `standby` where the mode does not switch it on and it says what it then draws. */
  readonly state: 'on' | 'standby' | 'off';
  /** What it draws usually and at its most when it is on, and on standby; undefined where not known. */
  readonly typical: Draw | undefined;
  readonly maximum: Draw | undefined;
  readonly standby: Draw | undefined;
  /** Share of the time (0..1) for which the mode has it running, and of the time at its maximum. */
  readonly duty: number;
  readonly maxDuty: number;
  /** The most that it draws at any time in this mode; undefined where not known. */
  readonly running: Draw | undefined;
  /** Draws with their shares of the time: their sum is the average. Undefined where not known. */
  readonly average: readonly Share[] | undefined;
  /** The fact that is missing where its draw is not known, or known only as the least that it can be. */
  readonly missing: string | undefined;
}

/** A draw for a share of the time, 0..1. */
export interface Share {
  readonly draw: Draw;
  readonly share: number;
}

export const NO_DRAW: Draw = { amount: 0, unit: 'A' };

/** Amperes that a load draws on average in its mode, at a voltage; undefined where that is not known. */
export function averageAmps({ average }: TerminalLoad, volts: number | undefined): number | undefined {
  let total: number | undefined = average === undefined ? undefined : 0;
  for (const { draw, share } of average ?? []) {
    const amps = drawAmps(draw, volts);
    total = amps === undefined || total === undefined ? undefined : total + amps * share;
  }
  return total;
}

/** What a device draws as it runs, as its mode and its port say. */
export function runs(
  state: TerminalLoad['state'],
  { typical, maximum, standby }: Pick<TerminalLoad, 'typical' | 'maximum' | 'standby'>,
  { duty, maxDuty }: Pick<TerminalLoad, 'duty' | 'maxDuty'>,
): Pick<TerminalLoad, 'running' | 'average'> {
  if (state === 'off') return { running: NO_DRAW, average: [] };
  if (state === 'standby') return { running: standby, average: sharesOf([[standby, 1]]) };
  return {
    running: maxDuty > 0 ? maximum : typical,
    average: sharesOf([
      [typical, duty - maxDuty],
      [maximum, maxDuty],
    ]),
  };
}

function sharesOf(
  parts: readonly (readonly [draw: Draw | undefined, share: number])[],
): readonly Share[] | undefined {
  const all: Share[] = [];
  for (const [draw, share] of parts) {
    if (share <= 0) continue;
    if (draw === undefined) return undefined;
    all.push({ draw, share });
  }
  return all;
}
