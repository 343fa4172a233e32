/**
 * A station: 25 devices that stand together, as a bridge or a cockpit does, with their own battery, panel, ethernet switch and
 * NMEA 2000 backbone. Two stations share an ethernet segment and a family.
 */
import { FAMILIES, OPEN } from './catalogue.js';
import type { Chance } from './random.js';

/** Devices of one station, and of one fragment file. */
export const STATION = 25;

interface Device {
  readonly name: string;
  readonly model: string;
  readonly place: 'helm' | 'cabin' | 'stern' | 'mast';
  readonly extra?: string;
}

/** The places of a station, joined to the one before it. */
export function placesText(number: number, chance: Chance): string {
  // Well inside the longest boat that the language takes, however many stations there are.
  const aft = (offset: number): string => `aft ${String((number % 40) * 2 + offset)} m`;
  const zones = [
    `zone helm${number}  sheltered ${aft(0)}`,
    `zone mast${number}  aloft     ${aft(0.5)} height 6 m`,
    `zone cabin${number} interior  ${aft(1)}`,
    `zone stern${number} exposed   ${aft(1.5)}`,
  ];
  const runs = [
    `run helm${number}  -- mast${number}  ${chance.whole(3, 5)} m conduit 80 mm`,
    `run helm${number}  -- cabin${number} ${chance.whole(2, 4)} m`,
    `run cabin${number} -- stern${number} ${chance.whole(2, 5)} m`,
    ...(number > 1 ? [`run cabin${number - 1} -- cabin${number} ${chance.whole(3, 5)} m`] : []),
  ];
  return [...zones, '', ...runs, ''].join('\n');
}

