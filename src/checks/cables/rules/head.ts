import { millimetres } from '../../../vessel/words.js';
import { runText } from '../../../vessel/routes.js';
import { rule } from '../../rule.js';
import { collectConduits } from '../conduits.js';

/** `cable/head`: a moulded connector is larger than the bore of a conduit on its way. */
export const head = rule(
  {
    code: 'cable/head',
    severities: ['warning'],
    summary: "A moulded connector is larger than the conduit's bore.",
  },
  (context, report) => {
    for (const { run, through } of collectConduits(context)) {
      for (const { what, spot, headMetres, moulded } of through) {
        if (!moulded) continue;
        if (headMetres === undefined) {
          report.unknown(
            spot,
            `the moulded connector of ${what} has no head size, and passes conduit ${runText(run)}`,
          );
        } else if (run.conduitMetres !== undefined && headMetres > run.conduitMetres) {
          report.find({
            message: `the moulded connector of ${what} is ${millimetres(headMetres)} across, and conduit ${runText(run)} has a bore of ${millimetres(run.conduitMetres)}: it does not go through. Use a wider conduit, another way, or a cable that is fitted on board.`,
            at: spot,
            related: [{ at: { origin: run.origin }, message: `a bore of ${millimetres(run.conduitMetres)}` }],
          });
        }
      }
    }
  },
);
