/** The parts list of the vessel and of each option side by side. */
import type { PartLine } from '../../checks/analysis.js';
import { compareText } from '../../vessel/words.js';

export interface Offer {
  readonly name: string;
  readonly parts: readonly PartLine[];
}

export interface OfferRow {
  readonly kind: PartLine['kind'];
  readonly model: string;
  readonly title: string | undefined;
  readonly part: string | undefined;
  readonly lengthMetres: number | undefined;
  /** Null where no price is stated. */
  readonly unitPrice: number | null;
  readonly currency: string | null;
  /** Of each offer, in their order. */
  readonly quantities: readonly number[];
}

/** What has to be bought: a row for each part that any of the offers has. */
export function sideBySide(offers: readonly Offer[]): readonly OfferRow[] {
  const rows = new Map<string, OfferRow>();
  offers.forEach(({ parts }, index) => {
    for (const { kind, model, title, part, lengthMetres, quantity, unitPrice, currency, existing } of parts) {
      if (existing) continue;
      const key = [kind, model, lengthMetres ?? ''].join('\n');
      const known = rows.get(key)?.quantities ?? offers.map(() => 0);
      const quantities = known.map((one, at) => (at === index ? one + quantity : one));
      rows.set(key, { kind, model, title, part, lengthMetres, unitPrice, currency, quantities });
    }
  });
  const order: readonly PartLine['kind'][] = ['device', 'cable', 'joint'];
  return [...rows.values()].sort(
    (x, y) =>
      order.indexOf(x.kind) - order.indexOf(y.kind) ||
      compareText(x.model, y.model) ||
      (x.lengthMetres ?? 0) - (y.lengthMetres ?? 0),
  );
}
