/**
 * Plain data as bytes. A thread hands bytes over without a copy, and what is only passed on is never taken apart: of a boat of 500
 * devices the sheets are several megabytes, and the server that keeps them is the one that answers whoever types.
 */
declare const holds: unique symbol;

export type Packed<T> = Uint8Array & { readonly [holds]?: T };

export const pack = <T>(value: T): Packed<T> => new TextEncoder().encode(JSON.stringify(value));

export const unpack = <T>(bytes: Packed<T>): T => JSON.parse(new TextDecoder().decode(bytes)) as T;
