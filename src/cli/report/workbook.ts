/** Every schedule of a vessel as the sheets of one workbook, with prices that an office program can work on. */
import type { SheetCell, WorkSheet } from '../../documents/formats/xlsx.js';
import { sideBySide, type Offer } from '../../documents/schedules/offers.js';
import { priceOf } from '../../checks/parts/price.js';
import type { PartLine } from '../../checks/analysis.js';
import type { VesselReport } from '../../language/project/report.js';
import { BUSES } from '../list/buses.js';
import { COMMISSIONING, CONNECTORS, VAN } from '../list/commissioning.js';
import { FEEDS } from '../list/feeds.js';
import { columnsFor, type Column, type ListKind, type Value } from '../list/listing.js';
import { LABELS, PULLS, SCHEDULE, SCREENS } from '../list/schedules.js';
import { WIRES } from '../list/wires.js';

const LISTS: readonly (readonly [name: string, kind: ListKind])[] = [
  ['Cables', SCHEDULE],
  ['Pulls', PULLS],
  ['Labels', LABELS],
  ['Feeds', FEEDS],
  ['Wires', WIRES],
  ['Backbones', BUSES],
  ['Connectors', CONNECTORS],
  ['Screens', SCREENS],
  ['Commissioning', COMMISSIONING],
  ['Van', VAN],
];

export function workbookOf(vessel: VesselReport, variants: readonly VesselReport[]): readonly WorkSheet[] {
  const offers = variants
    .filter(({ option }) => option !== null)
    .map(({ option, analysis }): Offer => ({ name: option ?? '', parts: analysis.parts() }));
  const own: Offer = { name: vessel.option ?? 'as she is', parts: vessel.analysis.parts() };
  return [
    { name: 'Parts', rows: partRows(own.parts) },
    ...(vessel.option !== null || offers.length === 0
      ? []
      : [{ name: 'Options', rows: offerRows([own, ...offers]) }]),
    ...LISTS.map(([name, kind]) => ({ name, rows: listRows(kind, vessel, variants) })),
  ];
}

/** Row numbers of a sheet begin at 1, and its head has the first. */
const FIRST = 2;

function partRows(parts: readonly PartLine[]): readonly (readonly SheetCell[])[] {
  const rows = parts.map((part, index): readonly SheetCell[] => {
    const {
      kind,
      model,
      title,
      part: number,
      lengthMetres,
      quantity,
      unitPrice,
      totalPrice,
      currency,
      existing,
    } = part;
    const line = FIRST + index;
    const total =
      totalPrice === null ? null : existing ? 0 : { formula: `F${line}*G${line}`, value: totalPrice };
    return [
      kind,
      model,
      title ?? null,
      number ?? null,
      lengthMetres ?? null,
      quantity,
      unitPrice,
      total,
      currency,
      existing,
    ];
  });
  const last = FIRST + parts.length - 1;
  const totals = priceOf(parts).totals.map(({ currency, amount }): readonly SheetCell[] => [
    `Total ${currency}`,
    ...[null, null, null, null, null, null],
    { formula: `SUMIF(I${FIRST}:I${last},"${currency}",H${FIRST}:H${last})`, value: amount },
    currency,
  ]);
  const head = [
    'Kind',
    'Model',
    'Title',
    'Part no.',
    'Length m',
    'Quantity',
    'Each',
    'Total',
    'Currency',
    'Aboard',
  ];
  return [head, ...rows, ...totals];
}

/** Letter of a column; there are never as many options as letters run out in. */
const column = (index: number): string =>
  index < 26 ? String.fromCharCode(65 + index) : column(Math.floor(index / 26) - 1) + column(index % 26);

/** Columns before the offers. */
const FACTS = ['Model', 'Title', 'Part no.', 'Length m', 'Each', 'Currency'];

function offerRows(offers: readonly Offer[]): readonly (readonly SheetCell[])[] {
  const rows = sideBySide(offers);
  const last = FIRST + rows.length - 1;
  const currencies = [...new Set(rows.flatMap(({ currency }) => currency ?? []))].sort();
  const totals = currencies.map((currency): readonly SheetCell[] => [
    `Total ${currency}`,
    ...[null, null, null, null, null],
    ...offers.map(({ parts }, index): SheetCell => {
      const letter = column(FACTS.length + index);
      return {
        formula: `SUMPRODUCT((F${FIRST}:F${last}="${currency}")*E${FIRST}:E${last}*${letter}${FIRST}:${letter}${last})`,
        value: priceOf(parts).totals.find((one) => one.currency === currency)?.amount ?? 0,
      };
    }),
  ]);
  return [
    [...FACTS, ...offers.map(({ name }) => name)],
    ...rows.map((row): readonly SheetCell[] => [
      row.model,
      row.title ?? null,
      row.part ?? null,
      row.lengthMetres ?? null,
      row.unitPrice,
      row.currency,
      ...row.quantities,
    ]),
    ...totals,
  ];
}

function listRows(
  kind: ListKind,
  vessel: VesselReport,
  variants: readonly VesselReport[],
): WorkSheet['rows'] {
  const columns = columnsFor(kind, 'table');
  return [
    columns.map(({ title }) => title),
    ...kind
      .list(vessel, () => undefined, variants)
      .rows.map((row) => columns.map((one) => cellOf(one, row[one.field]))),
  ];
}

function cellOf({ ifNull = '' }: Column, value: Value | undefined): SheetCell {
  if (value === undefined || value === null) return ifNull;
  return typeof value === 'object' ? value.join(', ') : value;
}
