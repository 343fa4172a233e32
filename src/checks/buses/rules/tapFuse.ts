import { number } from '../../../vessel/words.js';
import { rule } from '../../rule.js';
import type { Stretch } from '../bus.js';
import { ampsText, busText } from './text.js';

/** Ratings of blade fuses; see the bundled library. */
const RATINGS = [1, 2, 3, 4, 5, 7.5];

/** `bus/tap-fuse`: the fuse of a tap is over what the weakest cable behind it carries. */
export const tapFuse = rule(
  {
    code: 'bus/tap-fuse',
    severities: ['error'],
    summary: "A tap's fuse is over what the weakest cable behind it carries.",
  },
  ({ buses, sizing }, report) => {
    for (const { bus } of buses)
      for (const stretch of bus.stretches)
        for (const tap of stretch.taps) {
          const at = { origin: tap.origin };
          const weakest = weakestOf(stretch);
          if (weakest === undefined || tap.edge === undefined) continue;
          if ('missing' in weakest) {
            report.unknown(at, weakest.missing);
            continue;
          }
          const devices = sizing.of(tap.edge).protection;
          const rated = devices.flatMap(({ device }) =>
            device.amps === undefined ? [] : [{ device, amps: device.amps }],
          );
          if (rated.length === 0) {
            report.unknown(at, `the tap from ${tap.fromText} does not say its fuse`);
            continue;
          }
          const smallest = rated.reduce((least, one) => (one.amps < least.amps ? one : least));
          if (smallest.amps <= weakest.amps * (1 + 1e-9)) continue;
          const fits = RATINGS.filter((one) => one <= weakest.amps).at(-1);
          const { device } = smallest;
          const written = tap.edge.conductor.protections.includes(device.protection);
          report.find({
            message: `The ${device.protection.device} of ${ampsText(smallest.amps)} of the tap from ${tap.fromText} is over what ${weakest.name} on ${busText(bus)} carries, ${ampsText(weakest.amps)}: with a fault on the bus the cable burns before it opens. Use ${fits === undefined ? 'a smaller one' : `${number(fits, 1)} A`}, or a heavier cable.`,
            at: written ? { ...at, part: `protections ${device.index}` } : at,
          });
        }
  },
);

/** The cable of a stretch that carries least, drops included. */
function weakestOf(
  stretch: Stretch,
): { readonly name: string; readonly amps: number } | { readonly missing: string } | undefined {
  const pieces = [
    ...stretch.spans.map((span) => span.piece),
    ...stretch.tees.flatMap((tee) => [tee.drop ?? [], ...tee.branches.map((branch) => branch.piece)].flat()),
  ];
  let weakest: { readonly name: string; readonly amps: number } | undefined;
  let missing: string | undefined;
  for (const { cable, cableMissing } of pieces) {
    if (cable?.carriesAmps === undefined)
      missing ??= cableMissing ?? `${cable?.name ?? 'a cable'} does not say what it carries`;
    else if (weakest === undefined || cable.carriesAmps < weakest.amps)
      weakest = { name: cable.name, amps: cable.carriesAmps };
  }
  return weakest ?? (missing === undefined ? undefined : { missing });
}
