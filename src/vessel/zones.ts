import type { Zone } from './model.js';

/** From bow to stern as declared; where two places both say how far aft they are, that wins. */
export function bowToStern(zones: readonly Zone[]): Zone[] {
  const sorted: Zone[] = [];
  for (const zone of zones) {
    let at = sorted.length;
    if (zone.aftMetres !== undefined)
      for (let i = sorted.length - 1; i >= 0; i--) {
        const aft = sorted[i]?.aftMetres;
        if (aft !== undefined && aft > zone.aftMetres) at = i;
      }
    sorted.splice(at, 0, zone);
  }
  return sorted;
}
