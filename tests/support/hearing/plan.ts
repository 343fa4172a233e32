/** Boats about data, as plain plans that are written out as specs: what the language and the checks then make of the text is judged elsewhere. */

export interface Rated {
  readonly name: string;
  readonly hertz: number | undefined;
}

export interface PortPlan {
  readonly name: string;
  readonly medium: 'bus' | 'talks' | 'listens' | 'net';
  /** The messages that it states to send. */
  readonly sends: readonly Rated[];
}

export interface PassPlan {
  readonly from: readonly string[];
  readonly to: string;
  readonly filter: { readonly kind: 'with' | 'without'; readonly messages: readonly string[] } | undefined;
}

export interface DevicePlan {
  readonly name: string;
  readonly class: 'pilot' | 'radio' | 'instrument' | 'display' | 'gateway' | 'switch';
  readonly family: string | undefined;
  readonly ports: readonly PortPlan[];
  readonly gives: readonly Rated[];
  readonly wants: readonly Rated[];
  readonly shows: readonly string[];
  readonly shares: readonly string[];
  readonly passes: readonly PassPlan[];
}

export interface BoatPlan {
  readonly devices: readonly DevicePlan[];
  /** Ends on each backbone: `device.port`. */
  readonly buses: Readonly<Record<string, readonly string[]>>;
  /** Talker, listener. */
  readonly lines: readonly (readonly [string, string])[];
  readonly cords: readonly (readonly [string, string])[];
  readonly prefers: readonly { readonly signal: string; readonly from: readonly string[] }[];
  readonly needs: readonly { readonly device: string; readonly signal: string }[];
}

export const deviceOf = (end: string): string => end.slice(0, end.indexOf('.'));

const rated = ({ name, hertz }: Rated): string => (hertz === undefined ? name : `${name} at ${hertz} Hz`);
const clause = (word: string, items: readonly string[]): readonly string[] =>
  items.length === 0 ? [] : [`  ${word} ${items.join(', ')}`];

const KINDS: Readonly<Record<PortPlan['medium'], string>> = {
  bus: 'nmea2000 len 1',
  talks: 'nmea0183 talks 4800 differential drives 9',
  listens: 'nmea0183 listens 4800 isolated',
  net: 'ethernet',
};

function modelText(device: DevicePlan): string {
  const { ports, family, gives, wants, shows, shares, passes } = device;
  const lines = [
    ...ports.map(
      ({ name, medium, sends }) =>
        `  port ${name} : ${KINDS[medium]}${sends.length > 0 ? ` sends ${sends.map(rated).join(', ')}` : ''}`,
    ),
    ...clause('families', family === undefined ? [] : [family]),
    ...(device.class === 'switch' ? ['  bridges ethernet'] : []),
    ...clause('gives', gives.map(rated)),
    ...clause('wants', wants.map(rated)),
    ...clause('shows', shows),
    ...clause('shares', shares),
    ...passes.map(
      ({ from, to, filter }) =>
        `  passes ${from.join(', ')} -> ${to}${filter === undefined ? '' : ` ${filter.kind} ${filter.messages.join(', ')}`}`,
    ),
  ];
  return `model M${device.name} : ${device.class} {\n${lines.join('\n')}\n}\n`;
}

/** The plan as a spec. */
export function specOf(plan: BoatPlan): string {
  return [
    'vessel Random { slack 0.5 m }',
    'zone cabin interior',
    'family Tern',
    'family Skua',
    ...plan.devices.map(modelText),
    ...plan.devices.map(({ name }) => `device ${name} : M${name} at cabin`),
    ...Object.entries(plan.buses).map(
      ([name, ends]) =>
        `backbone ${name} {\n  terminator\n${ends.map((end) => `  tee ${end} drop 1 m\n`).join('')}  terminator\n}`,
    ),
    ...[...plan.lines, ...plan.cords].map(([a, b]) => `link ${a} -- ${b}`),
    ...plan.prefers.map(({ signal, from }) => `prefer ${signal} from ${from.join(', ')}`),
    ...plan.needs.map(({ device, signal }) => `need ${device} hear ${signal}`),
    '',
  ].join('\n');
}
