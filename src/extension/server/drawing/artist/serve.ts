/** The thread's own end: analyses what it is sent, draws it, and keeps the last few. */
import { analyse } from '../../../../checks/analyse.js';
import type { Analysis } from '../../../../checks/analysis.js';
import type { Fonts } from '../../../../documents/formats/fonts.js';
import { toPdf } from '../../../../documents/formats/pdf.js';
import { toPng } from '../../../../documents/formats/png/png.js';
import { reachOf } from '../reach.js';
import type { Drawn } from './artist.js';
import type { Done, Job, Work } from './remote.js';
import { drawn, drift, written } from './work.js';

/** Boats of which the analysis is kept: one with some options is one by herself. */
const KEPT = 4;

/**
 * @param answer - Sends an answer back, and hands over the bytes in it.
 * @param fonts - Reads the fonts.
 * @returns What takes the jobs: one after another, but for what would be long to wait for.
 */
export function serveArtist(
  answer: (done: Done, bytes: readonly ArrayBuffer[]) => void,
  fonts: () => Promise<Fonts>,
): (job: Job) => Promise<void> {
  const analyses = new Map<number, Analysis>();
  const load = async (): Promise<{ toPdf: typeof toPdf; toPng: typeof toPng; fonts: Fonts }> => ({
    toPdf,
    toPng,
    fonts: await fonts(),
  });
  const work = async (job: number, analysis: Analysis, given: Work): Promise<void> => {
    switch (given.kind) {
      case 'draw': {
        const result = drawn(analysis, given.title, given.places);
        answer({ job, result }, bytesOf(result));
        return;
      }
      case 'reach':
        answer({ job, result: reachOf(analysis, given.origin) }, []);
        return;
      case 'drift':
        answer({ job, result: await drift(analysis, given.places, othersFirst) }, []);
        return;
      case 'write':
        answer({ job, result: await written(analysis, given.title, given.wanted, given.places, load) }, []);
    }
  };
  return async ({ job, subject, data, work: given }) => {
    try {
      if (data !== undefined) analyses.set(subject, analyse(data.vessel, data.judged));
      const analysis = analyses.get(subject);
      if (analysis === undefined) {
        answer({ job, missing: true }, []);
        return;
      }
      // The one that was used last goes last.
      analyses.delete(subject);
      analyses.set(subject, analysis);
      for (const old of analyses.keys()) if (analyses.size > KEPT) analyses.delete(old);
      await work(job, analysis, given);
    } catch (error) {
      answer({ job, fault: error instanceof Error ? (error.stack ?? error.message) : String(error) }, []);
    }
  };
}

/** Lets in what has been sent meanwhile. */
const othersFirst = (): Promise<void> => new Promise((resolve) => void setTimeout(resolve, 0));

/** All that was packed for this answer alone. */
const bytesOf = ({ sheets, places }: Drawn): readonly ArrayBuffer[] =>
  [places, ...sheets.map(({ picture }) => picture)].flatMap(({ buffer }) =>
    buffer instanceof ArrayBuffer ? [buffer] : [],
  );
