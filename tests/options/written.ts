/**
 * Boats as lists of lines, and what an option makes of them written out by hand: an oracle that filters lines and knows nothing of the
 * program's own model.
 */
import fc from 'fast-check';

export interface Written {
  readonly devices: readonly { readonly name: string; readonly model: string; readonly rest: string }[];
  readonly links: readonly { readonly a: string; readonly b: string; readonly rest: string }[];
  /** The load ends with their own fuses; `fuse` is the one at the panel. */
  readonly feeds: readonly { readonly from: string; readonly fuse: string; readonly to: readonly string[] }[];
  readonly tees: readonly { readonly device: string; readonly drop: number }[];
  readonly needs: readonly string[];
  readonly panes: readonly { readonly view: string; readonly screen: string; readonly shows: string }[];
  readonly on: readonly string[];
}

export interface Change {
  readonly add: Written;
  /** Backbone places of the tees that are added: after or before a device, or at the end. */
  readonly places: readonly (readonly ['after' | 'before', string] | undefined)[];
  readonly remove: readonly string[];
  /** Indices of links of the base. */
  readonly unlink: readonly number[];
  readonly exchange: readonly (readonly [device: string, model: string])[];
}

const HEAD = `use "catalogue/tern.loft"
use "catalogue/general.loft"
use "catalogue/power.loft"
vessel Boat { practice abyc  currency USD  slack 0.5 m  wiring 105 C }
zone helm  sheltered aft 4 m
zone cabin interior  aft 5 m
run helm -- cabin 2 m
`;

export const render = (boat: Written, options: readonly string[] = []): string =>
  `${[
    HEAD,
    ...lines(boat, ''),
    `backbone nav {\n  terminator\n${tees(boat)}  terminator\n}`,
    `mode fishing { ${boat.on.map((name) => `on ${name}`).join('  ')} }`,
    ...options,
  ].join('\n')}\n`;

const tees = (boat: Written): string =>
  boat.tees.map(({ device, drop }) => `  tee ${device} drop ${drop} m\n`).join('');

function lines(boat: Written, before: string): string[] {
  const views = [...new Set(boat.panes.map((pane) => pane.view))];
  return [
    ...boat.devices.map(({ name, model, rest }) => `device ${name} : ${model} at cabin${rest}`),
    ...boat.links.map(({ a, b, rest }) => `link ${a} -- ${b}${rest}`),
    ...boat.feeds.map(feedLine),
    ...boat.needs.map((need) => `need ${need}`),
    ...views.map((view) => {
      const panes = boat.panes.filter((pane) => pane.view === view);
      return `view "${view}" on ${panes[0]?.screen ?? ''} { ${panes.map(({ shows }) => `of_${shows.replace('.', '_')}: ${shows}`).join('  ')} }`;
    }),
  ].map((line) => before + line);
}

const feedLine = ({ from, fuse, to }: Written['feeds'][number]): string =>
  `feed ${from} -> ${to.join(', ')}  fuse ${[fuse, ...to.map((load) => `2 A at ${load}`)].join(', ')}`;

/** The option's own text. */
export function optionText(name: string, base: Written, change: Change): string {
  const { add, places } = change;
  return [
    `option ${name} "As ${name}" {`,
    ...change.unlink.map(
      (index) => `  remove ${base.links[index]?.b ?? ''} -- ${base.links[index]?.a ?? ''}`,
    ),
    ...lines(add, '  add '),
    ...add.tees.map(({ device, drop }, index) => {
      const place = places[index];
      return `  add tee ${device} drop ${drop} m to nav${place ? ` ${place[0]} ${place[1]}` : ''}`;
    }),
    ...change.exchange.map(([device, model]) => `  change ${device} : ${model}`),
    ...change.remove.map((device) => `  remove ${device}`),
    '}',
  ].join('\n');
}

/** The boat with the option, line by line. */
export function byHand(base: Written, change: Change): Written {
  const out = new Set(change.remove);
  const deviceOf = (end: string): string => end.split('.')[0] ?? end;
  const aboard = (end: string): boolean => !out.has(deviceOf(end));
  const models = new Map(change.exchange);
  const { add } = change;
  const bus = [...base.tees];
  add.tees.forEach((tee, index) => {
    const place = change.places[index];
    const at = place ? bus.findIndex((one) => one.device === place[1]) : bus.length;
    bus.splice(place?.[0] === 'after' ? at + 1 : at, 0, tee);
  });
  return {
    devices: [...base.devices, ...add.devices]
      .filter((device) => aboard(device.name))
      .map((device) => ({ ...device, model: models.get(device.name) ?? device.model })),
    links: [...base.links.filter((_, index) => !change.unlink.includes(index)), ...add.links].filter(
      (link) => aboard(link.a) && aboard(link.b),
    ),
    feeds: [...base.feeds, ...add.feeds]
      .filter((feed) => aboard(feed.from))
      .map((feed) => ({ ...feed, to: feed.to.filter(aboard) }))
      .filter((feed) => feed.to.length > 0),
    tees: bus.filter((tee) => aboard(tee.device)),
    needs: [...base.needs, ...add.needs],
    panes: [...base.panes, ...add.panes].filter((pane) => aboard(pane.screen) && aboard(pane.shows)),
    on: base.on.filter(aboard),
  };
}

