/** Thinks of vessels in a thread of its own, so that no edit waits for it. */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { Worker } from 'node:worker_threads';
import type { Thought } from '../../checks/design/thought.js';
import type { Thinker, Thinking } from '../../language/editor/thoughts.js';
import type { Vessel } from '../../vessel/model.js';
import { threadsBeside } from './threads.js';

/** What the thread is sent. */
export interface Asked {
  readonly id: number;
  readonly vessel: Vessel;
  readonly today: string;
  /** Not nought once nobody wants the answer. */
  readonly dropped: Int32Array<SharedArrayBuffer>;
}

/** What it sends back. */
export interface Answered {
  readonly id: number;
  readonly thought: Thought | undefined;
}

/** A thread that failed so often is not started again. */
const MOST_FAILURES = 3;

/**
 * The thread beside the running program, which lies in a folder of `dist`; undefined where it is not installed.
 * @param program the path of the program's file
 */
export function thinkerBeside(program: string): ThreadThinker | undefined {
  const folder = threadsBeside(program);
  const [script, wasm] = [join(folder, 'thinker.cjs'), join(folder, 'highs.wasm')];
  return existsSync(script) && existsSync(wasm) ? new ThreadThinker(script, wasm) : undefined;
}

export class ThreadThinker implements Thinker {
  private worker: Worker | undefined;
  private closed = false;
  private failures = 0;
  private next = 0;
  private readonly waiting = new Map<number, (thought: Thought | undefined) => void>();

  constructor(
    private readonly script: string,
    private readonly wasm: string,
  ) {}

  /** Whether there is a thread. It is started by the first question. */
  get running(): boolean {
    return this.worker !== undefined;
  }

  think(vessel: Vessel, today: string): Thinking {
    const worker = this.started();
    if (worker === undefined) return { answer: Promise.resolve(undefined), drop: () => undefined };
    const id = this.next++;
    const dropped = new Int32Array(new SharedArrayBuffer(Int32Array.BYTES_PER_ELEMENT));
    const answer = new Promise<Thought | undefined>((resolve) => this.waiting.set(id, resolve));
    worker.postMessage({ id, vessel, today, dropped } satisfies Asked);
    return {
      answer,
      drop: () => {
        Atomics.store(dropped, 0, 1);
        this.answer({ id, thought: undefined });
      },
    };
  }

  close(): void {
    this.closed = true;
    this.end();
  }

  private started(): Worker | undefined {
    if (this.closed || this.failures >= MOST_FAILURES) return undefined;
    if (this.worker === undefined) {
      const worker = new Worker(this.script, { workerData: { wasm: this.wasm } });
      // Nobody waits for it to end.
      worker.unref();
      worker.on('message', (answered: Answered) => {
        this.answer(answered);
      });
      worker.on('error', () => {
        this.failures++;
      });
      worker.on('exit', () => {
        if (this.worker === worker) this.end();
      });
      this.worker = worker;
    }
    return this.worker;
  }

  private answer({ id, thought }: Answered): void {
    this.waiting.get(id)?.(thought);
    this.waiting.delete(id);
  }

  private end(): void {
    const worker = this.worker;
    this.worker = undefined;
    for (const id of [...this.waiting.keys()]) this.answer({ id, thought: undefined });
    void worker?.terminate();
  }
}
