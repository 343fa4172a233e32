import { areaMm2, sizesOf, sizeText } from '../../../vessel/conductors/sizes.js';
import { rule } from '../../rule.js';

/** `power/wire-not-standard`: a size that is not sold (ASTM B258 gauges, IEC 60228 areas). */
export const wireNotStandard = rule(
  {
    code: 'power/wire-not-standard',
    severities: ['warning'],
    summary: 'A wire is of a size that is not sold.',
  },
  ({ supply }, report) => {
    for (const edge of supply.edges) {
      const { size } = edge;
      if (size === undefined || sizesOf(size.standard).some((sold) => sold.size === size.size)) continue;
      const area = areaMm2(size);
      const thicker = sizesOf(size.standard).find(
        (sold) => area !== undefined && (areaMm2(sold) ?? 0) > area,
      );
      const own = edge.conductor.wire !== undefined;
      report.find({
        message: `${sizeText(size)} on ${edge.text} is not a size that is sold. ${thicker === undefined ? 'Use one that is.' : `The next thicker one is ${sizeText(thicker)}.`}`,
        at: { origin: edge.origin, part: own ? 'size' : 'cable' },
        repairs:
          thicker === undefined || !own
            ? []
            : [
                {
                  title: `Use ${sizeText(thicker)}`,
                  preferred: true,
                  change: {
                    kind: 'replace',
                    at: { origin: edge.origin, part: 'size' },
                    text: sizeText(thicker),
                  },
                },
              ],
      });
    }
  },
);