// ---------------------------------------------------------------- random ones

const SCREENS = ['s1', 's2', 's3'];
const SENSORS = ['g1', 'g2', 'g3'];
const SOURCES = ['t1', 't2'];
const NAMES = [...SCREENS, ...SENSORS, ...SOURCES, 'hub'];

const MODEL: Readonly<Record<string, string>> = {
  s1: 'Tern13', s2: 'Tern13', s3: 'Tern8', g1: 'Gnss10', g2: 'Gnss10', g3: 'Heading9', t1: 'BeamHD', t2: 'BeamHD', hub: 'Switch5', panel: 'Panel8',
}; // prettier-ignore

export const BASE: Written = {
  devices: [...NAMES, 'panel'].map((name) => ({ name, model: MODEL[name] ?? '', rest: '' })),
  links: [
    { a: 's1.net1', b: 'hub.1', rest: ' using SealedNet' },
    { a: 's2.net1', b: 'hub.2', rest: ' using SealedNet' },
    { a: 's3.net', b: 'hub.3', rest: ' using SealedNet label "N3"' },
    { a: 't1.plug', b: 's1.sonar', rest: '' },
    { a: 't2.plug', b: 's2.sonar', rest: '' },
  ],
  feeds: [
    { from: 'panel.1', fuse: '5 A', to: ['s1', 's2'] },
    { from: 'panel.2', fuse: '5 A', to: ['s3'] },
    { from: 'panel.3', fuse: '3 A', to: ['hub'] },
  ],
  tees: [
    { device: 'g1', drop: 1 },
    { device: 's1', drop: 2 },
    { device: 'g3', drop: 3 },
  ],
  needs: ['spare 1 ethernet'],
  panes: [
    { view: 'Fish', screen: 's1', shows: 't1' },
    { view: 'Fish', screen: 's1', shows: 's2.chart' },
    { view: 'Deep', screen: 's2', shows: 't2' },
  ],
  on: ['s1', 's2', 'hub'],
};

/** A change of the base, with names of its own that begin with `tag`; it builds on nothing that it takes out. */
export function changes(tag: string, removable: readonly string[]): fc.Arbitrary<Change> {
  return fc
    .record({
      remove: fc.subarray([...removable], { maxLength: 2 }),
      unlink: fc.subarray([0, 1, 2, 3, 4], { maxLength: 2 }),
      larger: fc.boolean(),
      camera: fc.boolean(),
      sensor: fc.constantFrom(undefined, 'end', 'after', 'before'),
      relay: fc.boolean(),
      load: fc.boolean(),
      pane: fc.boolean(),
      beside: fc.constantFrom('g1', 's1', 'g3'),
    })
    .map((pick) => {
      const gone = new Set(pick.remove);
      const stays = (name: string): boolean => !gone.has(name);
      const has = <T>(yes: boolean, ...items: T[]): T[] => (yes ? items : []);
      const camera = pick.camera && stays('hub');
      const relay = pick.relay && stays('s1') && stays('s3') && pick.unlink.includes(2);
      const device = (name: string, model: string): Written['devices'][number] => ({
        name: `${tag}${name}`,
        model,
        rest: '',
      });
      const place: Change['places'][number] =
        pick.sensor === 'after' || pick.sensor === 'before' ? [pick.sensor, pick.beside] : undefined;
      return {
        remove: pick.remove,
        unlink: pick.unlink,
        exchange: pick.larger && stays('s1') ? [['s1', 'Tern16'] as const] : [],
        places: pick.sensor === undefined ? [] : [place],
        add: {
          devices: [
            ...has(camera, device('Screen', 'Tern8')),
            ...has(pick.sensor !== undefined, device('Gnss', 'Gnss10')),
            ...has(pick.load && stays('panel'), device('Vhf', 'Vhf25')),
          ],
          links: [
            ...has(camera, {
              a: `${tag}Screen.net`,
              b: tag === 'a' ? 'hub.4' : 'hub.5',
              rest: ' using SealedNet',
            }),
            ...has(relay, { a: 's3.net', b: 's1.net2', rest: ' using SealedNet' }),
          ],
          feeds: has(pick.load && stays('panel'), {
            from: tag === 'a' ? 'panel.5' : 'panel.6',
            fuse: '10 A',
            to: [`${tag}Vhf`],
          }),
          tees: has(pick.sensor !== undefined, { device: `${tag}Gnss`, drop: 1 }),
          needs: has(camera, `${tag}Screen show chart`),
          panes: has(pick.pane && stays('s2'), { view: `${tag} view`, screen: 's2', shows: 's2.chart' }),
          on: [],
        },
      };
    });
}

export const REMOVABLE: readonly string[] = [...NAMES, 'panel'];
