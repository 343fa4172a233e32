/** What is wrong with the texts of a scene: written small, over one another, over a line, out of their boxes. */
import type { Parts, Text } from './parts.js';
import { around, distance, enters, overlap, within, type Rect } from './shapes.js';

/** Text is at least this high, in mm. */
const LEAST = 2.5;
/** Ink that is this near to the edge of its rectangle is not yet on it. */
const SLACK = 0.05;

export function textFaults(parts: Parts): readonly string[] {
  return parts.texts.flatMap((text, index) => [
    ...(text.item.height < LEAST - 1e-6 ? [`"${text.item.text}" is only ${text.item.height} mm high`] : []),
    ...parts.texts
      .slice(index + 1)
      .filter((other) => overlap(text.ink, other.ink))
      .map((other) => `"${text.item.text}" is written over "${other.item.text}"`),
    ...overBoxes(text, parts),
    ...overLines(text, parts),
  ]);
}

function overBoxes({ item, ink, group }: Text, { devices, blocks }: Parts): readonly string[] {
  const own = blocks.filter((block) => block.group === group);
  return [
    ...devices.flatMap((device) => {
      if (device.group !== group)
        return overlap(ink, device.box)
          ? [`"${item.text}" is written over the box ${device.group.name}`]
          : [];
      return within(ink, device.box) ? [] : [`"${item.text}" sticks out of the box ${group.name}`];
    }),
    ...blocks
      .filter((block) => block.group !== group && overlap(ink, block.box))
      .map((block) => `"${item.text}" is written over the ${block.group.name}`),
    // The title of a table stands over it.
    ...(group.role === 'note' && own.length > 0 && !own.some((block) => within(ink, block.box))
      ? [`"${item.text}" sticks out of the ${group.name}`]
      : []),
  ];
}

/** Conductors and the lines of boxes, signs and tables; dots too. */
function overLines({ item, ink }: Text, { conductors, pens, dots }: Parts): readonly string[] {
  const less = (half: number): Rect => ({
    left: ink.left - half + SLACK,
    right: ink.right + half - SLACK,
    top: ink.top - half + SLACK,
    bottom: ink.bottom + half - SLACK,
  });
  const names = [
    ...conductors.flatMap(({ group, stretches, half }) =>
      stretches.some((stretch) => enters(stretch, less(half)))
        ? [`${group.name} goes through "${item.text}"`]
        : [],
    ),
    ...pens.flatMap(({ group, stretch, half }) =>
      enters(stretch, less(half)) ? [`"${item.text}" is written over a line of ${group.name}`] : [],
    ),
    ...dots.flatMap(({ group, item: dot }) =>
      overlap(ink, around([dot], dot.radius)) && distanceTo(ink, dot) < dot.radius - SLACK
        ? [`"${item.text}" is written over a dot of ${group.name}`]
        : [],
    ),
  ];
  return [...new Set(names)];
}

/** How far a point is from a rectangle. */
function distanceTo(
  { left, right, top, bottom }: Rect,
  point: { readonly x: number; readonly y: number },
): number {
  const x = Math.min(right, Math.max(left, point.x));
  const y = Math.min(bottom, Math.max(top, point.y));
  return distance(point, { from: { x, y }, to: { x, y } });
}
