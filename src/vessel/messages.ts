/** Which messages bring a signal: what a port sends of it, and what a gateway makes of that. */
import type { Medium, Model, Passing, Port, Vessel } from './model.js';
import { pgnOf } from './pgns/pgns.js';
import { kindOf, sentence } from './serial.js';
import { carriageOf, covers, meet } from './signals.js';

/** A message that brings a signal: a sentence's formatter, or a parameter group's number as text. */
export interface Sent {
  readonly message: string;
  /** Undefined where nothing says how often. */
  readonly hertz: number | undefined;
}

export interface Sending {
  readonly sent: readonly Sent[];
  /** What is not known of it, where nothing of the signal is known to be sent; null where all is known. */
  readonly doubt: string | null;
}

/** How often a message of NMEA 2000 is usually sent: as the bundled library says, else the open table of messages. */
function usualRate(vessel: Vessel, message: string): number | undefined {
  for (const entry of Object.values(vessel.signals))
    if (entry.hertz !== undefined && String(entry.pgn) === message) return entry.hertz;
  const interval = pgnOf(message)?.intervalSeconds;
  return interval === undefined ? undefined : 1 / interval;
}

/** The rate that a model states for a signal, or for one that has to do with it. */
export function statedRate(model: Model | undefined, signal: string): number | undefined {
  const given = model?.gives.filter((give) => meet(give.signal, signal)) ?? [];
  return (given.find((give) => give.signal === signal) ?? given[0])?.hertz;
}

/** Whether a message on a bus of some medium brings a signal. */
export function brings(vessel: Vessel, medium: Medium, message: string, signal: string): boolean {
  const carriage = carriageOf(vessel, signal);
  if (medium === 'nmea0183') {
    if (carriage?.sentences.includes(message)) return true;
    return sentence(message)?.carries.some((carried) => covers(signal, carried)) ?? false;
  }
  if (carriage?.pgns.some((pgn) => String(pgn) === message)) return true;
  return Object.values(vessel.signals).some(
    (entry) => entry.pgn !== undefined && String(entry.pgn) === message && covers(signal, entry.name),
  );
}

/** What a port sends of a signal of its own device: of what it states to send, else the signal's usual messages. */
export function sending(vessel: Vessel, model: Model, port: Port, signal: string): Sending {
  const stated = statedRate(model, signal);
  const serial = port.medium === 'nmea0183';
  if (port.sends.length > 0) {
    const sent = port.sends
      .filter(({ message }) => brings(vessel, port.medium, message, signal))
      .map(({ message, hertz }) => ({
        message,
        hertz: hertz ?? stated ?? (serial ? undefined : usualRate(vessel, message)),
      }));
    const odd = serial
      ? port.sends.find(({ message }) => kindOf(message) === 'proprietary' || kindOf(message) === 'unlisted')
      : undefined;
    const doubt =
      sent.length === 0 && odd !== undefined
        ? `what sentence ${odd.message} of ${model.name} brings is not known`
        : null;
    return { sent, doubt };
  }
  const carriage = carriageOf(vessel, signal);
  const messages = serial ? (carriage?.sentences ?? []) : (carriage?.pgns ?? []).map(String);
  const sent = [...new Set(messages)].map((message) => ({
    message,
    hertz: stated ?? (serial ? undefined : usualRate(vessel, message)),
  }));
  return { sent, doubt: null };
}

/** What a gateway lets through of a signal's messages, as they leave it. */
export function passed(
  vessel: Vessel,
  passing: Passing,
  from: Medium,
  to: Port,
  signal: string,
  sent: readonly Sent[],
): readonly Sent[] {
  const { filter } = passing;
  const listed = (message: string): boolean => filter?.messages.includes(message) ?? false;
  const turn = (messages: readonly Sent[]): readonly Sent[] => turned(vessel, from, to, signal, messages);
  if (filter === undefined) return turn(sent);
  if (filter.kind === 'without')
    return turn(sent.filter((one) => !listed(one.message))).filter((one) => !listed(one.message));
  const out = turn(sent).filter((one) => listed(one.message));
  const named = turn(sent.filter((one) => listed(one.message)));
  return [...named, ...out.filter((one) => named.every((other) => other.message !== one.message))];
}

/** Messages as they leave a port: their own on the same medium, the signal's usual ones on the other; only what the port states. */
function turned(
  vessel: Vessel,
  from: Medium,
  to: Port,
  signal: string,
  sent: readonly Sent[],
): readonly Sent[] {
  if (sent.length === 0) return [];
  const states = (message: string): { readonly hertz: number | undefined } | undefined =>
    to.sends.find((one) => one.message === message);
  if (from === to.medium) {
    return to.sends.length === 0
      ? sent
      : sent.flatMap((one) => {
          const stated = states(one.message);
          return stated === undefined
            ? []
            : [{ message: one.message, hertz: slower(one.hertz, stated.hertz) }];
        });
  }
  const rates = ratesOf(sent);
  if (to.sends.length > 0) {
    return to.sends
      .filter(({ message }) => brings(vessel, to.medium, message, signal))
      .flatMap((one) => rates.map((hertz) => ({ message: one.message, hertz: slower(hertz, one.hertz) })));
  }
  const carriage = carriageOf(vessel, signal);
  const messages =
    to.medium === 'nmea0183' ? (carriage?.sentences ?? []) : (carriage?.pgns ?? []).map(String);
  return [...new Set(messages)].flatMap((message) => rates.map((hertz) => ({ message, hertz })));
}

/** The rates at which a signal comes by some messages: the fastest that is known, and undefined where one of them is not. */
function ratesOf(sent: readonly Sent[]): readonly (number | undefined)[] {
  const known = sent.flatMap(({ hertz }) => hertz ?? []);
  return [
    ...(known.length > 0 ? [Math.max(...known)] : []),
    ...(known.length < sent.length ? [undefined] : []),
  ];
}

/** The slower of the rate that comes in and the one that is stated; what is not stated slows nothing. */
function slower(hertz: number | undefined, stated: number | undefined): number | undefined {
  if (stated === undefined) return hertz;
  return hertz === undefined ? undefined : Math.min(hertz, stated);
}
