/** Inside a model: its own ports, the media it bridges, and the messages of its ports. */
import { isProprietary, pgnOf, pgns } from '../../../../vessel/pgns/pgns.js';
import { SENTENCES } from '../../../../vessel/sentences.js';
import { sentence } from '../../../../vessel/serial.js';
import { joined } from '../details.js';
import { isBus, portsWritten, type PortWritten } from '../written.js';
import type { Boat } from '../boat.js';
import { around, type Place } from '../place.js';
import { textOf, textsOf } from '../reading/parts.js';
import { kinds, type Suggestion } from '../suggestion.js';
import { written, type Offer } from './offer.js';
import { mediaItems } from './words.js';

function ownPorts(place: Place): readonly PortWritten[] {
  const model = around(place, 'ModelDecl');
  return model ? portsWritten(place.whole(model)) : [];
}

const portItem = ({ name, medium, features }: PortWritten): Suggestion => ({
  label: name,
  kind: kinds.port,
  detail: [medium, ...features].join(', '),
});

/** The model's ports that data comes in by, or goes out by. */
export const passing: Offer = (place) => {
  const against = place.property === 'from' ? 'talks' : 'listens';
  const along = place.property === 'from' ? 'listens' : 'talks';
  const there = written(place, place.part, 'from');
  return ownPorts(place)
    .filter(({ medium }) => isBus(medium))
    .filter(({ features }) => !features.includes(against) || features.includes(along))
    .filter(({ name }) => !there.has(name))
    .map(portItem);
};

/** The model's dc ports that a position does not join yet. */
export const joining: Offer = (place) => {
  const there = written(place);
  return ownPorts(place)
    .filter(({ name, medium }) => medium === 'dc' && !there.has(name))
    .map(portItem);
};

/** Media of two or more ports of the model. */
export const bridged: Offer = (place, boat) => {
  const there = written(place);
  const media = ownPorts(place).map(({ medium }) => medium);
  const fits = (name: string): boolean => !there.has(name) && (media.length === 0 || media.includes(name));
  return mediaItems(boat, fits);
};

/** Sentences for NMEA 0183 and parameter group numbers for NMEA 2000, with their names and the signals that travel as them. */
export const messages: Offer = (place, boat) => {
  const media = mediaOfMessages(place);
  const there = written(place);
  return messagesOf(boat)
    .filter(({ message, isSentence }) => {
      const fits = media.size === 0 || media.has(isSentence ? 'nmea0183' : 'nmea2000');
      return fits && !there.has(message);
    })
    .map(({ message, signals }) => {
      const name = pgnOf(message)?.name ?? sentence(message)?.title;
      return {
        label: message,
        kind: kinds.value,
        detail: joined(name, signals.join(', ')),
        rank: signals.length > 0 ? 0 : 1,
      };
    });
};

/** The media of the port that sends, or of the ports that are passed between. */
function mediaOfMessages(place: Place): ReadonlySet<string> {
  const port = around(place, 'PortDecl');
  if (port) return new Set([textOf(port, 'medium') ?? '']);
  const passed = new Set([...textsOf(place.part, 'from'), ...textsOf(place.part, 'to')]);
  return new Set(ownPorts(place).flatMap(({ name, medium }) => (passed.has(name) ? [medium] : [])));
}

interface Message {
  readonly message: string;
  readonly isSentence: boolean;
  readonly signals: readonly string[];
}

function messagesOf(boat: Boat): Message[] {
  const found = new Map<string, Message>();
  for (const [name, node] of boat.declared('SignalDecl'))
    for (const property of node.properties) {
      const isSentence = property.$type === 'SentenceProperty';
      const message = isSentence ? property.sentence : property.pgn;
      if (message === undefined) continue;
      const signals = [...(found.get(message)?.signals ?? []), name];
      found.set(message, { message, isSentence, signals });
    }
  for (const [message, { carries }] of Object.entries(SENTENCES)) {
    const signals = [...new Set([...(found.get(message)?.signals ?? []), ...carries])];
    found.set(message, { message, isSentence: true, signals });
  }
  for (const pgn of pgns().keys()) {
    const message = String(pgn);
    if (!isProprietary(pgn) && !found.has(message))
      found.set(message, { message, isSentence: false, signals: [] });
  }
  return [...found.values()].sort((a, b) => (a.message < b.message ? -1 : 1));
}
