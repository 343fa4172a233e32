/** What a half-typed model says of its own ports. */
import { partsOf, textOf, type Part } from './reading/parts.js';
import { LARGEST_PORT_RANGE } from '../../parsing/limits.js';

export interface PortWritten {
  readonly name: string;
  readonly medium: string;
  /** The keywords of its features. */
  readonly features: readonly string[];
}

/** The ports of a model as far as they are written; a range is written out. */
export function portsWritten(model: Part): PortWritten[] {
  return partsOf(model, 'properties')
    .filter((part) => part.type === 'PortDecl')
    .flatMap((port) => {
      const medium = textOf(port, 'medium') ?? '';
      const features = partsOf(port, 'features').flatMap((feature) => feature.first?.text ?? []);
      return partsOf(port, 'items')
        .flatMap(namesOf)
        .map((name) => ({ name, medium, features }));
    });
}

function namesOf(item: Part): string[] {
  const name = textOf(item, 'name');
  if (name !== undefined) return name === '' ? [] : [name];
  const first = Number(textOf(item, 'first'));
  const last = Number(textOf(item, 'last') ?? first);
  if (!Number.isInteger(first) || !Number.isInteger(last) || last - first >= LARGEST_PORT_RANGE) return [];
  return Array.from({ length: Math.max(0, last - first + 1) }, (_, i) => String(first + i));
}

/** Media whose messages a gateway passes. */
export const isBus = (medium: string): boolean => medium === 'nmea0183' || medium === 'nmea2000';
