/** Hover on a gateway or multiplexer: what it passes and holds back, by its model and as things stand aboard. */
import type { Analysis } from '../../../checks/analysis.js';
import type { Model, Passing } from '../../../vessel/model.js';
import { pgnOf } from '../../../vessel/pgns/pgns.js';
import { sentence } from '../../../vessel/serial.js';
import { number } from '../../../vessel/words.js';
import { escape, rows } from './card.js';

/** A message at a port, with who sent it first. */
interface AtPort {
  readonly message: string;
  readonly from: string;
  readonly hertz: number | undefined;
}

export function gatewayLines(device: string, model: Model, analysis: Analysis): string[] {
  if (model.passes.length === 0)
    return model.class === 'gateway' ? ['Its model does not say what it passes.'] : [];
  const forwarded = model.passes.flatMap(({ to }) =>
    sentAt(device, to, analysis).map((one) => ({ port: to, ...one })),
  );
  const held = model.passes.flatMap((passing) =>
    passing.from.flatMap((port) => {
      const same = mediumOf(model, port) === mediumOf(model, passing.to);
      return heardAt(device, port, analysis)
        .filter(({ message }) => isHeld(passing, message, same))
        .map((one) => ({ port, ...one }));
    }),
  );
  const served = analysis
    .data()
    .flatMap((want) =>
      want.supplies
        .filter(({ path }) => path.slice(1, -1).includes(device))
        .map(({ source }) => `${want.signal} of ${source} to ${want.device}`),
    );
  return [
    ...titled('Passes', model.passes.map(passingText)),
    ...titled('Sends now', unique(forwarded.map(atPortText))),
    ...titled('Holds back now', unique(held.map(atPortText))),
    ...titled('Brings', unique(served)),
  ];
}

const mediumOf = (model: Model, port: string): string | undefined =>
  model.ports.find(({ name }) => name === port)?.medium;

function passingText({ from, to, filter }: Passing): string {
  const what =
    filter === undefined
      ? 'all'
      : `${filter.kind === 'with' ? 'only' : 'all but'} ${filter.messages.map(named).join(', ')}`;
  return `${from.join(', ')} → ${to}: ${what}`;
}

/**
 * Whether a message that comes in is held back for certain. What leaves on the other medium has another name there, by which
 * a list of what is passed may mean it.
 */
function isHeld({ filter }: Passing, message: string, same: boolean): boolean {
  if (filter === undefined) return false;
  const listed = filter.messages.includes(message);
  return filter.kind === 'without' ? listed : same && !listed;
}

/** What a port sends: on its backbone, or on its line. */
function sentAt(device: string, port: string, analysis: Analysis): readonly AtPort[] {
  const line = analysis.lines.find(({ id }) => id === `${device}.${port}`);
  if (line !== undefined)
    return line.sentences.map(({ formatter, from, hertz }) => ({ message: formatter, from, hertz }));
  return onBackbone(device, port, analysis).filter(({ by }) => by === device);
}

/** What comes in at a port. */
function heardAt(device: string, port: string, analysis: Analysis): readonly AtPort[] {
  const lines = analysis.lines.filter(({ listeners }) =>
    listeners.some((one) => one.device === device && one.port.name === port),
  );
  return [
    ...lines.flatMap(({ sentences }) =>
      sentences.map(({ formatter, from, hertz }) => ({ message: formatter, from, hertz })),
    ),
    ...onBackbone(device, port, analysis).filter(({ by }) => by !== device),
  ];
}

function onBackbone(
  device: string,
  port: string,
  analysis: Analysis,
): readonly (AtPort & { readonly by: string })[] {
  const wired = analysis.backbones.find(({ members }) =>
    members.some((one) => one.device === device && one.port?.name === port),
  );
  const traffic = analysis.buses.find(({ bus }) => bus.name === wired?.backbone.name)?.traffic();
  return (traffic?.messages ?? []).map(({ pgn, name, device: from, hertz, by }) => ({
    message: pgn === undefined ? name : String(pgn),
    from,
    hertz,
    by,
  }));
}

function named(message: string): string {
  const title = pgnOf(message)?.name ?? sentence(message)?.title;
  return title === undefined ? message : `${message} (${title})`;
}

const atPortText = ({ port, message, from, hertz }: AtPort & { readonly port: string }): string =>
  `${port}: ${named(message)} of ${from}${hertz === undefined ? '' : `, ${number(hertz, 2)} Hz`}`;

const unique = (list: readonly string[]): readonly string[] => [...new Set(list)];

const titled = (title: string, list: readonly string[]): string[] =>
  list.length === 0 ? [] : [`**${title}**`, ...rows(list.map(escape))];
