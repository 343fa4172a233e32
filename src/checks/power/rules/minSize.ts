import { isTooThin } from '../../../vessel/conductors/minimum.js';
import { choicesOf, sizesOf, sizeText } from '../../../vessel/conductors/sizes.js';
import { rule } from '../../rule.js';
import { sizeExempt } from '../sizing/exempt.js';

/** `power/min-size`: a wire under 16 AWG, 18 AWG in a sheath (33 CFR 183.425); 1 mm2 and 0.75 mm2 (ISO 10133, now 13297). */
export const minSize = rule(
  {
    code: 'power/min-size',
    severities: ['error'],
    summary: 'A wire is thinner than the standard allows.',
  },
  (context, report) => {
    const { supply, vessel } = context;
    const { practice } = vessel;
    for (const edge of supply.edges) {
      const { size, sheathed } = edge;
      if (size === undefined) continue;
      const own = edge.conductor.wire !== undefined;
      const at = { origin: edge.origin, part: own ? 'size' : 'cable' };
      if (practice === undefined) {
        report.unknown(at, `${vessel.name} does not say its practice`);
        continue;
      }
      if (!isTooThin(size, practice, sheathed) || sizeExempt(supply, edge)) continue;
      const sizes =
        size.standard === choicesOf(practice)[0]?.standard ? choicesOf(practice) : sizesOf(size.standard);
      const least = sizes.find((one) => !isTooThin(one, practice, sheathed));
      report.find({
        message: `${sizeText(size)} on ${edge.text} is thinner than ${practice === 'abyc' ? '33 CFR 183.425' : 'ISO 13297'} allows${sheathed ? ' in a sheath' : ''}: it breaks where it is made off or chafes. Use ${least === undefined ? 'a thicker wire' : `at least ${sizeText(least)}`}.`,
        at,
        repairs:
          least === undefined || !own
            ? []
            : [
                {
                  title: `Use ${sizeText(least)}`,
                  preferred: true,
                  change: { kind: 'replace', at, text: sizeText(least) },
                },
              ],
      });
    }
  },
);
