/**
 * What may change aboard to make the ethernet of a boat cheaper, as plain data: sites with the models that may stand there, and
 * the cables that may join them. The program that is solved is made of this alone.
 */
import type { Cable, Device, Link, Model, Need } from '../../vessel/model.js';
import type { RoutedCable } from '../cables/cables.js';

/** A model that may stand at a site. */
export interface Candidate {
  readonly model: Model;
  /** What one costs, mounting included, in the vessel's currency; nought for what is aboard already. */
  readonly cost: number;
  /** How many cables of the network it can hold: one where it does not pass traffic on. */
  readonly holds: number;
  /** Ethernet ports that are free before any of the network's cables. */
  readonly ports: number;
  /** The model that the spec names now. */
  readonly present: boolean;
}

/** A place in the network. */
export interface Site {
  /** The device; of a switch that is not there yet, the name it would get. */
  readonly name: string;
  /** `needed` has to be on the network, `switch` may be taken out, `new` may be put in. */
  readonly kind: 'needed' | 'switch' | 'new';
  /** Networks are numbered; only sites of one are joined. */
  readonly network: number;
  readonly zone: string | undefined;
  /** The present model first, where there is one. */
  readonly candidates: readonly Candidate[];
}

/** A cable that may lie between two sites. */
export interface Edge {
  /** Numbers of the sites, the smaller first. */
  readonly a: number;
  readonly b: number;
  /** The cable to buy; undefined where none is, or where the link is there already. */
  readonly cable: Cable | undefined;
  /** What it costs, both ends made up. */
  readonly cost: number;
  /** The link that is there now. */
  readonly present: RoutedCable | undefined;
  /** It stays whatever else changes: it is aboard already, passes a gland, or somebody said to keep it. */
  readonly fixed: boolean;
}

/** A device off the network of which several models are open. */
export interface OpenChoice {
  readonly device: Device;
  readonly candidates: readonly Candidate[];
}

/** A screen that has to be reached from what hosts a source, also with some devices off. */
export interface Reach {
  readonly need: Need;
  /** Numbers of sites. */
  readonly from: number;
  readonly to: number;
  readonly off: ReadonlySet<number>;
}

/** Ports of some sites that have to stay free. */
export interface Spare {
  readonly need: Need;
  readonly sites: readonly number[];
  readonly count: number;
}

export interface Problem {
  readonly sites: readonly Site[];
  readonly edges: readonly Edge[];
  readonly choices: readonly OpenChoice[];
  readonly reaches: readonly Reach[];
  readonly spares: readonly Spare[];
  /** Links that an answer leaves out if they are not among its edges. */
  readonly pluggable: readonly Link[];
  /** Ways of panels that could feed a new switch, in the order they would be used. */
  readonly ways: readonly string[];
  /** What has no price and is therefore in no total. */
  readonly unpriced: readonly string[];
}
