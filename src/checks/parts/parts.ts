/** The parts list: devices, cables in the lengths they are bought in, and joints. */
import type { Cable, Joining, Model, Money } from '../../vessel/model.js';
import { compareText } from '../../vessel/words.js';
import type { PartLine } from '../analysis.js';
import { choosePieces } from '../cables/stock.js';
import type { Context } from '../context.js';

interface Draft {
  readonly kind: PartLine['kind'];
  readonly item: Pick<Model | Cable, 'name' | 'title' | 'part'>;
  /** Price of one, or of the whole length where the cable is cut. */
  readonly price: Money | undefined;
  readonly lengthMetres: number | undefined;
  readonly quantity: number;
  readonly existing: boolean;
}

/** Work out the parts list, sorted by kind and name. What has no stated price has none here: never nought. */
export function computeParts(context: Pick<Context, 'vessel' | 'lookup' | 'cables'>): readonly PartLine[] {
  const drafts = [
    ...deviceParts(context),
    ...linkParts(context),
    ...busParts(context),
    ...jointParts(context),
  ];
  const lines = new Map<string, Draft>();
  for (const draft of drafts) {
    const key = [draft.kind, draft.item.name, draft.existing, draft.lengthMetres ?? ''].join('\n');
    const known = lines.get(key);
    lines.set(key, known === undefined ? draft : { ...known, quantity: known.quantity + draft.quantity });
  }
  return [...lines.values()]
    .sort(
      (x, y) =>
        KINDS.indexOf(x.kind) - KINDS.indexOf(y.kind) ||
        compareText(x.item.name, y.item.name) ||
        Number(x.existing) - Number(y.existing) ||
        (x.lengthMetres ?? 0) - (y.lengthMetres ?? 0),
    )
    .map(lineOf);
}

const KINDS: readonly PartLine['kind'][] = ['device', 'cable', 'joint'];

function lineOf(draft: Draft): PartLine {
  const unit = draft.price?.amount ?? null;
  return {
    kind: draft.kind,
    model: draft.item.name,
    title: draft.item.title,
    part: draft.item.part,
    lengthMetres: draft.lengthMetres,
    quantity: draft.quantity,
    unitPrice: unit,
    totalPrice: draft.existing ? 0 : unit === null ? null : unit * draft.quantity,
    currency: draft.price?.currency ?? null,
    existing: draft.existing,
  };
}

function deviceParts({ vessel, lookup }: Pick<Context, 'vessel' | 'lookup'>): readonly Draft[] {
  return vessel.devices.flatMap((device): Draft[] => {
    const model = lookup.modelOf(device.name);
    if (model === undefined || device.leaving) return [];
    const quantity = (device.series ?? 1) * (device.parallel ?? 1);
    return [
      {
        kind: 'device',
        item: model,
        price: model.price,
        lengthMetres: undefined,
        quantity,
        existing: device.existing,
      },
    ];
  });
}

function linkParts({ lookup, cables }: Pick<Context, 'lookup' | 'cables'>): readonly Draft[] {
  return cables.flatMap((run) => {
    const cable = lookup.cable(run.cable);
    if (cable === undefined) return [];
    if (cable.stock.length === 0) return cut(cable, run.neededMetres, run.link.existing);
    return stocked(cable, run.pieces, run.link.existing);
  });
}

/** Spans and drops of backbones whose lengths are stated. */
function busParts({ vessel, lookup }: Pick<Context, 'vessel' | 'lookup'>): readonly Draft[] {
  return vessel.backbones.flatMap((backbone) =>
    backbone.items.flatMap((item) => {
      if (item.kind !== 'span' && item.kind !== 'tee') return [];
      const cable = lookup.cable(item.cable ?? backbone.cable);
      if (cable === undefined) return [];
      const lengths =
        item.kind === 'span'
          ? [item.lengthMetres]
          : [item.dropMetres, ...item.branches.map((branch) => branch.lengthMetres)];
      return lengths.flatMap((length) => {
        if (length === undefined) return [];
        if (cable.stock.length === 0) return cut(cable, length, false);
        return stocked(
          cable,
          choosePieces(
            cable.stock.map((piece) => piece.lengthMetres),
            length,
          ),
          false,
        );
      });
    }),
  );
}

function stocked(cable: Cable, pieces: readonly number[], existing: boolean): readonly Draft[] {
  return pieces.map((length) => ({
    kind: 'cable',
    item: cable,
    price: cable.stock.find((piece) => piece.lengthMetres === length)?.price,
    lengthMetres: length,
    quantity: 1,
    existing,
  }));
}

function cut(cable: Cable, lengthMetres: number | undefined, existing: boolean): readonly Draft[] {
  const metre = cable.pricePerMetre;
  const price =
    metre === undefined || lengthMetres === undefined
      ? undefined
      : { amount: metre.amount * lengthMetres, currency: metre.currency };
  return [{ kind: 'cable', item: cable, price, lengthMetres, quantity: 1, existing }];
}

function jointParts({ vessel, lookup }: Pick<Context, 'vessel' | 'lookup'>): readonly Draft[] {
  const joinings: readonly { readonly joins: readonly Joining[]; readonly existing: boolean }[] = [
    ...vessel.links,
    ...vessel.feeds,
  ];
  return joinings.flatMap(({ joins, existing }) =>
    joins.flatMap((joint): Draft[] => {
      const model = joint.model === undefined ? undefined : lookup.model(joint.model);
      return model === undefined
        ? []
        : [
            {
              kind: 'joint',
              item: model,
              price: model.price,
              lengthMetres: undefined,
              quantity: 1,
              existing,
            },
          ];
    }),
  );
}
