/** A direct-current network as the solver takes it: nodes by name, both conductors drawn out. Plain data in SI units. */

/** A conductor, a contact, a fuse: anything with resistance alone. */
export interface Branch {
  readonly id: string;
  readonly a: string;
  readonly b: string;
  /** Zero (less than a nanoohm) joins its ends. */
  readonly ohms: number;
  /** Conducts from `a` to `b` alone, as a splitter's diode or an isolator does; no forward voltage of its own. */
  readonly oneWay?: boolean;
}

/** A battery or a charging source: an electromotive force behind its internal resistance. */
export interface Source {
  readonly id: string;
  readonly plus: string;
  readonly minus: string;
  readonly volts: number;
  readonly ohms: number;
  /** Holds its voltage up to this current and gives this much below it, as a charger does; takes nothing back. */
  readonly limitAmps?: number;
}

/** What draws: a constant current in amperes, or a constant power in watts. */
export interface Load {
  readonly id: string;
  readonly plus: string;
  readonly minus: string;
  readonly kind: 'current' | 'power';
  readonly amount: number;
  /** Switches itself off below this, and stays off. */
  readonly cutOutVolts?: number;
}

/** What lies between loads and sources. Ids are unique among branches and among sources. */
export interface Wires {
  readonly branches: readonly Branch[];
  readonly sources: readonly Source[];
}

/** Ids are unique among loads too. */
export interface Circuit extends Wires {
  readonly loads: readonly Load[];
}

/** The circuit came to rest. */
export interface Solved {
  readonly kind: 'solved';
  /** Volts over the reference of the node's island: the negative of its first source. Nodes that no source reaches are left out. */
  readonly volts: ReadonlyMap<string, number>;
  /** Amperes from `a` to `b`. Where branches without resistance close a ring, one way round is taken to carry it all. */
  readonly branchAmps: ReadonlyMap<string, number>;
  /** Amperes out of the plus of each source. */
  readonly sourceAmps: ReadonlyMap<string, number>;
  /** Of the loads that are supplied and on. */
  readonly loadAmps: ReadonlyMap<string, number>;
  readonly loadVolts: ReadonlyMap<string, number>;
  /** Loads between whose ends there is no source: nothing supplies them. */
  readonly unsupplied: readonly string[];
  /** Loads that switched themselves off, the first first. */
  readonly cutOut: readonly string[];
  readonly rounds: number;
}

/** There is no voltage at which every load gets what it draws. */
export interface Collapsed {
  readonly kind: 'collapsed';
  /** The loads whose voltage falls away, the worst first. */
  readonly loads: readonly string[];
  readonly rounds: number;
}

/** The circuit is not one that can be solved, and why. */
export interface Refused {
  readonly kind: 'refused';
  readonly reason: string;
}

export type Solution = Solved | Collapsed | Refused;

/** Why wires are none: the first figure that cannot be, by the name of what it belongs to. */
export function faultOf({ branches, sources }: Wires): string | undefined {
  for (const { id, ohms } of branches) {
    if (sound(ohms)) continue;
    return `${id} has a resistance of ${ohms} ohm; it must be zero or more`;
  }
  for (const { id, volts, ohms, limitAmps } of sources) {
    if (!sound(ohms)) return `${id} has an internal resistance of ${ohms} ohm; it must be zero or more`;
    if (!(volts > 0 && volts < MOST)) return `${id} has a voltage of ${volts} V; it must be more than zero`;
    if (limitAmps !== undefined && !sound(limitAmps))
      return `${id} has a limit of ${limitAmps} A; it must be zero or more`;
  }
  return twoOf(branches) ?? twoOf(sources);
}

/** The same of loads. */
export function faultInLoads(loads: readonly Load[]): string | undefined {
  for (const { id, amount, kind, cutOutVolts } of loads) {
    if (!sound(amount))
      return `${id} draws ${amount} ${kind === 'power' ? 'W' : 'A'}; it must be zero or more`;
    if (cutOutVolts !== undefined && !sound(cutOutVolts))
      return `${id} cuts out at ${cutOutVolts} V; it must be zero or more`;
  }
  return twoOf(loads);
}

function twoOf(named: readonly { readonly id: string }[]): string | undefined {
  const seen = new Set<string>();
  for (const { id } of named) {
    if (seen.has(id)) return `there are two of ${id}`;
    seen.add(id);
  }
  return undefined;
}

/** Figures from here on are no boat's, and would leave the range that a number can hold. */
const MOST = 1e12;

const sound = (figure: number): boolean => figure >= 0 && figure < MOST;
