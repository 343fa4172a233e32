/** Verdicts on screens and sources as rows of text, those that differ in a name alone told once. */
import type { ViewAnswer } from '../../../checks/analysis.js';
import { escape, rows } from './card.js';

/** "by the network: plotter → hub → bowScreen; needs hub on", or why not and what would help. */
export function answerText(answer: ViewAnswer): string {
  if (answer.visible === true) {
    const path = answer.path.length > 2 ? `: ${answer.path.join(' → ')}` : '';
    const powered = answer.needsPowered.length > 0 ? `; needs ${answer.needsPowered.join(', ')} on` : '';
    return `${way(answer)}${path}${powered}`;
  }
  const reason = answer.reason ?? answer.verdict;
  return answer.nearest === null ? reason : `${reason}; ${answer.nearest}`;
}

function way(answer: ViewAnswer): string {
  if (answer.source === answer.screen) return 'its own';
  if (answer.by === 'own') return 'plugged into it';
  return answer.by === 'bus' ? 'by the bus' : 'by the network';
}

/** Answers under a heading that gives their verdict; `subject` says in a row what each group of answers is about. */
export function grouped(
  title: string,
  answers: readonly ViewAnswer[],
  subject: (group: readonly ViewAnswer[]) => string,
): string[] {
  const list = groups(answers);
  if (list.length === 0) return [];
  return [
    `**${title}**`,
    ...rows(list.map(({ text, answers: group }) => `${escape(subject(group))}: ${escape(text)}`)),
  ];
}

interface Group {
  readonly text: string;
  readonly answers: readonly ViewAnswer[];
}

/** Answers that say the same once the signal is left out of what they say. */
function groups(answers: readonly ViewAnswer[]): Group[] {
  const byText = new Map<string, ViewAnswer[]>();
  for (const answer of answers) {
    const text = withoutSignal(answerText(answer), answer.signal);
    const list = byText.get(text);
    if (list) list.push(answer);
    else byText.set(text, [answer]);
  }
  return [...byText].map(([text, list]) => {
    const [first] = list;
    return { text: first && list.length === 1 ? answerText(first) : text, answers: list };
  });
}

function withoutSignal(text: string, signal: string): string {
  const word = signal.replace(/[.]/g, '\\.');
  return text.replace(new RegExp(`(?<![\\w.])${word}(?![\\w.])`, 'gu'), 'it');
}

/** "gnss position, course; headingSensor heading". */
export function signalsBySource(answers: readonly ViewAnswer[]): string {
  const bySource = new Map<string, string[]>();
  for (const { source, signal } of answers) {
    const list = bySource.get(source) ?? [];
    if (!list.includes(signal)) list.push(signal);
    bySource.set(source, list);
  }
  return [...bySource].map(([source, signals]) => `${source} ${signals.join(', ')}`).join('; ');
}
