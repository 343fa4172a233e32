/** What the wiring of a vessel comes to: which port every connection really uses. Plain data; see resolve.ts. */
import type { End, Medium, Port } from '../../vessel/model.js';
import type { Spot } from '../../vessel/origin.js';
import type { PortOfDevice, PortUse, WiredBackbone, WiredFeed, WiredLink } from '../analysis.js';

/**
 * `made`: both ports are known and free for it. `open`: something is unresolved or to be named, so that nothing may be
 * concluded from its absence. `refused`: it cannot be made as written.
 */
export type LinkState = 'made' | 'open' | 'refused';

export interface ResolvedLink extends WiredLink {
  readonly state: LinkState;
  /** Why it cannot be made, where it cannot. */
  readonly refusal: 'medium' | 'direction' | 'taken' | 'none-free' | undefined;
  /** Stable identity from the two ends: `hub.1--plotter.net1`. */
  readonly id: string;
}

/** Something that is wrong with a connection; the rules word it. */
export type Problem =
  | {
      readonly kind: 'medium';
      readonly at: Spot;
      readonly why:
        'different' | 'no-fit' | 'not-by-link' | 'cable' | 'not-dc' | 'no-dc' | 'no-bus' | 'alternative';
      readonly a: string;
      readonly b: string;
      readonly aMedium?: Medium | undefined;
      readonly bMedium?: Medium | undefined;
      /** Names of a maker's own plugs. */
      readonly aPlug?: string | undefined;
      readonly bPlug?: string | undefined;
      readonly cable?: string | undefined;
      readonly model?: string | undefined;
    }
  | {
      readonly kind: 'direction';
      readonly at: Spot;
      readonly why:
        | 'talkers'
        | 'listeners'
        | 'transducers'
        | 'sounders'
        | 'outputs'
        | 'inputs'
        | 'from-input'
        | 'to-output';
      readonly a: string;
      readonly b: string;
    }
  | {
      readonly kind: 'taken';
      readonly at: Spot;
      readonly device: string;
      readonly port: Port;
      readonly by: string;
      readonly bySpot: Spot;
    }
  | {
      readonly kind: 'none-free';
      readonly at: Spot;
      readonly device: string;
      readonly ports: readonly Port[];
      readonly by: readonly string[];
    }
  | {
      readonly kind: 'which';
      readonly at: Spot;
      readonly device: string;
      readonly ports: readonly Port[];
      /** The alternative in which it does not settle, where the base does. */
      readonly model: string | undefined;
      /** What the end says now. */
      readonly end: End;
    };

export interface Wiring {
  readonly links: readonly ResolvedLink[];
  readonly feeds: readonly WiredFeed[];
  readonly backbones: readonly WiredBackbone[];
  readonly ports: readonly PortUse[];
  readonly problems: readonly Problem[];
  /** What is on a port of a device. */
  readonly useOf: (device: string, port: string) => PortUse['on'];
  /** Links at a device, made ones and others. */
  readonly linksAt: (device: string) => readonly ResolvedLink[];
}

/** An end as text. */
export function endText(end: End): string {
  return end.device === undefined
    ? 'something undeclared'
    : end.port === undefined
      ? end.device
      : `${end.device}.${end.port}`;
}

/** A port as text. */
export function portText(at: PortOfDevice): string {
  return `${at.device}.${at.port.name}`;
}
