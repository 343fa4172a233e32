/** The legend of a page of a diagram: the lines and signs that are on it. */
import { MEDIA } from '../../vessel/model.js';
import type { LegendEntry } from '../frame/legend.js';
import { lineItem, NARROW, rectItem, textItem } from '../scene/make.js';
import type { Item } from '../scene/scene.js';
import { mediumTitle, strokeOf } from '../style.js';
import { changedUnder, CHANGE_STROKES, CHANGE_WORDS, letterItems } from './changed.js';
import type { DiagramChange } from './diagram.js';
import type { PlacedPage } from './place.js';
import { EXISTING, markSign, protectionItems } from './render.js';

/** An entry for each kind of line, then for each sign. */
export function diagramLegend({ nodes }: PlacedPage): readonly LegendEntry[] {
  const rows = nodes.flatMap((placed) => placed.rows);
  const tags = rows.map((row) => row.wire[row.end].tag);
  const entries: LegendEntry[] = [...MEDIA, undefined]
    .filter((medium) => rows.some(({ wire }) => wire.stroke === strokeOf(medium)))
    .map((medium) => ({
      text: mediumTitle(medium),
      sample: (x, y) => [lineItem(x, y, x + 12, y, strokeOf(medium))],
    }));
  for (const change of ['added', 'removed', 'changed', 'same'] as const) {
    const on = nodes.some(
      ({ node, rows: own }) => node.change === change || own.some(({ wire }) => wire.change === change),
    );
    if (on) entries.push({ text: CHANGE_WORDS[change], sample: (x, y) => changeSample(x, y, change) });
  }
  for (const kind of ['fuse', 'breaker'] as const) {
    if (tags.some(({ device }) => device?.kind === kind))
      entries.push({
        text: kind,
        sample: (x, y) => [lineItem(x, y, x + 12, y), ...protectionItems(kind, x + 6, y)],
      });
  }
  if (tags.some(({ above, device }) => above.startsWith('(') || device?.text.startsWith('(') === true))
    entries.push({
      text: 'worked out',
      sample: (x, y) => [textItem(x + 6, y + 1.25, '(5 A)', { anchor: 'middle' })],
    });
  if (tags.some(({ below }) => below !== undefined))
    entries.push({
      text: 'voltage drop',
      sample: (x, y) => [textItem(x + 6, y + 1.25, '0.1 V', { anchor: 'middle' })],
    });
  if (
    tags.some(({ above, below, device }) =>
      [above, below, device?.text].some((text) => text?.includes('?') === true),
    )
  )
    entries.push({
      text: 'not known',
      sample: (x, y) => [textItem(x + 6, y + 1.25, '? m', { anchor: 'middle' })],
    });
  if (rows.some((row) => row.reference))
    entries.push({
      text: 'goes on at',
      sample: (x, y) => [
        {
          kind: 'line',
          closed: true,
          points: [
            { x, y: y - 2 },
            { x: x + 10, y: y - 2 },
            { x: x + 12, y },
            { x: x + 10, y: y + 2 },
            { x, y: y + 2 },
          ],
          stroke: NARROW,
        },
        textItem(x + 1, y + 1.25, '/3.B4'),
      ],
    });
  if (nodes.some(({ node }) => node.existing))
    entries.push({
      text: 'aboard already',
      sample: (x, y) => [rectItem({ x: x + 1, y: y - 1.5, width: 10, height: 3 }, EXISTING)],
    });
  if (nodes.some(({ node }) => node.marks.length > 0))
    entries.push({ text: 'finding', sample: (x, y) => [markSign(x + 4.6, y + 1.25)] });
  return entries;
}

/** A box and a line as they are marked, and the letter. */
function changeSample(x: number, y: number, change: DiagramChange): readonly Item[] {
  const box = { x, y: y - 2, width: 5, height: 4 };
  return [
    rectItem(box, CHANGE_STROKES[change], '#ffffff'),
    ...changedUnder(box, change),
    lineItem(x + 5, y, x + (change === 'same' ? 12 : 8), y, CHANGE_STROKES[change]),
    ...letterItems(x + 12, y - 2, change),
  ];
}
