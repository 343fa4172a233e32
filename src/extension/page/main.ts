/** The page that shows a drawing. It knows nothing but what it is sent, and asks for nothing from anywhere. */
import { kindOf } from '../drawing/groups.js';
import {
  readPageState,
  readToPage,
  type FromPage,
  type PageState,
  type ToPage,
} from '../drawing/messages.js';
import { portAt, readView, type View } from '../drawing/view.js';
import { driftText, reachText } from '../drawing/words.js';
import type { DrawnPort, Reach, SheetName, ShownSheet } from '../server/drawing/protocol.js';
import { pictureOf } from './picture.js';
import { Stage } from './stage.js';
import { Switcher } from './switcher.js';

declare function acquireVsCodeApi(): {
  postMessage(message: FromPage): void;
  getState(): unknown;
  setState(state: unknown): void;
};
const host = acquireVsCodeApi();

function byId<E extends HTMLElement = HTMLElement>(id: string, kind?: new () => E): E {
  const element = document.getElementById(id);
  if (element === null || (kind !== undefined && !(element instanceof kind)))
    throw new Error(`The page has no ${id}.`);
  return element as E;
}
const [note, progress, stageElement] = [byId('note'), byId('progress'), byId('stage')];
const said = byId('said').querySelector('span') ?? byId('said');
const [options, go] = [byId('options'), byId('go')];
/** What there is nothing to do with without a sheet. */
const needing = ['in', 'out', 'fit', 'anew', 'export'].map((id) => byId(id, HTMLButtonElement));

let vessel = '';
let sheets: readonly SheetName[] = [];
/** The sheet that lies on the stage. */
let shown: { readonly id: string; readonly key: string; readonly ports: readonly DrawnPort[] } | undefined;
/** Where the wires go on that leave the sheet, by the ids of what shows it. */
let references: ReadonlyMap<string, string> = new Map();
/** Null for what gives nothing; an element that is not in it has not been pointed at yet. */
const reaches = new Map<string, Reach | null>();
const asked = new Set<string>();
let pointed: SVGGElement | undefined;
let chosen: readonly string[] = [];
let known: ReadonlySet<string> = new Set();
let cursor: { readonly origin: string | null; readonly sheets: readonly string[] } = {
  origin: null,
  sheets: [],
};
/** What is to be brought into sight once its sheet is there. */
let sought: ((group: SVGGElement) => boolean) | undefined;
/** The sheet, and how each one lies, kept over updates and reloads. */
let wanted: string | undefined;
const views = new Map<string, View>();

const kept = host.getState();
if (typeof kept === 'object' && kept !== null) {
  const { sheet, views: given } = kept as Readonly<Record<string, unknown>>;
  chosen = readPageState(kept)?.options ?? [];
  if (typeof sheet === 'string') wanted = sheet;
  for (const [id, value] of Object.entries(typeof given === 'object' && given !== null ? given : {})) {
    const view = readView(value);
    if (view !== undefined) views.set(id, view);
  }
}
function keep(): void {
  const state: PageState = { uri: document.body.dataset['uri'] ?? '', options: chosen };
  host.setState({ ...state, sheet: wanted, views: Object.fromEntries(views) });
}

const stage = new Stage(stageElement, {
  picked: (target, x, y) => {
    const group = groupOf(target);
    if (group !== undefined) pick(group, x, y);
  },
  moved: (view) => {
    if (shown === undefined) return;
    if (view === undefined) views.delete(shown.id);
    else views.set(shown.id, view);
    keep();
  },
});
const switcher = new Switcher(
  {
    tabs: byId('tabs'),
    pages: byId('pages'),
    list: byId('page', HTMLSelectElement),
    before: byId('before', HTMLButtonElement),
    after: byId('after', HTMLButtonElement),
  },
  turn,
);

/** The innermost group that has a line in the text. */
function groupOf(target: EventTarget | null): SVGGElement | undefined {
  const group = target instanceof Element ? target.closest('[data-known]') : null;
  return group instanceof SVGGElement ? group : undefined;
}

const originOf = (group: SVGGElement): string => group.dataset['origin'] ?? '';

