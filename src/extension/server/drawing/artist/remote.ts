/**
 * Draws in a thread. The thread analyses for itself what it is given: an analysis has functions in it, and cannot be sent. It keeps the
 * last few, so that what a source reaches is asked about without sending the boat again.
 */
import type { DrawingFile } from '../../../../documents/formats/files.js';
import type { Origin } from '../../../../vessel/origin.js';
import type { DrawnDrift, Reach } from '../protocol.js';
import type { Artist, Drawn, Standing, Subject, Title, Wanted } from './artist.js';

/** What is to be done. */
export type Work =
  | { readonly kind: 'draw'; readonly title: Title; readonly places: Standing }
  | { readonly kind: 'reach'; readonly origin: Origin }
  | { readonly kind: 'drift'; readonly places: Standing }
  | { readonly kind: 'write'; readonly title: Title; readonly wanted: Wanted; readonly places: Standing };

/** To the thread. The subject's data goes along unless the thread should have it. */
export interface Job {
  readonly job: number;
  readonly subject: number;
  readonly data: Pick<Subject, 'vessel' | 'judged'> | undefined;
  readonly work: Work;
}

/** From the thread. `missing`: it no longer has the subject. */
export type Done = { readonly job: number } & (
  { readonly result: unknown } | { readonly missing: true } | { readonly fault: string }
);

/** The other end of a thread. */
export interface Thread {
  readonly send: (job: Job) => void;
  /** `done` for each answer; `lost` once if the thread ends. */
  readonly listen: (done: (answer: Done) => void, lost: (reason: Error) => void) => void;
}

/** The work itself failed: another would fail as well. */
class WorkFault extends Error {}

interface Waiting {
  readonly resolve: (answer: Done) => void;
  readonly reject: (reason: Error) => void;
}

/**
 * @param start - Starts the thread when something is to be drawn for the first time.
 * @param instead - Who draws if it cannot be started, or ends.
 * @param tell - Is told when that happens.
 */
export function remoteArtist(
  start: () => Promise<Thread>,
  instead: Artist,
  tell: (reason: string) => void = () => undefined,
): Artist {
  const waiting = new Map<number, Waiting>();
  const numbers = new WeakMap<Subject, number>();
  const sent = new Set<number>();
  let jobs = 0;
  let subjects = 0;
  let thread: Promise<Thread> | undefined;
  let lost = false;

  const lose = (reason: Error): void => {
    if (!lost) tell(`The server draws itself from now on: ${reason.message}`);
    lost = true;
    for (const { reject } of waiting.values()) reject(reason);
    waiting.clear();
  };
  const started = (): Promise<Thread> =>
    (thread ??= start().then((one) => {
      one.listen((answer) => {
        const asked = waiting.get(answer.job);
        waiting.delete(answer.job);
        asked?.resolve(answer);
      }, lose);
      return one;
    }));
  const ask = async (subject: Subject, work: Work): Promise<unknown> => {
    const number = numbers.get(subject) ?? (subjects += 1);
    numbers.set(subject, number);
    const to = await started();
    for (;;) {
      if (lost) throw new Error('The thread is lost.');
      const { vessel, judged } = subject;
      const data = sent.has(number) ? undefined : { vessel, judged };
      sent.add(number);
      const job = (jobs += 1);
      const answer = await new Promise<Done>((resolve, reject) => {
        waiting.set(job, { resolve, reject });
        to.send({ job, subject: number, data, work });
      });
      if ('fault' in answer) throw new WorkFault(answer.fault);
      if ('result' in answer) return answer.result;
      sent.delete(number);
    }
  };
  /** By the thread, and if that is lost by another. */
  const either = async <T>(subject: Subject, work: Work, other: () => Promise<T>): Promise<T> => {
    if (lost) return other();
    try {
      return (await ask(subject, work)) as T;
    } catch (error) {
      if (error instanceof WorkFault) throw error;
      lose(error instanceof Error ? error : new Error(String(error)));
      return other();
    }
  };
  return {
    get blocks() {
      return lost && instead.blocks;
    },
    draw: (subject, title, places) =>
      either<Drawn>(subject, { kind: 'draw', title, places }, () => instead.draw(subject, title, places)),
    reach: (subject, origin) =>
      either<Reach | undefined>(subject, { kind: 'reach', origin }, () => instead.reach(subject, origin)),
    drift: (subject, places) =>
      either<readonly DrawnDrift[]>(subject, { kind: 'drift', places }, () => instead.drift(subject, places)),
    write: (subject, title, wanted, places) =>
      either<readonly DrawingFile[] | undefined>(subject, { kind: 'write', title, wanted, places }, () =>
        instead.write(subject, title, wanted, places),
      ),
  };
}
