/** A direct-current network as the solver takes it: nodes by name, both conductors drawn out. Plain data in SI units. */

/** A conductor, a contact, a fuse: anything with resistance alone. */
export interface Branch {
  readonly id: string;
  readonly a: string;
  readonly b: string;
  /** Zero joins its ends. */
  readonly ohms: number;
  /** Conducts from `a` to `b` alone, as a splitter's diode or an isolator does. */
  readonly oneWay?: boolean;
}

/** A battery or a charging source: an electromotive force behind its internal resistance. */
export interface Source {
  readonly id: string;
  readonly plus: string;
  readonly minus: string;
  readonly volts: number;
  readonly ohms: number;
}

/** What draws: a constant current in amperes, or a constant power in watts. */
export interface Load {
  readonly id: string;
  readonly plus: string;
  readonly minus: string;
  readonly kind: 'current' | 'power';
  readonly amount: number;
}

export interface Circuit {
  readonly branches: readonly Branch[];
  readonly sources: readonly Source[];
  readonly loads: readonly Load[];
}

/** The circuit came to rest. */
export interface Solved {
  readonly kind: 'solved';
  /** Volts over the reference of the node's island: the negative of its first source. */
  readonly volts: ReadonlyMap<string, number>;
  /** Amperes from `a` to `b`; branches without resistance, which join their ends, have none of their own. */
  readonly branchAmps: ReadonlyMap<string, number>;
  /** Amperes out of the plus of each source. */
  readonly sourceAmps: ReadonlyMap<string, number>;
  readonly loadAmps: ReadonlyMap<string, number>;
  readonly loadVolts: ReadonlyMap<string, number>;
  /** Loads on islands without a source: nothing supplies them. */
  readonly unsupplied: readonly string[];
  readonly rounds: number;
}

/** There is no voltage at which every load gets its power. */
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
