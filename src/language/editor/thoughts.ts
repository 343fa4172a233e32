/** What was worked out of vessels in the background, and when that is done again: once nobody has typed for a while. */
import { DocumentState } from 'langium';
import type { Analysis } from '../../checks/analysis.js';
import type { Thought } from '../../checks/design/thought.js';
import type { Vessel } from '../../vessel/model.js';
import type { VesselAnalysis } from '../analysis/analyses.js';
import type { EditorSharedServices } from './module.js';

/** Somebody who thinks while others go on: another thread. Only a face that can start one has it. */
export interface Thinker {
  readonly think: (vessel: Vessel, today: string) => Thinking;
  /** Ends the thread; nothing is answered from then on. */
  readonly close: () => void;
}

export interface Thinking {
  /** Undefined where it was dropped, or failed. */
  readonly answer: Promise<Thought | undefined>;
  /** Nobody wants it any more. */
  readonly drop: () => void;
}

/** How long nobody has to have typed, in ms: longer than for options, since it takes a processor for itself. */
const IDLE_MILLISECONDS = 1000;

export class Thoughts {
  private readonly kept = new Map<string, { readonly of: Analysis; readonly thought: Thought }>();

  /** What was last thought of a vessel. It is of an older text where it is not `current`: then it may be shown, and not be carried out. */
  last(found: VesselAnalysis): { readonly thought: Thought; readonly current: boolean } | undefined {
    const kept = this.kept.get(found.closure.root);
    return kept && { thought: kept.thought, current: kept.of === found.analysis };
  }

  keep(found: VesselAnalysis, thought: Thought): void {
    this.kept.set(found.closure.root, { of: found.analysis, thought });
  }

  forget(root: string): void {
    this.kept.delete(root);
  }
}

/** Thinks of each vessel that has a file open, one after the other, and tells of what is new. Every change of a text drops it. */
export function thinkWhenIdle(
  shared: EditorSharedServices,
  thinker: Thinker,
  told: (root: string) => Promise<void>,
): void {
  const { DocumentBuilder: builder, WorkspaceLock: lock, TextDocuments: open } = shared.workspace;
  const { Closures: closures } = shared.naming;
  const { Analyses: analyses } = shared.analysis;
  const { Thoughts: thoughts } = shared.editor;
  let timer: ReturnType<typeof setTimeout> | undefined;
  let thinking: Thinking | undefined;
  let round = 0;
  const stop = (): number => {
    clearTimeout(timer);
    thinking?.drop();
    thinking = undefined;
    return ++round;
  };
  const isOpen = (root: string): boolean =>
    closures.closureOf(root)?.documents.some(({ uri }) => open.get(uri) !== undefined) === true;
  const work = async (mine: number): Promise<void> => {
    const wanted: VesselAnalysis[] = [];
    await lock.read(() => {
      if (mine !== round) return;
      for (const root of closures.vesselFiles().filter(isOpen)) {
        const found = analyses.of(root);
        if (found && thoughts.last(found)?.current !== true) wanted.push(found);
      }
    });
    for (const found of wanted) {
      if (mine !== round) return;
      const job = thinker.think(found.analysis.vessel, analyses.today());
      thinking = job;
      const thought = await job.answer;
      if (mine !== round || thought === undefined) continue;
      thoughts.keep(found, thought);
      await lock.read(() => (mine === round ? told(found.closure.root) : undefined));
    }
  };
  builder.onUpdate((_, deleted) => {
    stop();
    for (const uri of deleted) thoughts.forget(uri.toString());
  });
  builder.onBuildPhase(DocumentState.Validated, () => {
    const mine = stop();
    timer = setTimeout(() => {
      void work(mine);
    }, IDLE_MILLISECONDS);
    // A process that has nothing else to do may end.
    if (typeof timer === 'object' && 'unref' in timer) timer.unref();
    return Promise.resolve();
  });
}
