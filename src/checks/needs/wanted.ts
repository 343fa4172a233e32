/** Whether a screen can show what a need or a pane wants. */
import type { Wanted } from '../../vessel/model.js';
import type { Shown, SourceSignal, ViewAnswer } from '../analysis.js';
import type { Sharing } from '../sharing/sharing.js';
import { USER_DATA } from '../sharing/ways.js';

/**
 * A signal from anywhere is shown where some source reaches. A device is shown where all that it stands for reaches; `any`
 * asks for one of its signals only, as a pane does, which holds one picture.
 */
export function shown(
  sharing: Sharing,
  screen: string,
  wanted: Wanted,
  off: ReadonlySet<string>,
  any = false,
): Shown {
  if (wanted.device === undefined) {
    return wanted.signal === undefined
      ? unresolved(wanted)
      : fromAnywhere(sharing, screen, wanted.signal, off);
  }
  const emitted = sharing.standsFor(wanted.device, wanted.signal);
  const [first] = emitted;
  if (first === undefined) {
    const answer = sharing.answer(screen, wanted.device, wanted.signal ?? '', off);
    return { visible: answer.visible, answers: [answer], reason: answer.reason };
  }
  const answers = emitted.map((one) => sharing.answer(screen, one.source, one.signal, off));
  const deciding = any
    ? (answers.find((one) => one.visible === true) ??
      answers.find((one) => one.visible === null) ??
      answers[0])
    : (answers.find((one) => one.visible === false) ??
      answers.find((one) => one.visible === null) ??
      answers[0]);
  return {
    visible: deciding?.visible ?? null,
    answers: any && deciding !== undefined ? [deciding] : answers,
    reason: deciding?.reason ?? null,
  };
}

function unresolved(wanted: Wanted): Shown {
  return { visible: null, answers: [], reason: `${wanted.text} is not declared` };
}

/** The first source that reaches; else the one that came furthest, or an unknown one. */
function fromAnywhere(sharing: Sharing, screen: string, signal: string, off: ReadonlySet<string>): Shown {
  if (USER_DATA.includes(signal)) {
    const built = sharing.answer(screen, screen, signal, off);
    if (built.visible === true) return { visible: true, answers: [built], reason: null };
  }
  let failed: SourceSignal | undefined;
  let open: ViewAnswer | undefined;
  for (const one of sharing.sourcesOf(signal, screen)) {
    if (!sharing.mayReach(screen, one.source, one.signal)) {
      failed ??= one;
      continue;
    }
    const answer = sharing.answer(screen, one.source, one.signal, off);
    if (answer.visible === true) return { visible: true, answers: [answer], reason: null };
    if (answer.visible === null) open ??= answer;
    else failed ??= one;
  }
  const deciding =
    open ?? (failed === undefined ? undefined : sharing.answer(screen, failed.source, failed.signal, off));
  if (deciding === undefined)
    return { visible: false, answers: [], reason: `nothing aboard gives ${signal}` };
  return { visible: deciding.visible, answers: [deciding], reason: deciding.reason };
}
