import type { DeviceMargin } from '../../checks/power/circuit/margins.js';
import type { FeedProtection, FeedResult } from '../../checks/power/sizing/feeds.js';
import { count, number } from '../../vessel/words.js';
import { numberCables } from '../../documents/numbering.js';
import type { Column, ListKind, Row } from './listing.js';
import { NUMBER } from './schedules.js';

const amps = (field: string, title: string, text: string): Column => ({
  field,
  title,
  type: 'number',
  ifNull: 'unknown',
  text,
});

export const FEEDS: ListKind = {
  what: 'feeds',
  summary: 'each feed: its wire and fuse, what it carries, and what voltage arrives',
  columns: [
    NUMBER,
    { field: 'from', title: 'From', type: 'string', text: 'Where it is fed: a port where it is known.' },
    {
      field: 'to',
      title: 'To',
      type: 'string',
      text: 'One of its loads; a feed of several has a row for each.',
    },
    {
      field: 'label',
      title: 'Label',
      type: 'string',
      ifNull: '',
      text: "Its label, or its way's; null where it has none.",
    },
    amps('lengthMetres', 'm', 'One way; null where it is not known.'),
    { field: 'wireText', title: 'Wire', type: 'string', text: '', only: 'table' },
    { field: 'protectionText', title: 'Fuse', type: 'string', text: '', only: 'table' },
    amps('typicalAmps', 'Typical A', 'At its usual draw in the worst mode; null where a draw is not known.'),
    amps(
      'maxAmps',
      'Most A',
      'With a device at its maximum, or what charges; null where a draw is not known.',
    ),
    amps('ampacityAmps', 'Ampacity A', 'What the wire carries as it lies; null where that is not known.'),
    amps(
      'dropVolts',
      'Drop V',
      'Lost along the whole way from the source at the maximum load; null where it is not known.',
    ),
    amps('dropPercent', 'Drop %', 'The same as a share of the nominal voltage.'),
    {
      field: 'allowedPercent',
      title: 'Allowed %',
      type: 'number',
      ifNull: '',
      text: 'The most that may be lost; null where nothing limits it here.',
    },
    amps(
      'loadVolts',
      'Load V',
      "What arrives, from the battery's nominal voltage; null where it is not known.",
    ),
    {
      field: 'marginToLowest',
      title: 'Margin',
      type: 'number',
      ifNull: '',
      text: 'Times that all loads could be what they are, with the batteries at their lowest, until the device has its lowest voltage; 1000 for as many or more, null where it has none or that is not known.',
    },
    {
      field: 'marginToCollapse',
      title: 'Collapse',
      type: 'number',
      ifNull: '',
      text: 'The same until the supply collapses.',
      only: 'data',
    },
    {
      field: 'unknown',
      title: 'Unknown',
      type: 'string',
      ifNull: '',
      text: 'The fact that is missing for a figure; null where none is.',
    },
  ],
  detailSchema: {
    wire: {
      type: 'object',
      properties: {
        size: {
          type: ['string', 'null'],
          description: 'As `14 AWG`, `2.5 mm2`; null where it is not known.',
        },
        computed: { type: 'boolean', description: 'It is left to the tool.' },
        other: {
          type: ['string', 'null'],
          description: 'The nearest size of the other standard, no thinner.',
        },
        governedBy: {
          enum: ['ampacity', 'drop', 'fuse', 'minimum', null],
          description: 'What decided a computed size.',
        },
      },
      required: ['size', 'computed', 'other', 'governedBy'],
    },
    protection: {
      type: 'array',
      items: {
        type: 'object',
        properties: {
          device: { enum: ['fuse', 'breaker'] },
          amps: { type: ['number', 'null'] },
          type: { type: ['string', 'null'] },
          at: { type: ['string', 'null'], description: 'The device at whose end it sits.' },
          computed: { type: 'boolean', description: 'Its rating is left to the tool.' },
        },
        required: ['device', 'amps', 'type', 'at', 'computed'],
      },
    },
  },
  list: ({ analysis }) => {
    const all = analysis.power.feeds();
    const { of } = numberCables(analysis);
    const computed = all.filter((one) => one.wire.computed && one.wire.size !== undefined).length;
    const unknown = all.filter((one) => one.missing !== undefined).length;
    return {
      rows: all.map((feed) => ({
        number: of(feed.origin) ?? '',
        ...row(feed, analysis.power.marginAt(feed.to)),
      })),
      details: all.map(({ wire, protection }) => ({
        wire: {
          size: wire.size ?? null,
          computed: wire.computed,
          other: wire.other ?? null,
          governedBy: wire.governedBy ?? null,
        },
        protection: protection.map((one) => ({
          device: one.device,
          amps: one.amps ?? null,
          type: one.type ?? null,
          at: one.at ?? null,
          computed: one.computed,
        })),
      })),
      summary: `${count(all.length, 'feed')}: ${count(computed, 'wire')} worked out, ${unknown} with something unknown.`,
    };
  },
};

function row(feed: FeedResult, margin: DeviceMargin | undefined): Row {
  const known = margin?.missing === undefined ? margin : undefined;
  return {
    from: feed.from,
    to: feed.to,
    label: feed.label ?? null,
    lengthMetres: rounded(feed.lengthMetres, 3),
    wireText: wireText(feed),
    protectionText: feed.protection.map((one) => protectionText(one, feed.from)).join(', '),
    typicalAmps: rounded(feed.typicalAmps, 3),
    maxAmps: rounded(feed.maxAmps, 3),
    ampacityAmps: rounded(feed.ampacityAmps, 2),
    dropVolts: rounded(feed.dropVolts, 4),
    dropPercent: rounded(feed.dropPercent, 3),
    allowedPercent: rounded(feed.allowedPercent, 3),
    loadVolts: rounded(feed.loadVolts, 4),
    marginToLowest: rounded(capped(known?.toLowest), 2),
    marginToCollapse: rounded(capped(known?.toCollapse), 2),
    unknown: feed.missing ?? null,
  };
}

/** A supply without a limit that matters, as a number. */
const capped = (factor: number | undefined): number | undefined =>
  factor === undefined ? undefined : Math.min(factor, 1000);

/** `14 AWG`, with a star where it was worked out. */
export function wireText({ wire }: FeedResult): string {
  return wire.size === undefined ? 'unknown' : `${wire.size}${wire.computed ? ' *' : ''}`;
}

/** `80 A mrbf`; one that does not sit where the feed begins says where. */
function protectionText({ device, amps: rating, type, at, computed }: FeedProtection, from: string): string {
  const place = at === undefined || from === at || from.startsWith(`${at}.`) ? '' : ` at ${at}`;
  const size = rating === undefined ? '?' : `${number(rating, 1)} A`;
  return `${device === 'breaker' ? 'breaker ' : ''}${size}${type === undefined ? '' : ` ${type}`}${place}${computed ? ' *' : ''}`;
}

/** Figures without the noise of their last places. */
export function rounded(value: number | undefined, digits: number): number | null {
  return value === undefined ? null : Number(value.toFixed(digits));
}
