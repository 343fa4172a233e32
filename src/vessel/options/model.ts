/** What an option changes of a vessel, as plain data with every name resolved as far as the spec allows. */
import type { BackboneItem, End, Vessel, Waiver } from '../model.js';
import type { Origin } from '../origin.js';

/** Lists of a vessel that an option can add to. */
export type Addable =
  | 'zones'
  | 'runs'
  | 'devices'
  | 'links'
  | 'feeds'
  | 'backbones'
  | 'needs'
  | 'modes'
  | 'days'
  | 'views'
  | 'negatives'
  | 'preferences';

export type Additions = Readonly<Pick<Vessel, Addable>>;

/** A tee that goes into a backbone of the boat. */
export interface AddedTee {
  readonly item: BackboneItem & { readonly kind: 'tee' };
  readonly backbone: string;
  /** Beside what on the backbone; undefined for its end, before the last terminator. */
  readonly beside: { readonly place: 'after' | 'before'; readonly device: string } | undefined;
}

export interface VesselOption {
  readonly origin: Origin;
  readonly name: string;
  readonly title: string | undefined;
  readonly doc: string | undefined;
  readonly adds: Additions;
  readonly tees: readonly AddedTee[];
  readonly removedDevices: readonly { readonly origin: Origin; readonly device: string }[];
  readonly removedLinks: readonly { readonly origin: Origin; readonly a: End; readonly b: End }[];
  readonly changes: readonly {
    readonly origin: Origin;
    readonly device: string;
    readonly model: string;
  }[];
  /** Waivers on the option, which cover what it brings, and on what it adds. */
  readonly waivers: readonly Waiver[];
}

/** An edit that does not do what it says. */
export interface OptionFault {
  /** `no-effect`: there is nothing to do it to. `clash`: it contradicts another edit. */
  readonly kind: 'no-effect' | 'clash';
  readonly at: Origin;
  readonly message: string;
  readonly related: readonly { readonly at: Origin; readonly message: string }[];
}