/** The devices of a station and everything about them. */
export function stationText(number: number, stations: number, chance: Chance): string {
  const at = (what: string): string => `${what}${number}`;
  const prefix = FAMILIES[Math.floor((number - 1) / 2)] ?? OPEN;
  const screens = ['plotter', 'repeater', 'chartScreen', 'bowScreen', 'spareScreen', 'sideScreen']
    .slice(0, chance.whole(4, 6))
    .map(at);
  const cameras = ['camera', 'engineCamera'].slice(0, chance.whole(1, 2)).map(at);
  const devices: Device[] = [
    { name: at('bank'), model: 'Agm105', place: 'cabin', extra: `parallel ${chance.whole(1, 3)}` },
    { name: at('cutoff'), model: 'Cutoff300', place: 'cabin', extra: 'normally on' },
    { name: at('panel'), model: 'Panel24', place: 'cabin' },
    { name: at('hub'), model: 'Hub12', place: 'cabin' },
    ...screens.map((name, index): Device => {
      // The first hosts the high-definition transducer, the second the other one, which takes less power.
      const large = index === 0 || (index > 1 && chance.whole(1, 3) === 1);
      return { name, model: `${prefix}${large ? 12 : 8}`, place: chance.oneOf(['helm', 'helm', 'cabin']) };
    }),
    { name: at('keel'), model: 'BeamHD', place: 'stern', ...synced('keel', number) },
    { name: at('transom'), model: 'Beam', place: 'stern', ...synced('transom', number) },
    { name: at('live'), model: `${prefix}Box`, place: 'cabin' },
    { name: at('liveHead'), model: 'LiveHead', place: 'stern', ...synced('liveHead', number) },
    { name: at('radar'), model: `${prefix}Dome`, place: 'mast' },
    ...cameras.map((name): Device => ({ name, model: 'Dome3', place: chance.oneOf(['mast', 'stern']) })),
    { name: at('gnss'), model: 'Gnss10', place: 'helm', extra: 'offset 0.2 m, 0 m, 0.4 m' },
    { name: at('heading'), model: 'Heading9', place: 'cabin' },
    { name: at('sensor'), model: 'Tri', place: 'stern' },
    { name: at('digits'), model: 'Digits4', place: 'helm' },
    { name: at('vhf'), model: 'Vhf25', place: 'helm' },
    { name: at('whip'), model: 'Whip24', place: 'mast', extra: 'offset 0 m, 1.2 m, 0.3 m' },
  ];
  const loads: Device[] = [];
  for (let n = 1; devices.length + loads.length < STATION; n++)
    loads.push({
      name: `load${n}of${number}`,
      model: chance.oneOf(['Pump5', 'Lights', 'Fridge50']),
      place: chance.oneOf(['cabin', 'helm']),
    });

  const [first = '', second = '', third = '', fourth = ''] = screens;
  const uplink =
    number % 2 === 1 && number < stations
      ? [`link hub${number}.12 -- hub${number + 1}.12 using SealedNet`]
      : [];
  const onNet = [...screens, at('live'), ...cameras];
  const powered: (readonly [string, string])[] = [
    ...screens.map((name) => [name, 'fuse 5 A'] as const),
    [at('live'), 'fuse 7.5 A'],
    [at('radar'), chance.oneOf(['fuse 5 A using Duplex10', 'fuse 5 A using Duplex10 label "R"'])],
    ...cameras.map((name) => [name, 'fuse 1 A using Duplex14'] as const),
    [at('vhf'), 'fuse 10 A'],
    // Fuse and wire are left to the tool.
    [at('hub'), ''],
    ...loads.map(({ name, model }) => [name, model === 'Fridge50' ? 'fuse 10 A' : 'fuse 3 A'] as const),
  ];
  return `// ---------------------------------------------------------------- station ${number}

/// The bank of station ${number}, and what it feeds.
${[...devices, ...loads].map((device) => deviceLine(device, number)).join('\n')}

link ${at('keel')} -- ${first}.sonar    // high definition: the large display hosts it
link ${at('transom')} -- ${second}.sonar
link ${at('liveHead')} -- ${at('live')}.head
link ${at('radar')} -- ${at('hub')}.11
${onNet.map((name, index) => `link ${name} -- ${at('hub')}${index % 2 === 0 ? `.${index + 1}` : ''} using SealedNet`).join('\n')}
link ${at('vhf')}.antenna -- ${at('whip')} using Coax8X
${uplink.join('\n')}

/// From the helm through the cabin to the stern.
backbone ${at('nav')} using Trunk {
  terminator
  tee ${at('gnss')} drop 1 m
  span 0.5 m
  tee ${at('digits')} drop 0.5 m
${screens.map((name) => `  span 0.4 m\n  tee ${name} drop 2 m`).join('\n')}
  tee ${at('vhf')} drop 1 m
  span helm${number} -- cabin${number}
  tap from ${at('panel')}.24 at cabin${number} fuse 3 A
  ground
  tee ${at('heading')} drop 1 m
  span cabin${number} -- stern${number}
  tee ${at('sensor')} drop 2 m
  tee capped
  terminator
}

feed ${at('bank')} -> ${at('cutoff')} fuse 100 A mrbf at ${at('bank')} after 150 mm
feed ${at('cutoff')} -> ${at('panel')} protected
${powered
  .map(([name, clause], index) => `feed ${at('panel')}.${index + 1} -> ${name} ${clause}`.trimEnd())
  .join('\n')}

need ${first}, ${second} show ${at('keel')}, ${at('live')}
need ${third} show ${at('radar')}, ${at('keel')}.side
need ${fourth} show ${cameras[0] ?? ''} without ${second}
need ${first}, ${at('digits')} show position, heading
need spare 1 ethernet on ${at('hub')}

view "Passage ${number}" on ${first} { left: chart over ${at('radar')}  right: ${at('keel')}.down }
view "Fishing ${number}" on ${third} { left: ${at('live')}  right: ${at('transom')}.traditional }
`;
}

/** Transducers of one band are synchronised with those of the station before, so that none draws another's pings. */
function synced(what: string, number: number): { readonly extra?: string } {
  return number > 1 ? { extra: `synced with ${what}${number - 1}` } : {};
}

function deviceLine({ name, model, place, extra }: Device, number: number): string {
  const block = extra === undefined ? '' : ` { ${extra} }`;
  return `device ${name.padEnd(18)} : ${model} at ${place}${number}${block}`;
}
