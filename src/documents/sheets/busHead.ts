/** Over a backbone: its name, its figures, and what is found at it and at what has no box of its own. */
import type { BusAnalysis } from '../../checks/buses/buses.js';
import { number } from '../../vessel/words.js';
import { LINE_PITCH } from '../diagram/ends.js';
import { MARK_ROOM, markItems } from '../diagram/render.js';
import { GREY, textItem } from '../scene/make.js';
import type { GroupItem } from '../scene/scene.js';
import { widthOf } from '../text/measure.js';
import type { Facts } from './facts.js';

/** With no finding. */
const TITLE = 12.5;

/** Name, figures and findings of a backbone. */
export function titleItems(
  facts: Facts,
  analysis: BusAnalysis,
  sheetId: string,
  x: number,
  y: number,
  width: number,
): GroupItem {
  const { bus, lowest, traffic } = analysis;
  const worst = lowest();
  const metres = (value: number | undefined): string =>
    value === undefined ? '? m' : `${number(value, 1)} m`;
  const text = [
    bus.cable?.name ?? 'cable not known',
    `backbone ${metres(bus.backboneMetres)}`,
    `drops ${metres(bus.dropTotalMetres)}`,
    `${number(bus.loadUnits, 1)} load units`,
    worst === undefined
      ? 'lowest voltage not known'
      : `lowest ${number(worst.volts, 2)} V at ${worst.node.device}`,
    `bus load ${number(traffic().worstShare * 100, 0)} % at most`,
  ].join(',  ');
  const marks = marksOf(facts, analysis);
  return {
    kind: 'group',
    id: `${sheetId}-${bus.name}`,
    role: 'note',
    name: bus.name,
    label: `Backbone ${bus.name}: ${[text, ...marks].join(', ')}.`,
    origin: bus.backbone.origin,
    items: [
      textItem(x, y + 4, bus.name, { height: 3.5, bold: true, room: width }),
      textItem(x, y + 9, text, { colour: GREY, room: width }),
      ...markLines(marks, width).flatMap((line, index) =>
        line.flatMap((mark) =>
          markItems(x + mark.x, y + 9 + (index + 1) * LINE_PITCH, mark.text, width - mark.x),
        ),
      ),
    ],
  };
}

/** What they take. */
export const titleHeight = (facts: Facts, bus: BusAnalysis, width: number): number =>
  TITLE + markLines(marksOf(facts, bus), width).length * LINE_PITCH;

/** Findings at the backbone, and at what has no box of its own: a span by its number, a terminator by its name. */
function marksOf({ marksAt, numbering }: Facts, { bus }: BusAnalysis): readonly string[] {
  const { origin, items } = bus.backbone;
  return [
    ...marksAt(origin),
    ...items.flatMap((item) =>
      item.kind === 'tee' || item.kind === 'tap'
        ? []
        : marksAt(item.origin).map((rule) => `${numbering.of(item.origin) ?? item.kind}: ${rule}`),
    ),
  ];
}

/** Findings in lines of a width. */
function markLines(
  marks: readonly string[],
  width: number,
): readonly (readonly { readonly x: number; readonly text: string }[])[] {
  const lines: { readonly x: number; readonly text: string }[][] = [];
  let x = Infinity;
  for (const text of marks) {
    const taken = MARK_ROOM + widthOf(text) + 5;
    if (x + taken > width) {
      lines.push([]);
      x = 0;
    }
    lines.at(-1)?.push({ x, text });
    x += taken;
  }
  return lines;
}
