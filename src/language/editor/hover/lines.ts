/** Hover on an NMEA 0183 line, at its link and at its ports, and on a sentence by its name. */
import type { Analysis } from '../../../checks/analysis.js';
import { signallingOf, wiresText } from '../../../checks/lines/joining.js';
import type { Line, LineSentence } from '../../../checks/lines/lines.js';
import { portText } from '../../../checks/wiring/wiring.js';
import { capacity, charactersOf, kindOf, sentence, SPEEDS } from '../../../vessel/serial.js';
import { count, number } from '../../../vessel/words.js';
import { bold, escape, rows, type Card } from './card.js';

const percent = (share: number): string => `${number(share * 100, 1)} %`;

/** What a port says on its line, or hears on it. */
export function portLines(port: string, analysis: Analysis): string[] {
  return analysis.lines
    .filter((line) => line.id === port || line.listeners.some((one) => portText(one) === port))
    .flatMap((line) => lineText(line));
}

/** What goes over the line of a link, and which wire of it goes where. */
export function linkLines(origin: string, analysis: Analysis): string[] {
  return analysis.lines.flatMap((line) => {
    const joined = line.listeners.filter((one) => one.link.link.origin === origin);
    if (joined.length === 0) return [];
    const { talker } = line;
    const wires = joined.map((listener) =>
      wiresText(
        portText(talker),
        portText(listener),
        signallingOf(talker.port, listener.port),
        talker.port.serial?.signalling === 'single',
      ),
    );
    return [...lineText(line), ...wires.map((text) => escape(text ?? ''))];
  });
}

function lineText(line: Line): string[] {
  const { id, baud, share, charactersPerSecond, sentences, listeners, units, drives, missing } = line;
  const open = missing.length > 0 ? ', of what is known' : '';
  const full =
    baud === undefined || share === undefined
      ? 'its speed is not said'
      : `${percent(share)} of the ${number(capacity(baud), 0)} that ${baud} bit/s carry${open}`;
  const load = Number.isInteger(units) ? String(units) : number(units, 1);
  return [
    `${bold(id)} sends ${number(charactersPerSecond, 0)} characters a second: ${full}.`,
    `Heard by ${escape(listeners.map(portText).join(', '))}: a load of ${load === '1' ? '1 listener' : `${load} listeners`}${drives === undefined ? '' : `, and it carries ${drives}`}.`,
    ...rows(sentences.map((one) => escape(sentenceText(one)))),
    ...(missing.length > 0 ? ['**Not known**', ...rows(missing.map(escape), 4)] : []),
  ];
}

function sentenceText({ formatter, from, characters, hertz }: LineSentence): string {
  const title = sentence(formatter)?.title;
  return [
    `${formatter}${title === undefined ? '' : ` (${title})`} of ${from}`,
    characters === undefined ? 'length not known' : count(characters, 'character'),
    hertz === undefined ? 'rate not known' : `${number(hertz, 1)} Hz`,
  ].join(', ');
}

/** A sentence by its name; none for a word that cannot name one. */
export function sentenceCard(text: string): Card | undefined {
  const known = sentence(text);
  const characters = charactersOf(text);
  const heading = `sentence ${bold(text)}`;
  if (known === undefined || characters === undefined)
    return kindOf(text) === 'proprietary' ? { heading, lines: ["A maker's own sentence."] } : undefined;
  return {
    heading: `${heading} ${escape(known.title)}`,
    lines: [
      `${count(characters, 'character')} with usual field widths: ${percent(characters / capacity(SPEEDS.standard))} of a line of ${SPEEDS.standard} bit/s for each one a second.`,
      known.carries.length > 0 ? `Brings ${escape(known.carries.join(', '))}.` : '',
    ],
  };
}
