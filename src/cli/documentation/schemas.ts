/** JSON schemas (draft 2020-12) of what the program prints, made from the same columns that the lists print. */
import { LIST_KINDS } from '../list/kinds.js';
import { columnsFor, type Column, type ListKind, type Schema } from '../list/listing.js';

const DIALECT = 'https://json-schema.org/draft/2020-12/schema';

/** File names below docs/schemas, and their schemas. */
export function schemas(): ReadonlyMap<string, Schema> {
  return new Map([
    ['check.schema.json', checkSchema()],
    ...LIST_KINDS.map((kind) => [`list-${kind.what}.schema.json`, listSchema(kind)] as const),
  ]);
}

function object(properties: Readonly<Record<string, Schema>>, description?: string): Schema {
  return {
    type: 'object',
    ...(description === undefined ? {} : { description }),
    properties,
    required: Object.keys(properties),
  };
}

const array = (items: Schema, description: string): Schema => ({ type: 'array', description, items });
const text = (description: string): Schema => ({ type: 'string', description });
const textOrNull = (description: string): Schema => ({ type: ['string', 'null'], description });

function checkSchema(): Schema {
  const count: Schema = { type: 'integer', minimum: 0 };
  const position = object(
    { line: count, character: count },
    'Zero-based, as in the Language Server Protocol.',
  );
  const place = {
    file: text('Relative to the working folder where it lies below it, with forward slashes.'),
    range: object({ start: { $ref: '#/$defs/position' }, end: { $ref: '#/$defs/position' } }),
  };
  const finding = object({
    rule: text('The code of the rule, as in docs/rules.'),
    severity: { enum: ['error', 'warning', 'information'] },
    message: text('What is wrong, why it matters, and what would make it right.'),
    ...place,
    related: array(
      object({ message: text('What the place has to do with it.'), ...place }),
      'Places that belong to it.',
    ),
    waived: textOrNull('The reason of the waiver that covers it; null where none does.'),
  });
  const findings = (description: string): Schema => array({ $ref: '#/$defs/finding' }, description);
  const counts = object(
    { error: count, warning: count, information: count, waived: count, unknown: count },
    'By severity; a waived finding counts as waived alone. Unknown: what could not be judged.',
  );
  return {
    $schema: DIALECT,
    title: 'wireloft check --format json',
    ...object({
      format: {
        type: 'string',
        pattern: '^1\\.[0-9]+$',
        description: 'The second number grows with additions.',
      },
      vessels: array(
        object({
          name: text('The name of the vessel.'),
          file: text('The file that declares it.'),
          option: textOrNull('The option it was checked with; null for the vessel without any.'),
          findings: findings('In the order of files and places.'),
          counts,
        }),
        'Every vessel, each option after its base.',
      ),
      files: array(
        object({
          file: text('A catalogue, or a fragment that no vessel uses.'),
          findings: findings('What is true of it alone.'),
        }),
        'Files that belong to no one vessel.',
      ),
    }),
    $defs: { position, finding },
  };
}

function listSchema(kind: ListKind): Schema {
  const columns = columnsFor(kind, 'data').map((column) => [column.field, columnSchema(column)] as const);
  return {
    $schema: DIALECT,
    title: `wireloft list ${kind.what} --format json`,
    ...array(object({ ...Object.fromEntries(columns), ...kind.detailSchema }), `Lists ${kind.summary}.`),
  };
}

function columnSchema(column: Column): Schema {
  const { type, ifNull, values, text: description } = column;
  if (type === 'strings' || type === 'numbers')
    return { type: 'array', description, items: { type: type === 'strings' ? 'string' : 'number' } };
  const nullable = ifNull !== undefined;
  if (values) return { description, enum: nullable ? [...values, null] : values };
  return { type: nullable ? [type, 'null'] : type, description };
}
