/** A boat that leaves choices open: displays of one port, of two and of three, black boxes, and switches of two kinds; all invented. */

export interface Choosing {
  readonly screens: number;
  readonly boxes: number;
  readonly hubs: number;
  readonly zones: number;
  /** Displays of which the spec names two models. */
  readonly open: number;
}

export function choosingBoat({ screens, boxes, hubs, zones, open }: Choosing): string {
  const numbers = (count: number): readonly number[] => Array.from({ length: count }, (_, number) => number);
  const display = (name: string, inches: number, price: number, ports: number): string =>
    `model ${name} : display { families Tern  screen ${inches} in  price ${price} USD  shows chart, sonar  shares chart, sonar  ${
      ports === 1 ? 'port net : ethernet' : `bridges ethernet  port 1..${ports} : ethernet`
    } }`;
  const free = numbers(hubs).map(() => 1);
  const link = (device: string, near: number): string => {
    const hub = near % hubs;
    const port = free[hub] ?? 1;
    free[hub] = port + 1;
    return `link ${device} -- hub${hub}.${port} using Net`;
  };
  return [
    'vessel Boat { currency USD  slack 0.5 m  labour 60 USD per h end 10 min device 30 min }',
    'family Tern',
    display('Small', 8, 899, 1),
    display('Medium', 9, 1190, 2),
    display('Large', 12, 1650, 2),
    display('Huge', 13, 1899, 3),
    'model Box : sonar { families Tern  price 1100 USD  gives sonar.live  port net : ethernet }',
    'model Hub5 : switch { price 420 USD  bridges ethernet  port 1..5 : ethernet }',
    'model Hub8 : switch { price 520 USD  bridges ethernet  port 1..12 : ethernet }',
    'cable Net : ethernet { sealed  stock 2 m at 35 USD, 5 m at 55 USD, 10 m at 80 USD, 15 m at 105 USD }',
    ...numbers(zones).map((zone) => `zone z${zone} interior`),
    ...numbers(zones - 1).map((zone) => `run z${zone} -- z${zone + 1} ${2 + (zone % 3)} m`),
    ...numbers(screens).map(
      (screen) => `device s${screen} : ${screen < open ? 'Small or Medium' : 'Small'} at z${screen % zones}`,
    ),
    ...numbers(boxes).map((box) => `device b${box} : Box at z${(box * 2 + 1) % zones}`),
    ...numbers(hubs).map((hub) => `device hub${hub} : Hub8 at z${Math.min(zones - 1, hub * 2)}`),
    ...numbers(screens).map((screen) => link(`s${screen}`, screen)),
    ...numbers(boxes).map((box) => link(`b${box}`, box)),
    ...numbers(hubs - 1).map((hub) => link(`hub${hub}.${free[hub] ?? 1}`, hub + 1)),
    ...numbers(screens).flatMap((screen) => numbers(boxes).map((box) => `need s${screen} show b${box}`)),
    'need s0 show b0 without s1',
    'need spare 1 ethernet',
  ].join('\n');
}
