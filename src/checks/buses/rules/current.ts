import { rule } from '../../rule.js';
import { ampsText, busText } from './text.js';

/** `bus/current`: a span or a drop carries more than its cable is rated for. */
export const current = rule(
  {
    code: 'bus/current',
    severities: ['error'],
    summary: 'A span or a drop carries more than its cable is rated for.',
  },
  ({ buses }, report) => {
    for (const { bus, fed } of buses)
      for (const { stretch, drops } of fed()) {
        const judged = new Set<string>();
        const check = (
          cable: { readonly name: string; readonly carriesAmps: number | undefined } | undefined,
          amps: number,
          origin: string,
          what: string,
        ): void => {
          if (cable === undefined || amps === 0) return;
          if (cable.carriesAmps === undefined) {
            if (!judged.has(cable.name))
              report.unknown({ origin }, `${cable.name} does not say what it carries`);
            judged.add(cable.name);
            return;
          }
          if (amps <= cable.carriesAmps * (1 + 1e-9)) return;
          report.find({
            message: `${what} of ${busText(bus)} carries ${ampsText(amps)}, and ${cable.name} is good for ${ampsText(cable.carriesAmps)}: its wires and contacts overheat. Use a heavier cable, feed the backbone nearer to its middle, or feed a part of it by a second tap behind "isolate".`,
            at: { origin },
          });
        };
        for (const { piece } of stretch.spans)
          check(piece.cable, drops.spans.get(piece.origin) ?? 0, piece.origin, 'A span');
        for (const tee of stretch.tees) {
          for (const piece of [tee.drop, ...tee.branches.map((branch) => branch.piece)])
            if (piece !== undefined)
              check(
                piece.cable,
                drops.pieces.get(piece) ?? 0,
                tee.origin,
                `The drop of ${tee.device ?? 'a device'}`,
              );
        }
      }
  },
);