/** In a box, a port leads to the end of its cable; without a place, to the box. */
function pick(group: SVGGElement, x = NaN, y = NaN): void {
  const port =
    shown === undefined || group.dataset['kind'] !== 'device' ? undefined : portAt(shown.ports, x, y);
  if (port !== undefined) host.postMessage({ type: 'select', origin: port.origin, end: port.end });
  else host.postMessage({ type: 'select', origin: originOf(group), end: null });
}

const groups = (): readonly SVGGElement[] => [
  ...stageElement.querySelectorAll<SVGGElement>('g[data-origin]'),
];

/** Lights what a source reaches, or nothing. It is worked out when somebody points at it for the first time. */
function light(group: SVGGElement | undefined): void {
  pointed = group;
  const origin = group === undefined ? '' : originOf(group);
  const reach = reaches.get(origin) ?? undefined;
  if (group?.dataset['kind'] === 'device' && !asked.has(origin)) {
    asked.add(origin);
    host.postMessage({ type: 'reach', origin });
  }
  stageElement.classList.toggle('reaching', reach !== undefined);
  const [lit, blind, unknown] = [new Set(reach?.lit), new Set(reach?.blind), new Set(reach?.unknown)];
  for (const one of groups()) {
    const device = one.dataset['kind'] === 'device' ? (one.dataset['name'] ?? '') : '';
    one.classList.toggle('lit', lit.has(originOf(one)));
    one.classList.toggle('blind', blind.has(device));
    one.classList.toggle('unknown', unknown.has(device));
  }
  const label = group?.getAttribute('aria-label') ?? switcher.told;
  const more = group !== undefined && references.has(group.id) ? ' Double-click, or G: turn to it.' : '';
  said.textContent = reach === undefined ? `${label}${more}` : reachText(reach);
}

/** Turns to where a wire goes on. */
function followReference(group: SVGGElement | undefined): void {
  const to = group === undefined ? undefined : references.get(group.id);
  const sheet = sheets.find(({ id }) => to?.startsWith(`${id}-`) === true);
  if (sheet === undefined) return;
  sought = ({ id }) => id === to;
  turn(sheet.id);
}

/** What the cursor is in: marked where it is shown, and led to where another sheet shows it. */
function mark(): void {
  const { origin, sheets: showing } = cursor;
  for (const one of groups()) one.classList.toggle('at', origin !== null && originOf(one) === origin);
  const here = shown;
  const elsewhere =
    here === undefined || showing.includes(here.id)
      ? undefined
      : (showing.find((id) => kindOf(id) === kindOf(here.id)) ?? showing[0]);
  go.hidden = elsewhere === undefined || origin === null;
  go.dataset['sheet'] = elsewhere ?? '';
  go.textContent =
    elsewhere === undefined || origin === null
      ? ''
      : `Show ${origin} on sheet ${switcher.numberOf(elsewhere)}, ${switcher.titleOf(elsewhere)}`;
}

/** Puts a sheet on the stage. Without its picture, it lies there already, or comes with another message. */
function lay({ id, key, origins, picture }: ShownSheet): void {
  const focused = document.hasFocus() && stageElement.contains(document.activeElement);
  const before = focused ? groupOf(document.activeElement)?.id : undefined;
  if (picture !== undefined) {
    const svg = pictureOf(picture.svg);
    if (svg === undefined) return;
    shown = { id, key, ports: picture.ports };
    references = new Map(picture.references.map((one) => [one.id, one.to]));
    stage.show(svg, picture, views.get(id));
  } else if (shown?.key !== key) return;
  // A sheet of several that is gone for a moment is shown again when it is back.
  wanted ??= id;
  known = new Set(origins);
  switcher.show(vessel, sheets, id);
  stageElement.setAttribute('aria-label', `${switcher.told}: ${switcher.titleOf(id)}`);
  dress();
  // Whoever goes from element to element by the keyboard goes on from there.
  const again = before === undefined ? undefined : groups().find((group) => group.id === before);
  if (focused) (again ?? stageElement).focus({ preventScroll: true });
  const found = sought && groups().find(sought);
  if (found !== undefined) stage.reveal(found);
  sought = undefined;
}

/** What may be clicked, and what is lit. */
function dress(): void {
  for (const group of groups()) {
    const has = known.has(originOf(group));
    group.toggleAttribute('data-known', has);
    if (has) group.setAttribute('tabindex', '-1');
    else group.removeAttribute('tabindex');
  }
  for (const tool of needing) tool.disabled = false;
  mark();
  light(pointed?.isConnected === true ? pointed : undefined);
}

