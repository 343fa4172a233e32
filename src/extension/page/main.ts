/** The page that shows a drawing. It knows nothing but what it is sent, and asks for nothing from anywhere. */
import {
  readPageState,
  readToPage,
  type FromPage,
  type PageState,
  type ToPage,
} from '../drawing/messages.js';
import { portAt, readView, sheetToShow, type View } from '../drawing/view.js';
import { reachText } from '../drawing/words.js';
import type { DrawnSheet, Reach } from '../server/drawing/protocol.js';
import { pictureOf } from './picture.js';
import { Stage } from './stage.js';

declare function acquireVsCodeApi(): {
  postMessage(message: FromPage): void;
  getState(): unknown;
  setState(state: unknown): void;
};
const host = acquireVsCodeApi();

function byId(id: string): HTMLElement {
  const element = document.getElementById(id);
  if (element === null) throw new Error(`The page has no ${id}.`);
  return element;
}
const [tabs, note, said, stageElement] = [byId('tabs'), byId('note'), byId('said'), byId('stage')];
const options = byId('options');

let sheets: readonly DrawnSheet[] = [];
let shown: DrawnSheet | undefined;
/** Null for what gives nothing; an element that is not in it has not been pointed at yet. */
const reaches = new Map<string, Reach | null>();
const asked = new Set<string>();
let pointed: SVGGElement | undefined;
let chosen: readonly string[] = [];
let known: ReadonlySet<string> = new Set();
let cursor: string | null = null;
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
  const lit = new Set(reach?.lit);
  for (const one of groups()) one.classList.toggle('lit', lit.has(originOf(one)));
  said.textContent = reach === undefined ? (group?.getAttribute('aria-label') ?? '') : reachText(reach);
}

function mark(): void {
  for (const one of groups()) one.classList.toggle('at', cursor !== null && originOf(one) === cursor);
}

function showSheet(): void {
  shown = sheetToShow(sheets, wanted);
  const picture = shown === undefined ? undefined : pictureOf(shown.svg);
  if (shown === undefined || picture === undefined) {
    stage.clear();
    if (sheets.length === 0) tell('This boat has nothing to draw yet.');
    return;
  }
  // A sheet of several that is gone for a moment is shown again when it is back.
  wanted ??= shown.id;
  stage.show(picture, shown, views.get(shown.id));
  dress();
  const { id } = shown;
  for (const tab of tabs.children) {
    const selected = tab instanceof HTMLElement && tab.dataset['sheet'] === id;
    tab.setAttribute('aria-selected', String(selected));
    tab.setAttribute('tabindex', selected ? '0' : '-1');
  }
}

/** What may be clicked, and what is lit. */
function dress(): void {
  for (const group of groups()) {
    const has = known.has(originOf(group));
    group.toggleAttribute('data-known', has);
    if (has) group.setAttribute('tabindex', '-1');
    else group.removeAttribute('tabindex');
  }
  mark();
  stageElement.classList.remove('reaching');
}

function showTabs(vessel: string): void {
  tabs.replaceChildren(
    ...sheets.map(({ id, title }) => {
      const tab = document.createElement('button');
      tab.type = 'button';
      tab.id = `tab-${id}`;
      tab.dataset['sheet'] = id;
      tab.setAttribute('role', 'tab');
      tab.setAttribute('aria-controls', 'stage');
      tab.textContent = title.startsWith(`${vessel}: `) ? title.slice(vessel.length + 2) : title;
      tab.addEventListener('click', () => choose(id));
      return tab;
    }),
  );
}

function choose(id: string): void {
  wanted = id;
  keep();
  showSheet();
}

function tell(text: string): void {
  note.textContent = text;
  note.hidden = text === '';
}

function receive(message: ToPage): void {
  switch (message.type) {
    case 'none':
      sheets = [];
      tabs.replaceChildren();
      showSheet();
      tell(message.reason);
      return;
    case 'cursor':
      cursor = message.origin;
      mark();
      return;
    case 'reach':
      reaches.set(message.origin, message.reach);
      if (pointed?.isConnected === true && originOf(pointed) === message.origin) light(pointed);
      return;
    case 'drawing':
      reaches.clear();
      asked.clear();
      ({ chosen } = message);
      options.hidden = !message.optional;
      options.textContent = chosen.length === 0 ? 'Options' : `Options: ${chosen.join(', ')}`;
      keep();
      known = new Set(message.origins);
      tell(message.note);
      if (message.sheets === null) {
        dress();
        return;
      }
      sheets = message.sheets;
      showTabs(message.vessel);
      showSheet();
  }
}

window.addEventListener('message', ({ data }: MessageEvent<unknown>) => {
  const message = readToPage(data);
  if (message !== undefined) receive(message);
});
stageElement.addEventListener('pointerover', ({ target }) => light(groupOf(target)));
stageElement.addEventListener('pointerleave', () => light(undefined));
stageElement.addEventListener('focusin', ({ target }) => light(groupOf(target)));
stageElement.addEventListener('keydown', (event) => {
  const at = groupOf(event.target);
  if (event.key === 'Enter' && at !== undefined) pick(at);
  else if (event.key === 'n' || event.key === 'p') {
    const all = groups().filter((group) => group.hasAttribute('data-known'));
    const index = at === undefined ? -1 : all.indexOf(at);
    const next = event.key === 'n' ? index + 1 : index <= 0 ? all.length - 1 : index - 1;
    (all[next] ?? all[0])?.focus({ preventScroll: true });
  } else return;
  event.preventDefault();
});
tabs.addEventListener('keydown', (event) => {
  const step = event.key === 'ArrowRight' ? 1 : event.key === 'ArrowLeft' ? -1 : 0;
  const index = sheets.findIndex((sheet) => sheet === shown);
  const next = step === 0 ? undefined : sheets.at((index + step) % sheets.length);
  if (next === undefined) return;
  event.preventDefault();
  choose(next.id);
  document.getElementById(`tab-${next.id}`)?.focus();
});
byId('in').addEventListener('click', () => stage.zoom(true));
byId('out').addEventListener('click', () => stage.zoom(false));
byId('fit').addEventListener('click', () => stage.fit());
options.addEventListener('click', () => host.postMessage({ type: 'options' }));
byId('export').addEventListener('click', () =>
  host.postMessage({ type: 'export', sheet: shown?.id ?? null }),
);
keep();
host.postMessage({ type: 'ready' });
