/** Draws in the server itself: where no thread can be had, and in tests. */
import type { HeavyWriters } from '../../../../documents/formats/files.js';
import { reachOf } from '../reach.js';
import { isHeavy, type Artist } from './artist.js';
import { drawn, drift, written } from './work.js';

/** @param load - What PDF and PNG need; where it is left out, they cannot be written. */
export function inlineArtist(load?: () => Promise<HeavyWriters>): Artist {
  return {
    blocks: true,
    draw: async (subject, title, places) => Promise.resolve(drawn(subject.analysis(), title, places)),
    reach: async (subject, origin) => Promise.resolve(reachOf(subject.analysis(), origin)),
    drift: (subject, places) => drift(subject.analysis(), places),
    write: async (subject, title, wanted, places) =>
      isHeavy(wanted.format) && load === undefined
        ? undefined
        : written(
            subject.analysis(),
            title,
            wanted,
            places,
            load ?? (() => Promise.reject(new Error('no writers'))),
          ),
  };
}
