/** JSON schemas (draft 2020-12) of what the program prints, made from the same columns that the lists print. */
import { LIST_KINDS } from '../list/kinds.js';
import { columnsFor, type Column, type ListKind, type Schema } from '../list/listing.js';

const DIALECT = 'https://json-schema.org/draft/2020-12/schema';

/** File names below docs/schemas, and their schemas. */
export function schemas(): ReadonlyMap<string, Schema> {
  return new Map([
    ['check.schema.json', checkSchema()],
    ['compare.schema.json', compareSchema()],
    ['suggest.schema.json', suggestSchema()],
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

function suggestSchema(): Schema {
  const amount: Schema = { type: 'number' };
  const count: Schema = { type: 'integer', minimum: 0 };
  const truth: Schema = { type: 'boolean' };
  return {
    $schema: DIALECT,
    title: 'wireloft suggest --format json',
    ...object({
      format: { type: 'string', pattern: '^1\\.[0-9]+$' },
      vessel: text('Its name.'),
      currency: textOrNull('ISO 4217; null where the vessel names none.'),
      presentCost: {
        ...amount,
        description: 'Of the boat as written: parts and work, without what has no price.',
      },
      presentHolds: {
        ...truth,
        description: 'Whether the boat as written meets its needs and breaks no rule.',
      },
      designs: array(
        object({
          rank: { ...count, description: 'From 1, the cheapest.' },
          cost: amount,
          saving: { ...amount, description: 'Against the boat as written; negative where it costs more.' },
          changes: array(
            object({
              kind: { enum: ['exchange', 'remove', 'add', 'unplug', 'plug'] },
              what: text('The device, or the link as it is written.'),
              text: text('The change in words.'),
            }),
            'Empty for the boat as it is.',
          ),
          freePorts: array(object({ device: text('Its name.'), count }), 'Ethernet ports left free.'),
          dependsOn: array(
            object({
              screen: text('Its name.'),
              on: array({ type: 'string' }, 'Screens that have to be on for it.'),
            }),
            'Screens that show what they have to only while another is on.',
          ),
        }),
        'From the cheapest on, each of different gear.',
      ),
      giveUp: array(
        { type: 'string' },
        'Where there is no design: the fewest needs without which there is one.',
      ),
      nearest: array(
        object({ rule: text('The code of the rule.'), message: text('What it says.') }),
        'Where there is no design: what the nearest breaks.',
      ),
      unpriced: array({ type: 'string' }, 'Models and cables without a price, in no total.'),
      stopped: { ...truth, description: 'Whether the search was stopped before its end.' },
    }),
  };
}

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

function compareSchema(): Schema {
  const number: Schema = { type: 'number' };
  const count: Schema = { type: 'integer', minimum: 0 };
  const texts = (description: string): Schema => array({ type: 'string' }, description);
  const figure = (type: string, what: string): Schema => {
    const side = { type: [type, 'null'] };
    return {
      description: `${what}; null where that is the same. A side is null where it is not known or not there.`,
      anyOf: [object({ before: side, after: side }), { type: 'null' }],
    };
  };
  const both = (what: string): Record<string, Schema> => ({
    gained: texts(`${what}: in the newer revision alone.`),
    lost: texts(`${what}: in the older revision alone.`),
  });
  return {
    $schema: DIALECT,
    title: 'wireloft compare --format json',
    ...object({
      format: {
        type: 'string',
        pattern: '^1\\.[0-9]+$',
        description: 'The second number grows with additions.',
      },
      changes: array(
        object({
          what: { enum: ['device', 'cable', 'feed', 'bus'] },
          action: { enum: ['added', 'removed', 'renamed', 'exchanged', 'moved', 'changed', 'replugged'] },
          name: text('Its name in the newer revision; in the older where it is gone.'),
          before: textOrNull('What it was; null where it was not there.'),
          after: textOrNull('What it is; null where it is gone.'),
          metres: {
            type: ['number', 'null'],
            description: 'Length of a cable to pull or to take out; null where it is not known, or is none.',
          },
        }),
        'What is different aboard.',
      ),
      supply: array(
        object({
          at: text('A leg of a feed or a tap, as "panel.1 -> plotter"; or a device on a backbone.'),
          wire: figure('string', 'Its wire'),
          protection: figure('string', 'Its fuses and breakers'),
          amps: figure('number', 'The most that flows'),
          volts: figure(
            'number',
            'What arrives, from the nominal voltage; on a backbone with the battery at its lowest',
          ),
        }),
        'What is different at a supply that both revisions have, whether its own text changed or not.',
      ),
      needs: object(both('Needs that are met')),
      asked: object(both('Needs that are asked')),
      views: object(both('What a screen shows of another device')),
      findings: object({ ...both('Findings that no waiver covers'), newErrors: count, fixedErrors: count }),
      singlePoints: object(both('What costs a need by failing alone')),
      money: array(
        object({ currency: text('ISO 4217 code.'), before: number, after: number }),
        'What the priced parts come to, each currency by itself.',
      ),
      unpriced: object({ before: count, after: count }, 'Lines of the parts list without a price.'),
      metres: object({ toPull: number, toTakeOut: number, unknown: count }, 'Cables added and removed.'),
      regression: { type: 'boolean', description: 'A need or a view is lost, or there is a new error.' },
    }),
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
