/** What a person types: each edit is done and then undone, so that the boat stays what it was. */
import type { BoatFile } from './boats/boat.js';

export const KINDS = ['white space', 'value', 'name half typed', 'broken line'] as const;
export type Kind = (typeof KINDS)[number];

export interface Edit {
  readonly kind: Kind;
  /** Zero-based place of `before`, which holds no line end. */
  readonly line: number;
  readonly character: number;
  readonly before: string;
  readonly after: string;
}

/**
 * One edit of each kind, around a place that moves through the file with `round`.
 * @throws Error if the file has no place for some kind
 */
export function editsOf(file: BoatFile, round: number): readonly Edit[] {
  const lines = file.text.split('\n');
  const at = (pattern: RegExp): { readonly line: number; readonly match: RegExpExecArray } => {
    const found = lines.flatMap((text, line) => {
      const match = pattern.exec(text);
      return match ? [{ line, match }] : [];
    });
    // A stride that shares no factor with most counts, so that rounds do not fall on the same few places.
    const one = found[(Math.floor(found.length / 2) + round * 37) % found.length];
    if (!one) throw new Error(`${file.path} has no line like ${String(pattern)}`);
    return one;
  };
  const drop = at(/^( {2}tee \w+ drop )(\d+)( m)$/);
  const device = at(/^(device )(\w+)( +: )/);
  const link = at(/^link \w+ -- \w+$|^link .* using SealedNet$/);
  const text = link.match[0];
  return [
    { kind: 'white space', line: link.line, character: 4, before: ' ', after: '   ' },
    {
      kind: 'value',
      line: drop.line,
      character: drop.match[1]?.length ?? 0,
      before: drop.match[2] ?? '',
      // Drops stay within the six metres that a bus allows.
      after: String((Number(drop.match[2]) % 5) + 1),
    },
    {
      kind: 'name half typed',
      line: device.line,
      character: 'device '.length,
      before: device.match[2] ?? '',
      after: (device.match[2] ?? '').slice(0, -1),
    },
    { kind: 'broken line', line: link.line, character: 0, before: text, after: 'link ' },
  ];
}
