import { count, listOf, millimetres, number } from '../../../vessel/words.js';
import { runText } from '../../../vessel/routes.js';
import { rule } from '../../rule.js';
import { collectConduits } from '../conduits.js';

/** Fill of the cross-section, NFPA 70 (NEC) chapter 9 table 1: one cable 53 %, three and more 40 %. Values from memory. */
const ONE_CABLE = 0.53;
const SEVERAL = 0.4;
/** Nothing more is pulled through: common practice, no source. */
const FULL = 0.6;

/** `cable/fill`: a conduit is filled over 40 % (one cable 53 %), a warning over 60 %. */
export const fill = rule(
  {
    code: 'cable/fill',
    severities: ['information', 'warning'],
    summary: 'A conduit is filled over 40 %, or over 60 %.',
  },
  (context, report) => {
    for (const { run, through } of collectConduits(context)) {
      if (through.length === 0) continue;
      const at = { origin: run.origin };
      const bore = run.conduitMetres;
      if (bore === undefined) {
        report.unknown(at, `conduit ${runText(run)} has no bore`);
        continue;
      }
      const nameless = through.filter((passage) => passage.odMetres === undefined);
      const ratio = through.reduce((total, passage) => total + (passage.odMetres ?? 0) ** 2, 0) / bore ** 2;
      const limit = through.length === 1 ? ONE_CABLE : SEVERAL;
      if (ratio > limit) {
        const least = nameless.length > 0 ? 'at least ' : '';
        report.find({
          severity: ratio > FULL ? 'warning' : 'information',
          message: `conduit ${runText(run)} (${millimetres(bore)}) is filled to ${least}${number(ratio * 100, 0)} % by ${count(through.length, 'cable')}: over ${number(limit * 100, 0)} % they are hard to pull and to replace. Use a wider conduit, or lead some another way.`,
          at,
          related: through
            .slice(0, 8)
            .map((passage) => ({ at: passage.spot, message: `${passage.what} goes through it` })),
        });
      } else if (nameless.length > 0) {
        report.unknown(
          at,
          `${listOf(
            nameless.map((passage) => passage.what),
            'and',
            3,
          )} in conduit ${runText(run)}: no od is known`,
        );
      }
    }
  },
);
