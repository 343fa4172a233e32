/** What charges in a mode, and with how much. */
import type { Output, SupplyGraph, SupplyState } from '../supply/graph.js';

/** A device that charges. One with several outputs gives, all together, no more than the largest of them may. */
export interface ChargeSource {
  readonly device: string;
  readonly terminals: readonly string[];
  /** Share (0..1) of its limit that the mode says. */
  readonly level: number;
  /** Undefined where the limit of its output is not stated. */
  readonly amps: number | undefined;
  readonly missing: string | undefined;
}

/** The charging sources of a mode, by its `charge`; a converter is one where a bank hangs on its output. */
export function sourcesIn(graph: SupplyGraph, { mode }: SupplyState): readonly ChargeSource[] {
  const levels = new Map<string, number>();
  for (const duty of mode?.duties ?? [])
    if (duty.kind === 'charge' && !levels.has(duty.device))
      levels.set(duty.device, Math.min(1, Math.max(0, duty.level ?? 1)));
  const outputs = new Map<string, Output[]>();
  for (const output of graph.outputs) {
    if ((levels.get(output.device) ?? 0) <= 0) continue;
    outputs.set(output.device, [...(outputs.get(output.device) ?? []), output]);
  }
  return [...outputs].map(([device, all]): ChargeSource => {
    const level = levels.get(device) ?? 0;
    const mute = all.find(({ limitsAmps }) => limitsAmps === undefined);
    const most = Math.max(0, ...all.map(({ limitsAmps }) => limitsAmps ?? 0));
    return {
      device,
      terminals: all.map(({ terminal }) => terminal),
      level,
      amps: mute === undefined ? most * level : undefined,
      missing: mute === undefined ? undefined : `${mute.model.name} does not say what its output limits`,
    };
  });
}