function turn(id: string): void {
  wanted = id;
  keep();
  switcher.show(vessel, sheets, id);
  host.postMessage({ type: 'sheet', sheet: id });
}

/** Says why there is nothing to see. */
function clear(title: string, reason: string): void {
  [shown, sheets, known] = [undefined, [], new Set()];
  const [strong, text] = [document.createElement('strong'), document.createElement('p')];
  [strong.textContent, text.textContent] = [title, reason];
  stage.clear(strong, text);
  switcher.show(vessel, sheets, undefined);
  stageElement.setAttribute('aria-label', title);
  for (const tool of needing) tool.disabled = true;
  mark();
  light(undefined);
}

function tell(text: string): void {
  note.textContent = text;
  note.hidden = text === '';
}

function receive(message: ToPage): void {
  switch (message.type) {
    case 'busy':
      progress.hidden = !message.busy;
      stageElement.setAttribute('aria-busy', String(message.busy));
      return;
    case 'none':
      tell('');
      clear('No drawing', message.reason);
      return;
    case 'cursor':
      cursor = message;
      mark();
      return;
    case 'drift':
      label(byId('anew'), driftText(message.drifts), message.drifts.length > 0);
      return;
    case 'reach':
      reaches.set(message.origin, message.reach);
      if (pointed?.isConnected === true && originOf(pointed) === message.origin) light(pointed);
      return;
    case 'sheet':
      if (message.shown.id === wanted) lay(message.shown);
      return;
    case 'drawing':
      reaches.clear();
      asked.clear();
      ({ chosen, vessel, sheets } = message);
      options.hidden = !message.optional;
      label(options, chosen.length === 0 ? 'Options' : `Options: ${chosen.join(', ')}`, chosen.length > 0);
      tell(message.note);
      if (message.shown === null)
        clear('Nothing to draw yet', 'Declare a device, and it is drawn here while you type.');
      else lay(message.shown);
      keep();
  }
}

/** Words a tool; what is special about it is said even where there is little room. */
function label(tool: HTMLElement, text: string, special: boolean): void {
  tool.setAttribute('aria-label', text);
  tool.classList.toggle('set', special);
  tool.classList.toggle('brief', !special);
  const span = tool.querySelector('span');
  if (span !== null) span.textContent = text;
}

window.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
  const message = readToPage(data);
  if (message !== undefined) receive(message);
});
stageElement.addEventListener('pointerover', ({ target }) => light(groupOf(target)));
stageElement.addEventListener('dblclick', ({ target }) => followReference(groupOf(target)));
stageElement.addEventListener('pointerleave', () => light(undefined));
stageElement.addEventListener('focusin', ({ target }) => {
  const group = groupOf(target);
  if (group !== undefined) stage.reveal(group);
  light(group);
});
stageElement.addEventListener('keydown', (event) => {
  const at = groupOf(event.target);
  if (event.key === 'Enter' && at !== undefined) pick(at);
  else if (event.key === 'g') followReference(at);
  else if (event.key === 'PageDown' || event.key === 'PageUp')
    switcher.step(event.key === 'PageDown' ? 1 : -1);
  else if (event.key === 'n' || event.key === 'p') {
    const all = groups().filter((group) => group.hasAttribute('data-known'));
    const index = at === undefined ? -1 : all.indexOf(at);
    const next = event.key === 'n' ? index + 1 : index <= 0 ? all.length - 1 : index - 1;
    (all[next] ?? all[0])?.focus({ preventScroll: true });
  } else return;
  event.preventDefault();
});
go.addEventListener('click', () => {
  sought = (group) => group.classList.contains('at');
  turn(go.dataset['sheet'] ?? '');
});
byId('in').addEventListener('click', () => stage.zoom(true));
byId('out').addEventListener('click', () => stage.zoom(false));
byId('fit').addEventListener('click', () => stage.fit());
byId('anew').addEventListener('click', () => host.postMessage({ type: 'anew' }));
options.addEventListener('click', () => host.postMessage({ type: 'options' }));
byId('export').addEventListener('click', () =>
  host.postMessage({ type: 'export', sheet: shown?.id ?? null }),
);
for (const tool of needing) tool.disabled = true;
keep();
host.postMessage({ type: 'ready', sheet: wanted ?? null });
