import { BUS_BITS_PER_SECOND } from '../../vessel/can.js';
import type { BusAnalysis } from '../../checks/buses/buses.js';
import { count, number } from '../../vessel/words.js';
import type { Column, ListKind, Row } from './listing.js';

const figure = (field: string, title: string, text: string, only?: Column['only']): Column => ({
  field,
  title,
  type: 'number',
  ifNull: 'unknown',
  text,
  ...(only === undefined ? {} : { only }),
});

export const BUSES: ListKind = {
  what: 'buses',
  summary: 'each NMEA 2000 backbone: its lengths, loads, voltages and traffic',
  columns: [
    { field: 'name', title: 'Backbone', type: 'string', text: 'Its name.' },
    {
      field: 'cable',
      title: 'Cable',
      type: 'string',
      ifNull: 'unknown',
      text: 'What it is made of where nothing else is said; null where it is not said.',
    },
    { field: 'devices', title: 'Devices', type: 'number', text: 'How many are on it.' },
    {
      field: 'loadUnits',
      title: 'LEN',
      type: 'number',
      text: 'Load units of 50 mA, of those that say theirs.',
    },
    figure('backboneMetres', 'm', 'All spans; null where one is not known.'),
    figure('dropTotalMetres', 'Drops m', 'All drops and branches; null where one is not known.'),
    figure(
      'lowestVolts',
      'Lowest V',
      'The least that a device has with the battery at its lowest; null where it is not known.',
    ),
    {
      field: 'lowestDevice',
      title: 'At',
      type: 'string',
      ifNull: '',
      text: 'The device that has it.',
    },
    figure(
      'ruleOfThumbVolts',
      'Rule of thumb V',
      'Volts lost on it by the rule of thumb; null where nothing feeds it or a fact is missing.',
      'data',
    ),
    {
      field: 'utilisationPercent',
      title: 'Used % at worst',
      type: 'number',
      text: 'Share of 250 kbit/s, at worst.',
    },
    { field: 'typicalPercent', title: 'Typical %', type: 'number', text: 'Share of 250 kbit/s, typically.' },
    { field: 'talkersText', title: 'Most from', type: 'string', text: '', only: 'table' },
    {
      field: 'unknown',
      title: 'Unknown',
      type: 'string',
      ifNull: '',
      text: 'The first fact that is missing; null where none is.',
    },
  ],
  detailSchema: {
    nodes: {
      type: 'array',
      description: 'The devices along the cable.',
      items: {
        type: 'object',
        properties: {
          device: { type: 'string' },
          volts: {
            type: ['number', 'null'],
            description: 'With the battery at its lowest; null where it is not known.',
          },
          atMetres: { type: ['number', 'null'], description: 'Its tee, from the first end.' },
          dropMetres: { type: ['number', 'null'] },
          loadUnits: { type: ['number', 'null'] },
        },
        required: ['device', 'volts', 'atMetres', 'dropMetres', 'loadUnits'],
      },
    },
    talkers: {
      type: 'array',
      description: 'Who puts most on it at worst, at most five.',
      items: {
        type: 'object',
        properties: { device: { type: 'string' }, percent: { type: 'number' } },
        required: ['device', 'percent'],
      },
    },
    messages: {
      type: 'array',
      description: 'What is sent on it.',
      items: {
        type: 'object',
        properties: {
          device: { type: 'string' },
          by: { type: 'string', description: 'The device, or the gateway that lets it through.' },
          pgn: {
            type: ['number', 'null'],
            description: 'Null for the reports of AIS targets, which are several.',
          },
          name: { type: 'string' },
          hertz: { type: ['number', 'null'], description: 'Null for what is sent on request or by event.' },
          percent: { type: 'number', description: 'At worst.' },
        },
        required: ['device', 'by', 'pgn', 'name', 'hertz', 'percent'],
      },
    },
  },
  list: ({ analysis }) => {
    const devices = analysis.buses.reduce((sum, { bus }) => sum + bus.nodes.length, 0);
    return {
      rows: analysis.buses.map(row),
      summary: `${count(analysis.buses.length, 'backbone')} with ${count(devices, 'device')}.`,
      details: analysis.buses.map(details),
    };
  },
};

const rounded = (value: number | undefined, digits: number): number | null =>
  value === undefined ? null : Number(value.toFixed(digits));

function row({ bus, fed, lowest, traffic }: BusAnalysis): Row {
  const least = lowest();
  const { worstShare, typicalShare, talkers, missing } = traffic();
  const complete = fed().length > 0 && fed().every(({ drops }) => drops.missing === undefined);
  const feeding = fed().find((one) => one.feeding.missing !== undefined)?.feeding.missing;
  return {
    name: bus.name,
    cable: bus.backbone.cable ?? null,
    devices: new Set(bus.nodes.map((node) => node.device)).size,
    loadUnits: bus.loadUnits,
    backboneMetres: rounded(bus.backboneMetres, 2),
    dropTotalMetres: rounded(bus.dropTotalMetres, 2),
    lowestVolts: rounded(least?.volts, 2),
    lowestDevice: least?.node.device ?? null,
    ruleOfThumbVolts: complete ? rounded(Math.max(...fed().map(({ drops }) => drops.thumbVolts)), 2) : null,
    utilisationPercent: rounded(worstShare * 100, 1) ?? 0,
    typicalPercent: rounded(typicalShare * 100, 1) ?? 0,
    talkersText: talkers.map(({ device, share }) => `${device} ${number(share * 100, 1)} %`).join(', '),
    unknown: bus.missing[0]?.text ?? feeding ?? missing[0]?.text ?? null,
  };
}

function details({ bus, fed, traffic }: BusAnalysis): Readonly<Record<string, unknown>> {
  const stretchOf = new Map(fed().map((one) => [one.stretch.number, one]));
  const { talkers, messages } = traffic();
  return {
    nodes: bus.nodes.map((node) => {
      const stretch = stretchOf.get(node.stretch);
      const known = stretch !== undefined && stretch.drops.missing === undefined && !bus.open;
      return {
        device: node.device,
        volts: known ? rounded(stretch.lowestAt(node), 2) : null,
        atMetres: rounded(node.atMetres, 2),
        dropMetres: rounded(node.dropMetres, 2),
        loadUnits: node.loadUnits ?? null,
      };
    }),
    talkers: talkers.map(({ device, share }) => ({ device, percent: rounded(share * 100, 2) })),
    messages: messages.map(({ device, by, pgn, name, hertz, worst }) => ({
      device,
      by,
      pgn: pgn ?? null,
      name,
      hertz: rounded(hertz, 3),
      percent: rounded((worst / BUS_BITS_PER_SECOND) * 100, 2),
    })),
  };
}
